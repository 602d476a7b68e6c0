import { ChevronDown, ChevronLeft, ChevronRight, ChevronUp } from 'lucide-react';
import { type PointerEvent, type ReactNode, useMemo, useRef } from 'react';
import type { StandardView } from '../../state/session/session-store.ts';
import { Button } from '../../ui/Button.tsx';
import { usePanelSize } from '../flat/use-panel-size.ts';
import { LayoutFigure, ReachFigure } from './ComparedLayout.tsx';
import { type ComparedDrawing, type Surroundings, surroundings } from './compared-drawing.ts';
import styles from './compared-views.module.css';
import { onSheet, STANDARD_ANGLES, turned, type ViewAngles, type ViewBasis, viewBasis } from './turned-view.ts';

interface ComparedViewsProps {
  readonly drawings: readonly ComparedDrawing[];
  /** Every design in a picture of its own, or all reaches in one. */
  readonly kind: 'in step' | 'overlaid';
  readonly angles: ViewAngles;
  readonly onAngles: (change: (now: ViewAngles) => ViewAngles) => void;
}

/** Designs drawn to one scale from one direction: turning one turns all. */
export function ComparedViews({ drawings, kind, angles, onAngles }: ComparedViewsProps) {
  const basis = useMemo(() => viewBasis(angles), [angles]);
  const around = useMemo(() => surroundings(drawings), [drawings]);
  const turn = (about: number, upward: number) => onAngles((now) => turned(now, about, upward));
  const picture = { basis, around, onTurn: turn };
  return (
    <div className={styles['views']}>
      <Turner onView={(view) => onAngles(() => STANDARD_ANGLES[view])} onTurn={turn} />
      {kind === 'overlaid' ? (
        <Overlay drawings={drawings} {...picture} />
      ) : (
        <div className={styles['sheets']}>
          {drawings.map((drawing) => (
            <figure key={drawing.letter}>
              <Sheet {...picture} title={`Design ${drawing.letter}, ${drawing.title}`}>
                {(hair) => (
                  <>
                    <LayoutFigure drawing={drawing} basis={basis} hair={hair} />
                    <ReachFigure drawing={drawing} basis={basis} hair={hair} filled />
                  </>
                )}
              </Sheet>
              <figcaption>
                <b>{drawing.letter}</b> {drawing.title}
              </figcaption>
            </figure>
          ))}
        </div>
      )}
    </div>
  );
}

interface PictureProps {
  readonly basis: ViewBasis;
  readonly around: Surroundings;
  /** [rad] about Z and upward */
  readonly onTurn: (about: number, upward: number) => void;
}

/** All reaches in one picture, over the layout of the first design. */
function Overlay({ drawings, ...picture }: PictureProps & { readonly drawings: readonly ComparedDrawing[] }) {
  const { basis } = picture;
  return (
    <figure className={styles['overlay']}>
      <Sheet
        {...picture}
        title={`Outlines of the reaches of designs ${drawings.map(({ letter }) => letter).join(', ')}`}
      >
        {(hair) => (
          <>
            {drawings.slice(0, 1).map((drawing) => (
              <g key={drawing.letter} className={styles['faint']}>
                <LayoutFigure drawing={drawing} basis={basis} hair={hair} />
              </g>
            ))}
            {drawings.map((drawing) => (
              <ReachFigure key={drawing.letter} drawing={drawing} basis={basis} hair={hair} />
            ))}
            {drawings.map((drawing, place) => (
              <ReachLetter key={drawing.letter} drawing={drawing} place={place} basis={basis} hair={hair} />
            ))}
          </>
        )}
      </Sheet>
      <figcaption>
        Reach of each design at its home orientation; the layout drawn faintly is design {drawings[0]?.letter}.
      </figcaption>
    </figure>
  );
}

interface ReachLetterProps {
  readonly drawing: ComparedDrawing;
  readonly place: number;
  readonly basis: ViewBasis;
  readonly hair: number;
}

/** Directions in which the letters stand at the rims of their reaches, apart from one another (right, upward). */
const LETTER_SIDES = [
  [-0.8, 0.6],
  [0.8, 0.6],
  [0.8, -0.6],
  [-0.8, -0.6],
] as const;

/** A reach's letter, at the point of its rim that lies furthest in its own direction. */
function ReachLetter({ drawing: { shell, letter }, place, basis, hair }: ReachLetterProps) {
  const spot = useMemo(() => {
    if (!shell || shell.positions.length === 0) return null;
    const [right, down] = [LETTER_SIDES[place][0], -LETTER_SIDES[place][1]];
    let best: readonly [number, number] = [0, 0];
    let furthest = Number.NEGATIVE_INFINITY;
    const { positions } = shell;
    for (let i = 0; i < positions.length; i += 3) {
      const [x, y] = onSheet(basis, [positions[i], positions[i + 1], positions[i + 2]]);
      const reach = x * right + y * down;
      if (reach > furthest) {
        furthest = reach;
        best = [x, y];
      }
    }
    return best;
  }, [shell, place, basis]);
  if (!spot) return null;
  return (
    <g className={styles['letter']} transform={`translate(${spot[0]} ${spot[1]}) scale(${hair})`}>
      <circle r="9" />
      <text>{letter}</text>
    </g>
  );
}

interface SheetProps extends PictureProps {
  readonly title: string;
  readonly children: (hair: number) => ReactNode;
}

/** Turn of the view for each CSS pixel dragged [rad]. */
const TURN_PER_PIXEL = 0.008;

/** Room round the drawing, as a factor of its radius. */
const MARGIN = 1.06;

/** One picture of a view; dragging it turns the view. `children` gets the width of a CSS pixel [mm]. */
function Sheet({ basis, around, onTurn, title, children }: SheetProps) {
  const [frame, size] = usePanelSize();
  const last = useRef<readonly [number, number] | null>(null);
  const radius = MARGIN * around.radius;
  const hair = size && size.width > 0 ? (2 * radius) / Math.min(size.width, size.height) : 0;
  const width = (size?.width ?? 0) * hair;
  const height = (size?.height ?? 0) * hair;
  const [x, y] = onSheet(basis, around.centre);
  const drag = (event: PointerEvent) => {
    if (!last.current) return;
    const [fromX, fromY] = last.current;
    last.current = [event.clientX, event.clientY];
    onTurn(-(event.clientX - fromX) * TURN_PER_PIXEL, (event.clientY - fromY) * TURN_PER_PIXEL);
  };
  return (
    <div
      ref={frame}
      className={styles['sheet']}
      onPointerDown={(event) => {
        last.current = [event.clientX, event.clientY];
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={drag}
      onPointerUp={() => {
        last.current = null;
      }}
      onPointerCancel={() => {
        last.current = null;
      }}
    >
      {hair > 0 && (
        <svg viewBox={`${x - width / 2} ${y - height / 2} ${width} ${height}`} role="img" aria-label={title}>
          {children(hair)}
        </svg>
      )}
    </div>
  );
}

const VIEWS: readonly (readonly [StandardView, string])[] = [
  ['isometric', 'Isometric'],
  ['top', 'Top'],
  ['front', 'Front'],
  ['right', 'Right'],
];

/** One press of an arrow [rad]: 15 deg. */
const STEP = Math.PI / 12;

const ARROWS = [
  ['Turn left', ChevronLeft, -STEP, 0],
  ['Turn right', ChevronRight, STEP, 0],
  ['Look from higher', ChevronUp, 0, STEP],
  ['Look from lower', ChevronDown, 0, -STEP],
] as const;

interface TurnerProps {
  readonly onView: (view: StandardView) => void;
  readonly onTurn: PictureProps['onTurn'];
}

/** Standard views and steps, for whoever does not drag. */
const Turner = ({ onView, onTurn }: TurnerProps) => (
  <fieldset className={styles['turner']}>
    <legend>View of all designs</legend>
    {VIEWS.map(([view, name]) => (
      <Button key={view} onClick={() => onView(view)}>
        {name}
      </Button>
    ))}
    {ARROWS.map(([name, Icon, about, upward]) => (
      <Button look="quiet" key={name} aria-label={name} title={name} onClick={() => onTurn(about, upward)}>
        <Icon size={15} aria-hidden="true" />
      </Button>
    ))}
  </fieldset>
);
