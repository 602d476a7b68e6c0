import { type RingSpec, withDimensions } from '../kinematics/dimensions.ts';
import { writeJacobian } from '../kinematics/jacobian.ts';
import { LEG_COUNT } from '../kinematics/layout.ts';
import { compileMechanism, type Mechanism } from '../kinematics/mechanism.ts';
import { type Pose, poseFromAngles } from '../kinematics/pose.ts';
import { Lu } from '../math/lu.ts';
import { multiply3 } from '../math/rotation.ts';
import { SmallestSingular } from '../math/smallest-singular.ts';
import type { DimensionName } from '../terms/dimensions.ts';
import { contourLines } from './contour-lines.ts';
import type { Grid } from './grid.ts';

/** Where in a slice the layouts are singular at home. */
export interface SingularLine {
  /** Lines, x, y, x, y as shares 0 to 1 of the two axes. */
  readonly lines: readonly Float32Array[];
  /** Layouts on the line are singular at every pose, not only at home. */
  readonly everywhere: boolean;
  /** All of the slice is singular at home; there is no line then. */
  readonly whole: boolean;
}

/** Lattice on which the determinant is taken; the line itself is interpolated. */
const LATTICE = 49;

/** Points of the line at which the layout is tried at other poses. */
const TRIED = 5;

/** Halvings of the way across the line. The cube of what is left is near rounding, so more would find nothing. */
const HALVINGS = 16;

/**
 * Smallest over largest singular value below which a layout on the line counts as singular at another pose. On a line of layouts
 * that are singular everywhere it is as small as the distance left from the line, some 1e-6; elsewhere some hundredths.
 */
const SINGULAR_SHARE = 1e-3;

/** A determinant that is below this share of the largest possible one is rounding: rows of unit length and unit arms. */
const ROUNDING = 1e-12;

/**
 * The layouts of a slice that are singular at home: where the determinant of the Jacobian at home changes sign. Near layouts that are
 * singular everywhere it falls with the third power of the distance (sin^3 d in the closed form for two rings), so there its
 * cube root is what is interpolated.
 * @param places place on every axis of the grid; those of x and y are not read
 */
export function singularLine(
  design: RingSpec,
  grid: Grid,
  x: DimensionName,
  y: DimensionName,
  places: readonly number[],
): SingularLine {
  const fixed = Object.fromEntries(grid.map(({ name, values }, axis) => [name, values[places[axis]]]));
  const spans = [x, y].map((name) => spanOf(grid, name));
  const layoutAt = (u: number, v: number): Mechanism =>
    compileMechanism(withDimensions(design, { ...fixed, [x]: spans[0](u), [y]: spans[1](v) }));
  const judge = new PoseJudge();
  const values = new Float64Array(LATTICE * LATTICE);
  let zeros = 0;
  for (let row = 0, n = 0; row < LATTICE; row++) {
    for (let column = 0; column < LATTICE; column++, n++) {
      const mechanism = layoutAt(column / (LATTICE - 1), row / (LATTICE - 1));
      const home = judge.determinant(mechanism, mechanism.home);
      values[n] = Math.abs(home) < ROUNDING ? 0 : home;
      if (values[n] === 0) zeros += 1;
    }
  }
  if (zeros > values.length / 2) return { lines: [], everywhere: false, whole: true };
  const roots = linesOf(values.map(Math.cbrt));
  const everywhere = roots.length > 0 && everywhereOn(roots, layoutAt, judge);
  return { lines: everywhere ? roots : linesOf(values), everywhere, whole: false };
}

const linesOf = (values: Float64Array): readonly Float32Array[] =>
  contourLines(values, LATTICE, LATTICE, [0]).map(({ points }) => points.map((place) => (place - 0.5) / (LATTICE - 1)));

function spanOf(grid: Grid, name: DimensionName): (share: number) => number {
  const values = grid.find((axis) => axis.name === name)?.values ?? new Float64Array(1);
  const last = values[values.length - 1];
  return (share) => values[0] + share * (last - values[0]);
}

/** Judges layouts at poses: the determinant of the Jacobian, rotations divided by the characteristic length, and its spread. */
class PoseJudge {
  private readonly J = new Float64Array(36);
  private readonly vectors = new Float64Array(18);
  private readonly lengths = new Float64Array(LEG_COUNT);
  private readonly lu = new Lu(LEG_COUNT);
  private readonly smallest = new SmallestSingular();

  determinant(mechanism: Mechanism, pose: Pose): number {
    this.write(mechanism, pose);
    return this.lu.factor(this.J) ? this.lu.determinant() : 0;
  }

  /** Smallest over largest singular value. */
  share(mechanism: Mechanism, pose: Pose): number {
    this.write(mechanism, pose);
    return this.smallest.of(this.J) / this.smallest.largestOfLast();
  }

  private write(mechanism: Mechanism, pose: Pose): void {
    const { J } = this;
    writeJacobian(mechanism, pose, J, this.vectors, this.lengths);
    for (let row = 0; row < 36; row += 6) for (let k = 3; k < 6; k++) J[row + k] /= mechanism.characteristicLength;
  }
}

/** Poses away from home, out of every symmetry: shifts as shares of the layout's size, turns in rad. */
const OTHER_POSES = [
  { shift: [0.09, 0.05, 0.04], roll: 0.11, pitch: -0.06, yaw: 0.07 },
  { shift: [-0.06, 0.1, -0.05], roll: -0.05, pitch: 0.12, yaw: -0.04 },
] as const;

function otherPoses({ home, size }: Mechanism): readonly Pose[] {
  return OTHER_POSES.map(({ shift, roll, pitch, yaw }) => {
    const [x, y, z] = home.p_BoTo_B;
    const turn = poseFromAngles({ position: [0, 0, 0], roll, pitch, yaw }).R_BP;
    return {
      p_BoTo_B: [x + shift[0] * size, y + shift[1] * size, z + shift[2] * size],
      R_BP: multiply3(turn, home.R_BP),
    };
  });
}

/** Tells whether the layouts on the line are singular away from home as well, at a few of its points. */
function everywhereOn(
  lines: readonly Float32Array[],
  layoutAt: (u: number, v: number) => Mechanism,
  judge: PoseJudge,
): boolean {
  const cell = 1 / (LATTICE - 1);
  const longest = lines.reduce((most, line) => (line.length > most.length ? line : most));
  const count = longest.length / 2;
  for (let n = 0; n < TRIED; n++) {
    const point = Math.floor(((n + 0.5) / TRIED) * count);
    const [u, v] = [longest[2 * point], longest[2 * point + 1]];
    const found = onLine((t) => layoutAt(u + cell * t, v), judge) ?? onLine((t) => layoutAt(u, v + cell * t), judge);
    if (found && otherPoses(found).some((pose) => judge.share(found, pose) > SINGULAR_SHARE)) return false;
  }
  return true;
}

/** The layout between -1 and 1 at which the determinant at home changes sign; null when it has the same sign at both ends. */
function onLine(at: (t: number) => Mechanism, judge: PoseJudge): Mechanism | null {
  const sign = (t: number) => {
    const mechanism = at(t);
    return Math.sign(judge.determinant(mechanism, mechanism.home));
  };
  let [low, high] = [-1, 1];
  const below = sign(low);
  if (below * sign(high) >= 0) return null;
  for (let n = 0; n < HALVINGS; n++) {
    const middle = (low + high) / 2;
    if (sign(middle) === below) low = middle;
    else high = middle;
  }
  return at((low + high) / 2);
}
