import type { CrossAxis, JointKind } from '../../src/kinematics/joint-kinds.ts';
import type { PlateName } from '../../src/kinematics/layout.ts';
import { legLengths } from '../../src/kinematics/legs.ts';
import {
  compileMechanism,
  type JointSpec,
  type Mechanism,
  type MechanismSpec,
  type Mount,
} from '../../src/kinematics/mechanism.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { type Random, uniform } from '../../src/math/random.ts';
import { identity3, type Mat3, rotationFromAngles } from '../../src/math/rotation.ts';
import { at, subtract } from '../../src/math/vec3.ts';
import { DEG, ring } from '../kinematics/designs.ts';

export interface RandomReach {
  readonly mechanism: Mechanism;
  readonly R_BP: Mat3;
}

/** Longest over shortest leg, and shortest leg over the mean leg at home: what bought linear actuators allow. */
const STROKE = [1.25, 1.6] as const;
const SHORTEST = [0.75, 0.92] as const;

/**
 * A layout with leaning mounts and a tilted, turned orientation: mounts lean toward where the legs lie at home, but not exactly;
 * some joints have no limit, some one past 90 deg.
 */
export function tiltedReach(random: Random): RandomReach {
  const spec = ringSpec(random, true);
  const draft = compileMechanism(spec);
  const lean = (name: 'base' | 'platform'): Mount => {
    const up = name === 'base' ? 1 : -1;
    const toward = Float64Array.from({ length: 6 }, (_, leg) => {
      const joint = at(draft.centres.base, leg);
      const platform = at(draft.centres.platform, leg);
      const [x, y] = subtract(platform, joint);
      return Math.atan2(up * y, up * x) + uniform(random, -0.6, 0.6);
    });
    return { kind: 'leaning', lean: uniform(random, 5, 25) * DEG, toward };
  };
  const joints = {
    base: { tiltLimit: tiltLimit(random), mount: lean('base') },
    platform: { tiltLimit: tiltLimit(random), mount: lean('platform') },
  };
  const R_BP = rotationFromAngles({
    roll: uniform(random, -15, 15) * DEG,
    pitch: uniform(random, -15, 15) * DEG,
    yaw: uniform(random, -20, 20) * DEG,
  });
  return { mechanism: compileMechanism({ ...spec, joints }), R_BP };
}

/** The same with rod ends and universal joints of all sorts, and sometimes balls, on either plate. */
export function kindsReach(random: Random): RandomReach {
  const { mechanism, R_BP } = tiltedReach(random);
  const { spec } = mechanism;
  const joint = (plate: PlateName): JointSpec => {
    const kind = jointKind(random);
    const { mount, tiltLimit } = spec.joints[plate];
    if (kind.kind === 'ball') return { mount, tiltLimit };
    if (kind.kind === 'rodEnd') return { mount, tiltLimit: uniform(random, 12, 45) * DEG, kind };
    const wide = random();
    return { mount, tiltLimit: (wide < 0.3 ? uniform(random, 95, 175) : uniform(random, 20, 60)) * DEG, kind };
  };
  const joints = { base: joint('base'), platform: joint('platform') };
  return { mechanism: compileMechanism({ ...spec, joints }), R_BP };
}

function jointKind(random: Random): JointKind {
  const axes: readonly CrossAxis[] = [
    { kind: 'tangential' },
    { kind: 'radial' },
    { kind: 'acrossLeg' },
    {
      kind: 'angles',
      toward: Float64Array.from({ length: 6 }, (_, leg) => leg * 60 * DEG + uniform(random, -0.5, 0.5)),
      rise: uniform(random, -10, 10) * DEG,
    },
  ];
  const axis = axes[Math.floor(4 * random())];
  const kind = random();
  if (kind < 0.2) return { kind: 'ball' };
  if (kind < 0.6) return { kind: 'rodEnd', bolt: axis };
  return { kind: 'universal', first: axis, secondLimit: uniform(random, 15, 50) * DEG };
}

/** Two level rings without relative turn, square or aimed mounts: three-fold symmetric with mirrors. */
export function levelReach(random: Random): RandomReach {
  const spec = ringSpec(random, false);
  const kind = random() < 0.5 ? 'square' : 'aimed';
  const joints = {
    base: { tiltLimit: tiltLimit(random), mount: { kind } },
    platform: { tiltLimit: tiltLimit(random), mount: { kind } },
  } as const;
  return { mechanism: compileMechanism({ ...spec, joints }), R_BP: identity3() };
}

function tiltLimit(random: Random): number {
  const kind = random();
  if (kind < 0.1) return Math.PI;
  return uniform(random, kind < 0.2 ? 90 : 25, kind < 0.2 ? 140 : 60) * DEG;
}

function ringSpec(random: Random, turned: boolean): MechanismSpec {
  const joint = { tiltLimit: Math.PI, mount: { kind: 'square' } } as const;
  const spec: MechanismSpec = {
    base: ring(uniform(random, 70, 130), uniform(random, 5, 60)),
    platform: ring(uniform(random, 45, 110), uniform(random, 5, 60), turned ? uniform(random, -5, 5) : 0),
    legs: { min: 1, max: 1e4, barrelDiameter: 22, rodDiameter: 10 },
    joints: { base: joint, platform: joint },
    tool: turned ? [uniform(random, -10, 10), uniform(random, -10, 10), uniform(random, -10, 40)] : [0, 0, 0],
    home: poseFromAngles({ position: [0, 0, uniform(random, 110, 190)], roll: 0, pitch: 0, yaw: 0 }),
  };
  const draft = compileMechanism(spec);
  const mean = legLengths(draft, draft.home).reduce((sum, length) => sum + length / 6, 0);
  const min = mean * uniform(random, ...SHORTEST);
  return { ...spec, legs: { ...spec.legs, min, max: min * uniform(random, ...STROKE) } };
}
