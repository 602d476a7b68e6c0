/**
 * A minute of sea at 1000 moments a second, with full dynamics and every limit; and the fastest law of 2,000 intervals.
 * Prints minimum, median and spread of processor time, so that other work on the machine counts less.
 */
import { payloadOnly } from '../../src/kinematics/load.ts';
import { anglesFromPose, poseFromAngles } from '../../src/kinematics/pose.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { followMotion } from '../../src/motion/follow/follow.ts';
import type { MovingDesign } from '../../src/motion/follow/leg-readings.ts';
import { pathOfCoordinates, writableMoment } from '../../src/motion/paths/path.ts';
import { throughPoses } from '../../src/motion/paths/through-poses.ts';
import { floatMotion } from '../../src/motion/sea/float-motion.ts';
import { DEG, referenceLayout } from '../kinematics/designs.ts';

const mechanism = referenceLayout();
const design: MovingDesign = {
  mechanism,
  load: payloadOnly({ mass: 3, centre: [0, 0, 40], inertia: [9000, 9000, 12000] }),
  masses: { barrelMass: 0.3, barrelCentre: 50, barrelInertia: 250, rodMass: 0.1, rodCentre: 40, rodInertia: 80 },
  drive: { friction: 3, efficiency: 0.6, rotorInertia: 2, lead: 4 },
  limits: { speed: 100, acceleration: 2000, push: 60, pull: 60, power: 8 },
};
const sea = pathOfCoordinates(
  floatMotion([0, 0, 150, 0, 0, 0], {
    sea: { height: 30, peakPeriod: 1.6, peakedness: 3.3 },
    heading: 30 * DEG,
    cut: 3,
    seed: 7,
    duration: 60,
    fade: 3,
  }),
);
const moment = writableMoment();
// a recorded motion: the sea's poses at 50 a second
const recorded = throughPoses(
  Array.from({ length: 3001 }, (_, n) => {
    sea.write(n / 50, moment);
    return { time: n / 50, pose: poseFromAngles(anglesFromPose(moment.pose)) };
  }),
);
const times = Float64Array.from({ length: 60_001 }, (_, n) => n / 1000);

function timed(name: string, task: () => unknown, runs: number): void {
  for (let n = 0; n < 2; n++) task();
  const seconds: number[] = [];
  for (let n = 0; n < runs; n++) {
    const start = process.cpuUsage();
    task();
    const { user, system } = process.cpuUsage(start);
    seconds.push((user + system) / 1000);
  }
  seconds.sort((a, b) => a - b);
  const figure = (n: number): string => seconds[n].toFixed(1);
  console.log(
    `${name}: min ${figure(0)} ms, median ${figure(Math.floor(runs / 2))} ms, max ${figure(runs - 1)} ms (${runs} runs)`,
  );
}

timed(
  '60 s of recorded motion, 60,001 moments, dynamics and limits',
  () => followMotion(design, recorded, { times }, neverStop),
  7,
);
timed('60 s of sea made of 200 waves, 60,001 moments', () => followMotion(design, sea, { times }, neverStop), 3);
