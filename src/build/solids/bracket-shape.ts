import type { PlateName } from '../../kinematics/layout.ts';
import { degrees as degreesOf, radians } from '../../terms/units.ts';
import type { BracketKind } from '../bracket-kinds.ts';
import type { Point } from '../joint-mounts.ts';
import { shown } from '../numerals.ts';
import type { BuildParts } from '../parts.ts';

/** Material that stays under and beside a cavity of a bracket [mm]; thinner walls break out when printed or drilled (rule of thumb). */
export const LEAST_WALL = 1.5;

/** What holds the joint. */
export type Seat =
  /** A ball that snaps in: a sphere about the joint's centre, open above the bracket's flat. */
  | { readonly kind: 'cup'; readonly radius: number }
  /** A stud that is screwed in: a bore along the mount axis, `depth` below the flat. */
  | { readonly kind: 'bore'; readonly radius: number; readonly depth: number };

/**
 * A bracket in its own frame: foot in z = 0 with its middle at the origin, x toward its lean. A square block whose flat top is square to the mount
 * axis; the joint's centre stands at (0, 0, `height`).
 */
export interface BracketShape {
  readonly side: number;
  readonly height: number;
  readonly lean: number;
  /** Distance of the flat from the joint's centre along the axis [mm]; negative: below it. */
  readonly flat: number;
  readonly seat: Seat;
  /** Holes from below, upright. */
  readonly bolts: readonly { readonly at: Point; readonly radius: number; readonly depth: number | 'through' }[];
  readonly warnings: readonly string[];
}

/** z of the flat over a place of the foot. */
export const flatAbove = ({ height, flat, lean }: BracketShape, x: number): number =>
  height + (flat - x * Math.sin(lean)) / Math.cos(lean);

/** The bracket of a kind; null, with the reason, when none can be made. */
export function bracketShape(
  parts: BuildParts,
  side: PlateName,
  { height, lean, legs }: BracketKind,
): { readonly shape: BracketShape | null; readonly warnings: readonly string[] } {
  const { choices, mechanism } = parts;
  const name = `Bracket of legs ${legs.join(', ')}, ${side}`;
  const ball = (mechanism.spec.joints[side].kind?.kind ?? 'ball') === 'ball';
  const radius = choices.ball / 2;
  const rim = radians(choices.rim);
  const flat = ball ? radius * Math.cos(rim) : -choices.standoff;
  const warnings: string[] = [];
  const impossible = (why: string) => ({ shape: null, warnings: [`${name}: not made, ${why}.`] });
  if (lean > STEEPEST) return impossible(`it would lean ${shown(degreesOf(lean), 1)} deg; at most 60 deg is made`);
  const [c, s] = [Math.cos(lean), Math.sin(lean)];
  const lowest = height + (flat - (choices.block / 2) * s) / c;
  if (lowest < LEAST_WALL) {
    const need = LEAST_WALL - lowest + height;
    return impossible(
      `the joint stands ${shown(height, 1)} mm over the face and the block's low edge needs ${shown(need, 1)} mm; raise the joint or make the block smaller`,
    );
  }
  let seat: Seat;
  let cavity: number;
  if (ball) {
    seat = { kind: 'cup', radius };
    cavity = height - radius;
    if (cavity < LEAST_WALL)
      return impossible(
        `the joint stands ${shown(height, 1)} mm over the face and a ball of ${choices.ball} mm needs ${shown(radius + LEAST_WALL, 1)} mm`,
      );
    if (choices.block / 2 - radius < LEAST_WALL)
      return impossible(
        `a block of ${choices.block} mm leaves less than ${LEAST_WALL} mm beside a ball of ${choices.ball} mm`,
      );
    const tilt = rim - Math.asin(Math.min(choices.neck / choices.ball, 1));
    const wanted = mechanism.tiltLimit[side];
    if (tilt < wanted - TILT_SLACK)
      warnings.push(
        `${name}: a rim at ${choices.rim} deg and a neck of ${choices.neck} mm let the ball tilt ${shown(degreesOf(tilt), 1)} deg; the design asks ${shown(degreesOf(wanted), 1)} deg.`,
      );
  } else {
    const bore = choices.neck / 2;
    const top = height - choices.standoff * c;
    const room = (top - LEAST_WALL - bore * s) / c;
    const depth = Math.min(BORE_DEPTH * choices.neck, room);
    if (depth < choices.neck / 2) return impossible('there is no room for the bore of its stud');
    if (choices.block / 2 - bore / c - depth * s < LEAST_WALL)
      return impossible('the bore would break out of its side');
    seat = { kind: 'bore', radius: bore, depth };
    cavity = top - depth * c - bore * s;
  }
  const bolts = boltHoles(parts, cavity, ball ? radius : choices.neck / 2, name, warnings);
  return { shape: { side: choices.block, height, lean, flat, seat, bolts, warnings }, warnings };
}

/** Blocks that lean more would be all slope [rad]: 60 deg. */
const STEEPEST = Math.PI / 3;

/** Depth of a stud's bore in its diameters (common practice, no source). */
const BORE_DEPTH = 2.5;

/** A tilt this much short is none [rad]: 0.05 deg, below what a printer holds. */
const TILT_SLACK = 1e-3;

function boltHoles(
  { choices }: BuildParts,
  cavity: number,
  seatRadius: number,
  name: string,
  warnings: string[],
): BracketShape['bolts'] {
  const radius = choices.hole / 2;
  if (choices.bolts === 'none') return [];
  if (choices.bolts === '1') {
    const depth = cavity - LEAST_WALL;
    if (depth < choices.hole) {
      warnings.push(
        `${name}: no room for a bolt from below, only ${shown(Math.max(depth, 0), 1)} mm deep; it has none.`,
      );
      return [];
    }
    return [{ at: [0, 0], radius, depth }];
  }
  const half = choices.boltSpacing / 2;
  const places: readonly Point[] =
    choices.bolts === '2'
      ? [
          [-half, 0],
          [half, 0],
        ]
      : [
          [-half, -half],
          [half, -half],
          [half, half],
          [-half, half],
        ];
  const reach = choices.bolts === '2' ? half : Math.SQRT2 * half;
  const outer = half + radius + LEAST_WALL;
  if (outer > choices.block / 2 || reach - radius < seatRadius + LEAST_WALL) {
    warnings.push(
      `${name}: its bolts do not fit; it has none. A side of ${shown(2 * outer, 1)} mm and a spacing of ${shown(2 * (seatRadius + radius + LEAST_WALL), 1)} mm would do.`,
    );
    return [];
  }
  return places.map((at) => ({ at, radius, depth: 'through' as const }));
}
