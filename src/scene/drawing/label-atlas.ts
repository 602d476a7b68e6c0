import { CanvasTexture, LinearFilter, LinearMipmapLinearFilter } from 'three';

/** How a label is written: in a ring (leg numbers), in a box (plate letters), or bare with a halo of paper. */
export type LabelFrame = 'ring' | 'box' | 'bare';

/** One label in the atlas: place in it (shares of its size, y up) and size on screen [CSS px]. */
export interface LabelPlace {
  readonly u: number;
  readonly v: number;
  readonly du: number;
  readonly dv: number;
  readonly width: number;
  readonly height: number;
}

/** Canvas pixels for one CSS pixel: sharp on screens up to this density. */
const DENSITY = 3;
const CELL = 30;
const COLUMNS = 8;
const ROWS = 8;
const FONT_PX = 13;
const HALO_PX = 4;

/**
 * All label texts of the drawing on one canvas, as two coverages: red where there is ink, green where there is paper. The shader
 * gives them their colours, so that a change of theme needs no new picture.
 */
export class LabelAtlas {
  readonly texture: CanvasTexture;
  private readonly canvas: HTMLCanvasElement;
  private readonly places = new Map<string, LabelPlace>();
  private readonly written: (readonly [string, LabelFrame])[] = [];
  private cell = 0;

  constructor() {
    this.canvas = document.createElement('canvas');
    this.canvas.width = COLUMNS * CELL * DENSITY;
    this.canvas.height = ROWS * CELL * DENSITY;
    this.texture = new CanvasTexture(this.canvas);
    this.texture.minFilter = LinearMipmapLinearFilter;
    this.texture.magFilter = LinearFilter;
    this.texture.anisotropy = 4;
  }

  /** Where a text stands; writes it the first time. */
  place(text: string, frame: LabelFrame): LabelPlace {
    const key = `${frame} ${text}`;
    const known = this.places.get(key);
    if (known) return known;
    this.written.push([text, frame]);
    const place = this.write(text, frame);
    this.places.set(key, place);
    return place;
  }

  /** Writes everything again, as when the page's font has arrived. */
  rewrite(): void {
    this.context().clearRect(0, 0, this.canvas.width, this.canvas.height);
    this.cell = 0;
    this.places.clear();
    for (const [text, frame] of this.written) this.places.set(`${frame} ${text}`, this.write(text, frame));
  }

  dispose(): void {
    this.texture.dispose();
  }

  private context(): CanvasRenderingContext2D {
    const context = this.canvas.getContext('2d');
    if (!context) throw new Error('no 2D canvas');
    return context;
  }

  private write(text: string, frame: LabelFrame): LabelPlace {
    const context = this.context();
    const family = getComputedStyle(document.documentElement).getPropertyValue('--font') || 'sans-serif';
    context.font = `${frame === 'bare' ? 600 : 650} ${FONT_PX}px ${family}`;
    const cells = Math.max(1, Math.ceil((context.measureText(text).width + 2 * HALO_PX + 2) / CELL));
    const column = this.cell % COLUMNS;
    if (column + cells > COLUMNS) this.cell += COLUMNS - column;
    const x = (this.cell % COLUMNS) * CELL;
    const y = Math.floor(this.cell / COLUMNS) * CELL;
    this.cell += cells;
    context.setTransform(DENSITY, 0, 0, DENSITY, x * DENSITY, y * DENSITY);
    paint(context, text, frame, cells * CELL);
    this.texture.needsUpdate = true;
    return {
      u: x / (COLUMNS * CELL),
      v: 1 - (y + CELL) / (ROWS * CELL),
      du: cells / COLUMNS,
      dv: 1 / ROWS,
      width: cells * CELL,
      height: CELL,
    };
  }
}

const PAPER = '#00ff00';
const INK = '#ff0000';

function paint(context: CanvasRenderingContext2D, text: string, frame: LabelFrame, width: number): void {
  const cx = width / 2;
  const cy = CELL / 2;
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  context.lineJoin = 'round';
  if (frame === 'bare') {
    context.strokeStyle = PAPER;
    context.lineWidth = HALO_PX;
    context.strokeText(text, cx, cy + 1);
  } else {
    const half = frame === 'ring' ? 9.5 : 9;
    context.beginPath();
    if (frame === 'ring') context.arc(cx, cy, half, 0, 2 * Math.PI);
    else context.rect(cx - half, cy - half, 2 * half, 2 * half);
    context.strokeStyle = PAPER;
    context.lineWidth = 4.5;
    context.stroke();
    context.fillStyle = PAPER;
    context.fill();
    context.strokeStyle = INK;
    context.lineWidth = 1.3;
    context.stroke();
  }
  context.fillStyle = INK;
  context.fillText(text, cx, cy + 1);
}
