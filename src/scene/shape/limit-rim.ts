import { type JointShape, squareTo } from '../../kinematics/joint-shapes.ts';
import { add, cross, scale, type Vec3 } from '../../math/vec3.ts';
import { RIM_CORNERS, writeConeRim } from './cone-rim.ts';

/** A line along the rim: from corner `first` on, `count` corners, back to the first where it is closed. */
export interface RimLine {
  readonly first: number;
  readonly count: number;
  readonly closed: boolean;
}

/** What of a joint's rim is a limit, and from which corners thin lines run to the joint. */
export interface RimMarks {
  readonly lines: readonly RimLine[];
  readonly spokes: readonly number[];
}

const EIGHTH = RIM_CORNERS / 8;
const HALF = RIM_CORNERS / 2;

const ROUND: RimMarks = {
  lines: [{ first: 0, count: RIM_CORNERS, closed: true }],
  spokes: Array.from({ length: 8 }, (_, i) => i * EIGHTH),
};

/** The band goes on round the bolt: its two long edges are limits, the ends of what is drawn are not. */
const BAND: RimMarks = {
  lines: [
    { first: 0, count: HALF, closed: false },
    { first: HALF, count: HALF, closed: false },
  ],
  spokes: [],
};

const FOUR_SIDED: RimMarks = {
  lines: ROUND.lines,
  spokes: [0, 1, 2, 3].map((side) => side * (RIM_CORNERS / 4)),
};

export const RIM_MARKS: Readonly<Record<JointShape['kind'], RimMarks>> = {
  ball: ROUND,
  rodEnd: BAND,
  universal: FOUR_SIDED,
};

/** Angles are drawn up to this from the middle of a limit: beyond it the fan would fold onto itself [rad]. */
const WIDEST = (175 * Math.PI) / 180;

/** Half the turn round the bolt that a band is drawn for [rad]; it goes on all the way round. */
const BAND_TURN = Math.PI / 2;

/**
 * Writes where a joint's limit lies at `slant` from the joint: RIM_CORNERS points, a closed loop whose fan from the joint is
 * the room the leg has. A ball has a cone, a universal joint a four-sided pyramid with curved sides, a rod end the half of its
 * band that faces the other plate.
 * @param mount the joint's mount axis, plate axes: the middle of the drawn half of a band
 * @param rim flat 3 * RIM_CORNERS numbers from `offset` on are written [mm]
 */
export function writeLimitRim(
  shape: JointShape,
  mount: Vec3,
  apex: Vec3,
  slant: number,
  rim: Float64Array | Float32Array,
  offset: number,
): void {
  if (shape.kind === 'ball') {
    writeConeRim(apex, shape.axis, shape.limit, slant, rim, offset);
    return;
  }
  const direction = shape.kind === 'rodEnd' ? bandDirection(shape.bolt, shape.limit, mount) : pyramidDirection(shape);
  for (let i = 0; i < RIM_CORNERS; i++) {
    const corner = add(apex, scale(direction(i), slant));
    for (let k = 0; k < 3; k++) rim[offset + 3 * i + k] = corner[k];
  }
}

/** Corners go along one edge of the band and back along the other. */
function bandDirection(bolt: Vec3, limit: number, mount: Vec3): (corner: number) => Vec3 {
  // a mount along the bolt names no side; the plate's own x or y then serves
  const middle = squareTo(bolt, mount) ?? squareTo(bolt, [1, 0, 0]) ?? [0, 1, 0];
  const across = cross(bolt, middle);
  return (corner) => {
    const there = corner < HALF;
    const share = (there ? corner : RIM_CORNERS - 1 - corner) / (HALF - 1);
    const turn = (2 * share - 1) * BAND_TURN;
    const flat = Math.cos(limit);
    const side = Math.sin(limit) * (there ? 1 : -1);
    return add(scale(bolt, side), add(scale(middle, flat * Math.cos(turn)), scale(across, flat * Math.sin(turn))));
  };
}

/** Corners go round the rectangle of the two angles; directions as `universalAngles` measures them. */
function pyramidDirection({
  axis,
  first,
  firstLimit,
  secondLimit,
}: Extract<JointShape, { readonly kind: 'universal' }>): (corner: number) => Vec3 {
  const side = cross(axis, first);
  const most = Math.min(firstLimit, WIDEST);
  return (corner) => {
    const quarter = RIM_CORNERS / 4;
    const along = (2 * (corner % quarter)) / quarter - 1;
    const [a, b] = [
      [along, -1],
      [1, along],
      [-along, 1],
      [-1, -along],
    ][Math.floor(corner / quarter)];
    const [one, two] = [a * most, b * secondLimit];
    const flat = Math.cos(two);
    return add(scale(first, Math.sin(two)), add(scale(axis, flat * Math.cos(one)), scale(side, flat * Math.sin(one))));
  };
}
