import { NO_ERRORS, sameErrors } from '../../src/kinematics/error-sources.ts';
import { defaultClearance } from '../../src/kinematics/keep-out.ts';
import { payloadOnly } from '../../src/kinematics/load.ts';
import { compileMechanism, type Mechanism, type PlateLayout } from '../../src/kinematics/mechanism.ts';
import type { PoseAngles } from '../../src/kinematics/pose.ts';
import { anglesFromPose } from '../../src/kinematics/pose.ts';
import { type Random, uniform } from '../../src/math/random.ts';
import type { TaskParts } from '../../src/task/judge-requirement.ts';
import { NO_FREE } from '../../src/task/piece.ts';
import type { Region, Requirement } from '../../src/task/requirement.ts';
import { kindsReach } from '../reach/random-layouts.ts';

const DEG = Math.PI / 180;

/** A design with free points, leaning mounts, joints of all kinds and the tool off centre, and something that it must do. */
export interface RandomTask {
  readonly mechanism: Mechanism;
  readonly requirement: Requirement;
  readonly parts: TaskParts;
}

export function randomTask(random: Random): RandomTask {
  const { spec } = kindsReach(random).mechanism;
  const draft = compileMechanism(spec);
  const points = (plate: 'base' | 'platform'): PlateLayout => {
    if (random() < 0.4) return spec[plate];
    const off = 0.08 * draft.size;
    return { kind: 'points', points: draft.centres[plate].map((entry) => entry + uniform(random, -off, off)) };
  };
  const off = () => uniform(random, -0.4, 0.4) * draft.size;
  const mechanism = compileMechanism({
    ...spec,
    base: points('base'),
    platform: points('platform'),
    tool: [off(), off(), off()],
  });
  const requirement: Requirement = {
    name: 'random',
    must: true,
    region: randomRegion(random, mechanism),
    limits: { toolError: 1, clearance: 0.5 },
    load: payloadOnly({ mass: 2, centre: [off(), off(), off()] }),
    push: { force: 3, torque: 50 },
    clearance: defaultClearance(mechanism),
  };
  const parts: TaskParts = {
    errors: sameErrors({ ...NO_ERRORS, zero: 0.02, baseHole: 0.05, platformSeat: 0.03 }),
    springs: new Float64Array(6).fill(400),
    freeSpin: null,
  };
  return { mechanism, requirement, parts };
}

function randomRegion(random: Random, mechanism: Mechanism): Region {
  const home = anglesFromPose(mechanism.home);
  const share = mechanism.size * 0.18;
  const shift = () => uniform(random, 0, share);
  const turn = () => uniform(random, 0, 12) * DEG;
  const near = (value: number, by: number) => value + uniform(random, -by, by);
  const [x, y, z] = home.position;
  const about: PoseAngles = {
    position: [near(x, share / 2), near(y, share / 2), near(z, share / 2)],
    roll: near(home.roll, 5 * DEG),
    pitch: near(home.pitch, 5 * DEG),
    yaw: near(home.yaw, 20 * DEG),
  };
  if (random() < 0.3) {
    return { kind: 'round', about, semiAxes: [shift(), shift(), shift()], tilt: turn(), yaw: turn() };
  }
  const half = { position: [shift(), shift(), shift()] as const, roll: turn(), pitch: turn(), yaw: turn() };
  return { kind: 'box', about, half, free: NO_FREE, each: random() < 0.2 ? 'alone' : 'together' };
}
