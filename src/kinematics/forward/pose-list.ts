import type { Vec3 } from '../../math/vec3.ts';
import type { Pose } from '../pose.ts';
import { LegEquations } from './leg-equations.ts';
import { type NormalLayout, toolPosition } from './normal-layout.ts';
import { type PathEnd, projectiveDistance } from './path-end.ts';
import { poseDistance, realCandidate, refinePose } from './real-poses.ts';

/** One pose that has the asked lengths. */
export interface AssemblyPose {
  readonly pose: Pose;
  /** det of the Jacobian (rows [u, (R b) x u]) [length^3]; its sign tells the two sides of a singularity apart. */
  readonly determinant: number;
  /** Largest |leg length - asked| [length]. */
  readonly residual: number;
  /** How many paths ended here: 1 for a simple pose, more where poses coincide (a singular pose). */
  readonly multiplicity: number;
  /** False when the platform can move from here with its legs locked. */
  readonly isolated: boolean;
}

/** Every returned pose has each leg's length to this, relative. */
export const LENGTH_TOLERANCE = 1e-10;
/** An imaginary part above this cannot come from rounding, whatever the end. */
const CLEARLY_COMPLEX = 1e-3;
/**
 * Newton in real numbers may move a candidate by this multiple of what it was off the reals, plus its accuracy: from
 * between a conjugate pair of complex solutions it is thrown far away instead.
 */
const TRAVEL = 20;
/** A singular end is known to the square root of rounding; ends nearer than this are the same pose. */
const SINGULAR_ACCURACY = 1e-6;

interface Found {
  readonly position: Float64Array;
  readonly quaternion: Float64Array;
  readonly singular: boolean;
  readonly isolated: boolean;
  multiplicity: number;
}

/** What the path ends come to. */
export interface RealPoses {
  readonly poses: readonly AssemblyPose[];
  /** Ends that are real. */
  readonly paths: number;
  /** Ends that look real but could not be brought to the lengths. */
  readonly unsettled: number;
  /** True when some solutions, real or not, form a continuum. */
  readonly continuum: boolean;
}

/**
 * The real poses among path ends, refined and checked.
 * @param again ends of the same paths by another way through parameter space; only needed when some ends are singular
 */
export function realPosesOf(
  ends: readonly PathEnd[],
  again: readonly PathEnd[],
  layout: NormalLayout,
  tool: Vec3,
): RealPoses {
  const equations = new LegEquations(layout.centres, [0, 0, 0]);
  const found: Found[] = [];
  let unsettled = 0;
  let paths = 0;
  let continuum = false;
  for (const end of ends) {
    if (end.kind !== 'regular' && end.kind !== 'singular') continue;
    const isolated = end.kind === 'regular' || metAgain(end, again);
    if (!isolated) continuum = true;
    const verdict = settle(end, equations, layout.lengths);
    if (verdict === 'unsettled') unsettled++;
    if (verdict === 'real') paths++;
    if (verdict === 'real' || (!isolated && settleOnContinuum(end, equations, layout.lengths))) {
      addTo(found, end, isolated, equations);
    }
  }
  const poses = found.map((one) => assemblyPose(one, equations, layout, tool));
  poses.sort((a, b) => b.pose.p_BoTo_B[2] - a.pose.p_BoTo_B[2]);
  return { poses, paths, unsettled, continuum };
}

/**
 * An isolated singular solution is the end of some paths whichever way they are led there. On a continuum of solutions
 * they end at points that depend on the way.
 */
const metAgain = (end: PathEnd, again: readonly PathEnd[]): boolean =>
  again.some((other) => other.kind === 'singular' && projectiveDistance(other.x, end.x) < TRAVEL * SINGULAR_ACCURACY);

/** Looks for a real pose of the continuum that a complex end belongs to; its real part is only a first guess. */
function settleOnContinuum(end: PathEnd, equations: LegEquations, lengths: Float64Array): boolean {
  const { position, quaternion } = realCandidate(end.x);
  equations.place(position, quaternion);
  return refinePose(equations, lengths).residual <= LENGTH_TOLERANCE;
}

/** Puts `equations` on the real pose at a path's end, or says that there is none. */
function settle(end: PathEnd, equations: LegEquations, lengths: Float64Array): 'real' | 'complex' | 'unsettled' {
  const { position, quaternion, imaginary } = realCandidate(end.x);
  const accuracy = end.kind === 'singular' ? SINGULAR_ACCURACY : end.accuracy;
  if (imaginary > CLEARLY_COMPLEX) return 'complex';
  equations.place(position, quaternion);
  const { residual, travel } = refinePose(equations, lengths);
  if (residual <= LENGTH_TOLERANCE && travel <= TRAVEL * (imaginary + accuracy)) return 'real';
  return imaginary > TRAVEL * accuracy ? 'complex' : 'unsettled';
}

function addTo(found: Found[], end: PathEnd, isolated: boolean, equations: LegEquations): void {
  const position = equations.position.slice();
  const quaternion = equations.quaternion.slice();
  const singular = end.kind === 'singular';
  const same = found.find(
    (other) =>
      poseDistance(position, quaternion, other.position, other.quaternion) <
      TRAVEL * (singular && (other.singular || !isolated) ? SINGULAR_ACCURACY : end.accuracy),
  );
  if (same) same.multiplicity++;
  else found.push({ position, quaternion, singular, isolated, multiplicity: 1 });
}

function assemblyPose(one: Found, equations: LegEquations, layout: NormalLayout, tool: Vec3): AssemblyPose {
  equations.place(one.position, one.quaternion);
  equations.evaluate();
  const { unit, lengths } = layout;
  const residual = equations.writeMissing(lengths, new Float64Array(lengths.length)) * unit;
  const determinant = equations.factor() * unit ** 3;
  const R_BP = Float64Array.from(equations.R);
  const p_BoTo_B = toolPosition(layout, equations.position, R_BP, tool);
  return { pose: { p_BoTo_B, R_BP }, determinant, residual, multiplicity: one.multiplicity, isolated: one.isolated };
}
