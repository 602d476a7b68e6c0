import { type DimensionName, type RingSpec, withDimensions } from '../kinematics/dimensions.ts';
import { writeJacobian } from '../kinematics/jacobian.ts';
import { LEG_COUNT } from '../kinematics/layout.ts';
import { compileMechanism, type Mechanism } from '../kinematics/mechanism.ts';
import { type Pose, poseFromAngles } from '../kinematics/pose.ts';
import { Lu } from '../math/lu.ts';
import { multiply3 } from '../math/rotation.ts';
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

/** The line counts as the same at another pose when it moves less than this share of a lattice step. */
const SAME_LINE = 0.01;

/** A determinant that is below this share of the largest possible one is rounding: rows of unit length and unit arms. */
const ROUNDING = 1e-12;

/**
 * The layouts of a slice that are singular at home: where the determinant of the Jacobian at home changes sign. Near the layouts that
 * are singular everywhere it falls with the third power of the distance (sin^3 d in the closed form for two rings), so its cube
 * root is what is interpolated.
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
  const determinant = determinantAt();
  const values = new Float64Array(LATTICE * LATTICE);
  let zeros = 0;
  for (let row = 0, n = 0; row < LATTICE; row++) {
    for (let column = 0; column < LATTICE; column++, n++) {
      const mechanism = layoutAt(column / (LATTICE - 1), row / (LATTICE - 1));
      const home = determinant(mechanism, mechanism.home);
      values[n] = Math.abs(home) < ROUNDING ? 0 : Math.cbrt(home);
      if (values[n] === 0) zeros += 1;
    }
  }
  if (zeros > values.length / 2) return { lines: [], everywhere: false, whole: true };
  const lines = contourLines(values, LATTICE, LATTICE, [0]).map(({ points }) =>
    points.map((place) => (place - 0.5) / (LATTICE - 1)),
  );
  return { lines, everywhere: lines.length > 0 && everywhereOn(lines, layoutAt, determinant), whole: false };
}

function spanOf(grid: Grid, name: DimensionName): (share: number) => number {
  const values = grid.find((axis) => axis.name === name)?.values ?? new Float64Array(1);
  const last = values[values.length - 1];
  return (share) => values[0] + share * (last - values[0]);
}

/** Determinant of the Jacobian at a pose, with rotations divided by the characteristic length. */
function determinantAt(): (mechanism: Mechanism, pose: Pose) => number {
  const J = new Float64Array(36);
  const vectors = new Float64Array(18);
  const lengths = new Float64Array(LEG_COUNT);
  const lu = new Lu(LEG_COUNT);
  return (mechanism, pose) => {
    writeJacobian(mechanism, pose, J, vectors, lengths);
    for (let row = 0; row < 36; row += 6) for (let k = 3; k < 6; k++) J[row + k] /= mechanism.characteristicLength;
    return lu.factor(J) ? lu.determinant() : 0;
  };
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

/**
 * Tells whether the line stays where it is when the platform leaves home, at a few of its points: then its layouts are singular at
 * every pose.
 */
function everywhereOn(
  lines: readonly Float32Array[],
  layoutAt: (u: number, v: number) => Mechanism,
  determinant: (mechanism: Mechanism, pose: Pose) => number,
): boolean {
  const cell = 1 / (LATTICE - 1);
  const longest = lines.reduce((most, line) => (line.length > most.length ? line : most));
  const count = longest.length / 2;
  for (let n = 0; n < TRIED; n++) {
    const point = Math.floor(((n + 0.5) / TRIED) * count);
    const [u, v] = [longest[2 * point], longest[2 * point + 1]];
    for (const [along, side] of [
      [cell, 0],
      [0, cell],
    ]) {
      const at = (t: number) => layoutAt(u + along * t, v + side * t);
      const home = crossing(at, (mechanism) => determinant(mechanism, mechanism.home));
      if (home === null) continue;
      const moves = OTHER_POSES.some((_, pose) => {
        const other = crossing(at, (mechanism) => determinant(mechanism, otherPoses(mechanism)[pose]));
        return other === null || Math.abs(other - home) > SAME_LINE;
      });
      if (moves) return false;
      break;
    }
  }
  return true;
}

/** Where between -1 and 1 a function of the layout changes sign; null when it has the same sign at both ends. */
function crossing(at: (t: number) => Mechanism, value: (mechanism: Mechanism) => number): number | null {
  let [low, high] = [-1, 1];
  const below = Math.sign(value(at(low)));
  if (below * Math.sign(value(at(high))) >= 0) return null;
  for (let n = 0; n < HALVINGS; n++) {
    const middle = (low + high) / 2;
    if (Math.sign(value(at(middle))) === below) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
