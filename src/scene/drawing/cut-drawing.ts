import {
  BufferAttribute,
  BufferGeometry,
  DataTexture,
  FloatType,
  Group,
  Mesh,
  NearestFilter,
  RGBAFormat,
  type ShaderMaterial,
} from 'three';
import { ACROSS } from '../../reach/columns/column-cutter.ts';
import type { CutPlane, FieldCut } from '../../reach/field/field-cut.ts';
import { type FieldScale, fieldShare } from '../colour/field-scale.ts';
import { FIRMNESS_CONTOUR, firmnessShare } from '../colour/firmness-scale.ts';
import { mapOf } from '../colour/maps.ts';
import { type CutUniforms, cutMaterials, newCutUniforms } from './cut-material.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { MapTextures } from './map-textures.ts';
import { COLOUR_BY } from './reach-material.ts';

/** How a cut is coloured. */
export interface CutStyle {
  /** The scale of the quantity that it shows; null: by firmness. */
  readonly scale: FieldScale | null;
  readonly byLimit: boolean;
  readonly stale: boolean;
}

/** Stands for a value that there is none of, below every place on the map. */
const NONE = -1;

/** The section of the reach by a plane, filled with the colours of its field. */
export class CutDrawing {
  readonly object = new Group();
  private readonly geometry = new BufferGeometry();
  private readonly faces: readonly Mesh<BufferGeometry, ShaderMaterial>[];
  private readonly uniforms: CutUniforms;
  private readonly maps = new MapTextures();
  private shown: FieldCut | null = null;
  private scale: FieldScale | null = null;
  private byLimit = false;

  constructor(frame: FrameUniforms) {
    this.uniforms = newCutUniforms(frame, this.maps.of(mapOf(null)), emptyTexture());
    const { geometry } = this;
    geometry.setAttribute('position', new BufferAttribute(new Float32Array(12), 3));
    geometry.setAttribute('corner', new BufferAttribute(Float32Array.of(0, 0, 1, 0, 1, 1, 0, 1), 2));
    geometry.setIndex([0, 1, 2, 0, 2, 3]);
    this.faces = cutMaterials(this.uniforms).map((material, n) => {
      const face = new Mesh(geometry, material);
      face.frustumCulled = false;
      // first through what stands before it, while the depth is still that of the platform alone
      face.renderOrder = 18 - n;
      // it is dragged by its handle, not by its face: the face is where one turns the view
      face.raycast = () => undefined;
      return face;
    });
    this.object.visible = false;
    this.object.add(...this.faces);
  }

  update(cut: FieldCut | null, style: CutStyle): void {
    this.object.visible = cut !== null;
    if (!cut) return;
    const { scale, byLimit } = style;
    if (cut !== this.shown || scale !== this.scale || byLimit !== this.byLimit) this.fill(cut, scale, byLimit);
    this.shown = cut;
    this.scale = scale;
    this.byLimit = byLimit;
    const { uniforms } = this;
    uniforms.colourBy.value = byLimit ? COLOUR_BY.limit : COLOUR_BY.scale;
    uniforms.table.value = this.maps.of(mapOf(scale));
    uniforms.contour.value = scale?.contour ?? FIRMNESS_CONTOUR;
    uniforms.stale.value = style.stale ? 1 : 0;
  }

  dispose(): void {
    this.uniforms.cells.value.dispose();
    this.maps.dispose();
    this.geometry.dispose();
    for (const { material } of this.faces) material.dispose();
  }

  private fill(cut: FieldCut, scale: FieldScale | null, byLimit: boolean): void {
    const { cells, nodes } = this.uniforms;
    const [columns, rows] = cut.nodes;
    if (cells.value.image.width !== columns || cells.value.image.height !== rows) {
      cells.value.dispose();
      cells.value = cellTexture(columns, rows);
    }
    const { data } = cells.value.image;
    if (!(data instanceof Float32Array)) throw new Error('the cut is kept in single precision');
    writeCells(cut, scale, byLimit, data);
    cells.value.needsUpdate = true;
    nodes.value.set(columns, rows);
    placeCorners(this.geometry, cut.plane);
  }
}

/** Place on the map (or number of the limit), room, slack and sign of every node. */
export function writeCells(cut: FieldCut, scale: FieldScale | null, byLimit: boolean, data: Float32Array): void {
  const { values, limits, room, slack, sign } = cut;
  for (let n = 0; n < values.length; n++) {
    const share = scale ? fieldShare(scale, values[n]) : firmnessShare(values[n]);
    data[4 * n] = byLimit ? limits[n] : Number.isNaN(share) ? NONE : share;
    data[4 * n + 1] = room[n];
    data[4 * n + 2] = slack[n];
    data[4 * n + 3] = sign[n];
  }
}

function cellTexture(columns: number, rows: number): DataTexture {
  const texture = new DataTexture(new Float32Array(4 * columns * rows), columns, rows, RGBAFormat, FloatType);
  // the shader reads single cells and mixes them itself, so that no extension is needed
  texture.minFilter = NearestFilter;
  texture.magFilter = NearestFilter;
  return texture;
}

const emptyTexture = () => cellTexture(1, 1);

/** The four corners of a cut in base axes. */
export function cutCorners({ axis, at, low, high }: CutPlane): readonly (readonly [number, number, number])[] {
  const [u, v] = ACROSS[axis];
  return [
    [low[0], low[1]],
    [high[0], low[1]],
    [high[0], high[1]],
    [low[0], high[1]],
  ].map(([across, along]) => {
    const corner: [number, number, number] = [0, 0, 0];
    corner[axis] = at;
    corner[u] = across;
    corner[v] = along;
    return corner;
  });
}

function placeCorners(geometry: BufferGeometry, plane: CutPlane): void {
  const position = geometry.getAttribute('position');
  cutCorners(plane).forEach(([x, y, z], n) => {
    position.setXYZ(n, x, y, z);
  });
  position.needsUpdate = true;
}
