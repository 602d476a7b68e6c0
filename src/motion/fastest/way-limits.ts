import { InverseDynamics } from '../../kinematics/dynamics.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { MovingDesign } from '../follow/leg-readings.ts';
import { type Path, type WritableMoment, writableMoment } from '../paths/path.ts';
import type { WayLimits } from './fastest.ts';

/** Limits of the tool besides those of the legs; infinite where there is none. */
export interface ToolLimits {
  /** Of the tool point [mm/s], and of the platform's turning [rad/s]. */
  readonly speed: number;
  readonly turning: number;
}

export const NO_TOOL_LIMITS: ToolLimits = { speed: Number.POSITIVE_INFINITY, turning: Number.POSITIVE_INFINITY };

/**
 * What the legs allow at every grid point of a path, in b = s'^2 and a = s''. A leg's acceleration is `l' a + l'' b`, its
 * force `m a + c b + g`, each found by running the dynamics with (b, a) = (0, 0), (0, 1) and (1, 0). Friction, the
 * screw's efficiency and power are left out: they switch with signs or hold roots of b, and are checked afterwards.
 */
export function wayLimits(design: MovingDesign, path: Path, way: Float64Array, tool: ToolLimits): readonly WayLimits[] {
  const dynamics = new InverseDynamics(design.mechanism, design.load, design.masses);
  const moment = writableMoment();
  const asked = writableMoment();
  return Array.from(way, (s) => {
    path.write(s, moment);
    const still = readAt(dynamics, moment, asked, 0, 0);
    const pushed = readAt(dynamics, moment, asked, 0, 1);
    const moving = readAt(dynamics, moment, asked, 1, 0);
    return limitsOf(design, still, pushed, moving, tool, moment);
  });
}

interface LegReading {
  readonly speeds: Float64Array;
  readonly accelerations: Float64Array;
  readonly forces: Float64Array;
}

/** Legs at a point of the way gone through with s'^2 = b and s'' = a. */
function readAt(
  dynamics: InverseDynamics,
  path: WritableMoment,
  asked: WritableMoment,
  b: number,
  a: number,
): LegReading {
  const speed = Math.sqrt(b);
  for (let n = 0; n < 3; n++) {
    asked.pose.p_BoTo_B[n] = path.pose.p_BoTo_B[n];
    asked.velocity[n] = path.velocity[n] * speed;
    asked.acceleration[n] = path.acceleration[n] * b + path.velocity[n] * a;
    asked.turning[n] = path.turning[n] * speed;
    asked.turningAcceleration[n] = path.turningAcceleration[n] * b + path.turning[n] * a;
  }
  asked.pose.R_BP.set(path.pose.R_BP);
  dynamics.at(asked);
  return {
    speeds: dynamics.speeds.slice(),
    accelerations: dynamics.accelerations.slice(),
    forces: dynamics.forces.slice(),
  };
}

function limitsOf(
  { limits }: MovingDesign,
  still: LegReading,
  pushed: LegReading,
  moving: LegReading,
  tool: ToolLimits,
  { velocity, turning }: WritableMoment,
): WayLimits {
  let most = Math.min(
    (tool.speed / Math.hypot(velocity[0], velocity[1], velocity[2])) ** 2,
    (tool.turning / Math.hypot(turning[0], turning[1], turning[2])) ** 2,
  );
  if (Number.isNaN(most)) most = Number.POSITIVE_INFINITY;
  const rows: number[] = [];
  const add = (alpha: number, beta: number, gamma: number): void => {
    if (Number.isFinite(gamma)) rows.push(alpha, beta, gamma);
  };
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    // legs that stand still at this point limit nothing
    const slope = Math.abs(moving.speeds[leg]);
    if (slope > 0) most = Math.min(most, (limits.speed / slope) ** 2);
    const accel = pushed.accelerations[leg];
    const bend = moving.accelerations[leg];
    add(accel, bend, limits.acceleration);
    add(-accel, -bend, limits.acceleration);
    const g = still.forces[leg];
    const m = pushed.forces[leg] - g;
    const c = moving.forces[leg] - g;
    add(m, c, limits.push - g);
    add(-m, -c, limits.pull + g);
  }
  return { most, rows: Float64Array.from(rows) };
}
