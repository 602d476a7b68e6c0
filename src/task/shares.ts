import { POSE_NUMBERS } from '../reach/pose-box.ts';
import { clampShares, type Piece } from './piece.ts';

/** Azimuths looked at on the rim of a tilt cone: twice the number of legs, so that no leg lies farther than 15 deg from one. */
const RIM_AZIMUTHS = 12;

/** Shares of corners, middles of edges and faces of every dimension, and the centre; of a round piece the like. Flat, six each. */
export function latticeShares(piece: Piece): Float64Array {
  const { kind, half } = piece;
  const steps = (axis: number): readonly number[] => (half[axis] > 0 ? [-1, 1, 0] : [0]);
  const positions =
    kind === 'box' ? triples(steps(0), steps(1), steps(2)) : roundPositions(half[0] > 0, half[1] > 0, half[2] > 0);
  const turns =
    kind === 'box'
      ? triples(steps(3), steps(4), steps(5))
      : tilts(half[3] > 0).flatMap(([u, v]) => steps(5).map((yaw) => [u, v, yaw] as const));
  const all = new Float64Array(POSE_NUMBERS * positions.length * turns.length);
  let at = 0;
  for (const turn of turns) {
    for (const position of positions) {
      all.set(position, at);
      all.set(turn, at + 3);
      at += POSE_NUMBERS;
    }
  }
  return all;
}

type Triple = readonly [number, number, number];

const triples = (a: readonly number[], b: readonly number[], c: readonly number[]): readonly Triple[] =>
  a.flatMap((x) => b.flatMap((y) => c.map((z): Triple => [x, y, z])));

/** Centre, ends of the axes and the diagonals between them, on the ball. */
function roundPositions(x: boolean, y: boolean, z: boolean): readonly Triple[] {
  const steps = (varies: boolean) => (varies ? [-1, 1, 0] : [0]);
  return triples(steps(x), steps(y), steps(z)).map(([a, b, c]): Triple => {
    const size = Math.hypot(a, b, c);
    return size > 0 ? [a / size, b / size, c / size] : [0, 0, 0];
  });
}

const tilts = (varies: boolean): readonly (readonly [number, number])[] =>
  varies
    ? [
        ...Array.from({ length: RIM_AZIMUTHS }, (_, n): readonly [number, number] => {
          const azimuth = (2 * Math.PI * n) / RIM_AZIMUTHS;
          return [Math.cos(azimuth), Math.sin(azimuth)];
        }),
        [0, 0],
      ]
    : [[0, 0]];

/** Steps of the climb as shares of the piece, first and last; at the last a smooth extreme is flat to rounding. */
const FIRST_STEP = 0.5;
const LAST_STEP = 1e-8;

/** Steps taken before a climb is given up: a value that creeps along a ridge gains nothing that matters by then. */
const MOST_ROUNDS = 400;

/**
 * Climbs from given shares to a largest value nearby: a step along each share, twice as long as long as it helps, half as
 * long when none does. Moves `shares` there.
 * @param axes shares that may change
 * @returns the value reached
 */
export function climb(
  piece: Piece,
  shares: Float64Array,
  axes: readonly number[],
  value: (shares: Float64Array) => number,
  lastStep = LAST_STEP,
): number {
  const trial = new Float64Array(POSE_NUMBERS);
  const before = new Float64Array(POSE_NUMBERS);
  let best = value(shares);
  for (let step = FIRST_STEP, round = 0; step > lastStep && round < MOST_ROUNDS; round++) {
    let improved = false;
    before.set(shares);
    for (const axis of axes) {
      for (const way of [-step, step]) {
        trial.set(shares);
        trial[axis] += way;
        clampShares(piece, trial);
        const found = value(trial);
        if (found > best) {
          best = found;
          shares.set(trial);
          improved = true;
          break;
        }
      }
    }
    if (!improved) {
      step /= 2;
      continue;
    }
    // the whole round once more, in its own direction: a ridge is followed instead of crossed
    for (let axis = 0; axis < POSE_NUMBERS; axis++) trial[axis] = 2 * shares[axis] - before[axis];
    clampShares(piece, trial);
    const found = value(trial);
    if (found > best) {
      best = found;
      shares.set(trial);
    }
  }
  return best;
}

/** Shares of a piece that vary, the freely chosen ones left out or taken alone. */
export const varyingAxes = ({ half, free }: Piece, chosenFreely = false): readonly number[] =>
  Array.from({ length: POSE_NUMBERS }, (_, n) => n).filter((n) => half[n] > 0 && free[n] === chosenFreely);
