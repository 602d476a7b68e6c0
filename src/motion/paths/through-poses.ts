import { type Pose, poseFromAngles } from '../../kinematics/pose.ts';
import { RotationSpline } from '../rotation-spline.ts';
import { CubicSpline } from './cubic-spline.ts';
import type { Path } from './path.ts';

/**
 * The smooth motion through poses given as flat rows of six coordinates [mm, rad].
 * @param times increasing, the first one 0
 */
export function throughCoordinates(times: Float64Array, coordinates: Float64Array): Path {
  return throughPoses(
    Array.from(times, (time, n) => {
      const [x, y, z, roll, pitch, yaw] = coordinates.subarray(6 * n, 6 * n + 6);
      return { time, pose: poseFromAngles({ position: [x, y, z], roll, pitch, yaw }) };
    }),
  );
}

/** A pose to be reached at a time [s]. */
export interface TimedPose {
  readonly time: number;
  readonly pose: Pose;
}

/**
 * The smooth motion through poses at their times, C2 in position and in rotation.
 * @param poses at least two, times increasing and the first one 0; each turned by less than half a turn from the one before
 */
export function throughPoses(poses: readonly TimedPose[]): Path {
  const times = Float64Array.from(poses, ({ time }) => time);
  const positions = Float64Array.from(poses.flatMap(({ pose }) => [...pose.p_BoTo_B]));
  const position = new CubicSpline(times, positions, 3);
  const rotation = new RotationSpline(
    times,
    poses.map(({ pose }) => pose.R_BP),
  );
  const value = new Float64Array(3);
  const duration = times[times.length - 1];
  return {
    duration,
    write(at, moment) {
      const time = Math.min(duration, Math.max(0, at));
      position.write(time, value, moment.velocity, moment.acceleration);
      for (let n = 0; n < 3; n++) moment.pose.p_BoTo_B[n] = value[n];
      rotation.write(time, moment.pose.R_BP, moment.turning, moment.turningAcceleration);
    },
  };
}
