import type { DesignParts } from '../../document/design-parts.ts';
import type { KeepOut } from '../../kinematics/keep-out.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Pose } from '../../kinematics/pose.ts';
import { platformOrigin } from '../../kinematics/pose.ts';
import { rotate } from '../../math/rotation.ts';
import { add, type Vec3 } from '../../math/vec3.ts';
import { plateShape } from '../shape/plate-shape.ts';
import { solidPoints } from '../shape/solid-shape.ts';

/** Places taken of a reach's surface or cloud: enough to find how wide it is to a percent or two. */
const REACH_SAMPLES = 600;

/** Every how many corners of a plate's outline. */
const CORNER_STEP = 6;

/**
 * Points that a view has to hold so that all of the drawing is in it: both plates, the platform at its pose, the reach, and
 * the payload and keep-outs of `parts`.
 */
export function outlinePoints(
  mechanism: Mechanism,
  pose: Pose,
  reach: Float64Array | null,
  parts: DesignParts | null = null,
): readonly Vec3[] {
  const points: Vec3[] = [];
  const origin = platformOrigin(pose, mechanism.p_PoTo_P);
  for (const plate of ['base', 'platform'] as const) {
    const { outline, innerFace, outerFace } = plateShape(mechanism, plate, parts?.plates[plate] ?? null);
    for (let i = 0; i < outline.corners.length; i += 2 * CORNER_STEP) {
      for (const z of [innerFace, outerFace]) {
        const corner: Vec3 = [outline.corners[i], outline.corners[i + 1], z];
        points.push(plate === 'base' ? corner : add(origin, rotate(pose.R_BP, corner)));
      }
    }
  }
  points.push(pose.p_BoTo_B);
  for (const { fixedTo, solid } of parts ? bodiesOf(parts) : []) {
    for (const point of solidPoints(solid)) {
      points.push(fixedTo === 'base' ? point : add(origin, rotate(pose.R_BP, point)));
    }
  }
  const count = reach ? reach.length / 3 : 0;
  const step = Math.max(1, Math.floor(count / REACH_SAMPLES));
  for (let i = 0; reach && i < count; i += step) points.push([reach[3 * i], reach[3 * i + 1], reach[3 * i + 2]]);
  return points;
}

const bodiesOf = ({ clearance: { payload, keepOuts } }: DesignParts): readonly Pick<KeepOut, 'fixedTo' | 'solid'>[] =>
  payload ? [...keepOuts, { fixedTo: 'platform', solid: payload }] : keepOuts;
