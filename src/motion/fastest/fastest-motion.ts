import { LEG_COUNT } from '../../kinematics/layout.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { LegReadings, type MovingDesign } from '../follow/leg-readings.ts';
import { MOTION_LIMITS } from '../follow/limits.ts';
import { alongPath, eased, slowed, type WayLaw } from '../paths/along.ts';
import { type Path, writableMoment } from '../paths/path.ts';
import { type FastestFault, fastestLaw, PlayedLaw } from './fastest.ts';
import { type ToolLimits, wayLimits } from './way-limits.ts';

/** The fastest motion along a path that the drives allow. */
export interface FastestMotion {
  readonly path: Path;
  /** The path's own parameter at every time of the motion. */
  readonly law: WayLaw;
  /** Duration of the law that jumps from limit to limit [s]; never to be sent to hardware as it is. */
  readonly bareDuration: number;
  /** Factor by which the eased law was slowed down evenly until every limit held in a finer check. */
  readonly slowedBy: number;
}

/** Intervals of the way. */
export const WAY_INTERVALS = 2000;

/** Moments of the check that follows: some four for every interval. */
const CHECKED_MOMENTS = 8000;

/** An even slow-down is found to this share. */
const FACTOR_ERROR = 1e-3;

/** Past this factor no slowing down helps: what is too much is too much at rest. */
const SLOWEST = 64;

/** The first margin that depends on how fast a path is gone along; those before it are of its geometry. */
const FIRST_BY_SPEED = LEG_COUNT * MOTION_LIMITS.indexOf('speed');

/**
 * Time-optimal along the geometry within leg speed, acceleration and force; then eased over `ramp` seconds, so that the jerk has a
 * bound; then slowed down evenly until friction, efficiency and power hold as well at moments four times as dense.
 * @param ramp length of the ramps that take the place of jumps of acceleration [s]; 0 leaves the bare law
 */
export function fastestMotion(
  design: MovingDesign,
  path: Path,
  ramp: number,
  tool: ToolLimits,
): Result<FastestMotion, FastestFault> {
  const way = Float64Array.from({ length: WAY_INTERVALS + 1 }, (_, n) => (path.duration * n) / WAY_INTERVALS);
  const bare = fastestLaw(way, wayLimits(design, path, way, tool));
  if (!bare.ok) return bare;
  const law = eased(new PlayedLaw(bare.value), ramp);
  const fits = (factor: number): boolean => keepsDrives(design, alongPath(path, slowed(law, factor)));
  let [low, high] = [1, 1];
  while (!fits(high)) {
    if (high >= SLOWEST) return failed({ kind: 'stuck', at: 0 });
    [low, high] = [high, 2 * high];
  }
  while (high / low - 1 > FACTOR_ERROR && high > 1) {
    const middle = Math.sqrt(low * high);
    if (fits(middle)) high = middle;
    else low = middle;
  }
  const found = slowed(law, high);
  return ok({ path: alongPath(path, found), law: found, bareDuration: bare.value.duration, slowedBy: high });
}

/** Whether every drive keeps its limits at all moments of the check; ends at the first that does not. */
function keepsDrives(design: MovingDesign, path: Path): boolean {
  const readings = new LegReadings(design);
  const moment = writableMoment();
  for (let n = 0; n <= CHECKED_MOMENTS; n++) {
    path.write((path.duration * n) / CHECKED_MOMENTS, moment);
    readings.read(moment);
    for (let k = FIRST_BY_SPEED; k < readings.margins.length; k++) if (readings.margins[k] < 0) return false;
  }
  return true;
}
