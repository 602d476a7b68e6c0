import { describe, expect, it } from 'vitest';
import { multiply3, rotationFromAngles } from '../../src/math/rotation.ts';
import { type CoordinateMotion, pathOfCoordinates, writableMoment } from '../../src/motion/paths/path.ts';
import { roundMotion } from '../../src/motion/paths/sweeps.ts';
import { chirp, waves } from '../../src/motion/paths/waves.ts';
import { rotationVector } from '../../src/motion/rotation-spline.ts';
import { type FloatMotion, floatMotion, seaComponents } from '../../src/motion/sea/float-motion.ts';
import { SeaSpectrum } from '../../src/motion/sea/spectrum.ts';
import { DEG } from '../kinematics/designs.ts';

const middle = [3, -4, 150, 0.02, -0.03, 0.1];
const sea: FloatMotion = {
  sea: { height: 40, peakPeriod: 1.6, peakedness: 3.3 },
  heading: 0.7,
  cut: 3,
  seed: 11,
  duration: 20,
  fade: 2,
};
const MOTIONS: Readonly<Record<string, CoordinateMotion>> = {
  waves: waves(
    middle,
    [
      { coordinate: 0, amplitude: 12, frequency: 0.7, phase: 0.3 },
      { coordinate: 4, amplitude: 0.2, frequency: 1.1, phase: 1 },
      { coordinate: 5, amplitude: 0.3, frequency: 0.4, phase: 2 },
      { coordinate: 3, amplitude: 0.15, frequency: 0.9, phase: 0 },
    ],
    8,
    1.5,
  ),
  chirp: chirp(middle, { coordinate: 3, amplitude: 0.1, from: 0.2, to: 2 }, 10, 1),
  cone: roundMotion(middle, { turns: 3, radius: 10, lean: 12 * DEG, rise: 5, spiral: false }, 6, 1),
  spiral: roundMotion(middle, { turns: 4, radius: 15, lean: 9 * DEG, rise: 0, spiral: true }, 9, 1),
  sea: floatMotion(middle, sea),
};

describe('paths by coordinates', () => {
  for (const [name, motion] of Object.entries(MOTIONS)) {
    it(`${name}: velocities and accelerations are those of the poses (finite difference)`, () => {
      const path = pathOfCoordinates(motion);
      const h = 1e-4;
      const state = (t: number) => {
        const moment = writableMoment();
        path.write(t, moment);
        return moment;
      };
      for (const share of [0.05, 0.31, 0.5, 0.77, 0.96]) {
        const t = share * motion.duration;
        const [a, b, c] = [state(t - h), state(t), state(t + h)];
        const back = Float64Array.from({ length: 9 }, (_, n) => a.pose.R_BP[3 * (n % 3) + Math.floor(n / 3)]);
        const turned = rotationVector(multiply3(c.pose.R_BP, back));
        for (let n = 0; n < 3; n++) {
          expect(b.velocity[n]).toBeCloseTo((c.pose.p_BoTo_B[n] - a.pose.p_BoTo_B[n]) / (2 * h), 4);
          expect(b.acceleration[n]).toBeCloseTo((c.velocity[n] - a.velocity[n]) / (2 * h), 3);
          expect(b.turning[n]).toBeCloseTo(turned[n] / (2 * h), 6);
          expect(b.turningAcceleration[n]).toBeCloseTo((c.turning[n] - a.turning[n]) / (2 * h), 5);
        }
      }
    });

    it(`${name}: starts and ends at rest in the middle pose`, () => {
      const path = pathOfCoordinates(motion);
      for (const t of [0, motion.duration]) {
        const moment = writableMoment();
        path.write(t, moment);
        for (let n = 0; n < 3; n++) {
          expect(Math.abs(moment.velocity[n])).toBeLessThan(1e-9);
          expect(Math.abs(moment.turning[n])).toBeLessThan(1e-9);
          expect(moment.pose.p_BoTo_B[n]).toBeCloseTo(middle[n], 9);
        }
      }
    });
  }

  it('cone: the normal leans by the stated angle toward where the tool is (closed form)', () => {
    const cone = roundMotion(
      [0, 0, 150, 0, 0, 0],
      { turns: 2, radius: 10, lean: 12 * DEG, rise: 0, spiral: false },
      4,
      0,
    );
    const [q, d, dd] = [new Float64Array(6), new Float64Array(6), new Float64Array(6)];
    for (const t of [0, 0.3, 1.1, 2.9]) {
      cone.write(t, q, d, dd);
      const R = rotationFromAngles({ roll: q[3], pitch: q[4], yaw: q[5] });
      expect(Math.acos(R[8])).toBeCloseTo(12 * DEG, 12);
      expect(Math.atan2(R[5], R[2])).toBeCloseTo(Math.atan2(q[1], q[0]), 12);
    }
  });
});

describe('sea record', () => {
  it('holds the energy of its spectrum up to the cut, component by component (closed form)', () => {
    const spectrum = new SeaSpectrum(sea.sea);
    const energy = seaComponents(sea).reduce((sum, { amplitude }) => sum + amplitude ** 2 / 2, 0);
    expect(energy / spectrum.moment(0, 3 * spectrum.peak)).toBeCloseTo(1, 6);
  });

  it('has the variance and the crossing period of its spectrum, within four deviations of a record this long (seeds 1 and 2)', () => {
    for (const seed of [1, 2]) {
      const long: FloatMotion = { ...sea, duration: 2000, fade: 0, seed };
      const record = floatMotion([0, 0, 0, 0, 0, 0], long);
      const spectrum = new SeaSpectrum(sea.sea);
      const [q, d, dd] = [new Float64Array(6), new Float64Array(6), new Float64Array(6)];
      const step = 0.1;
      let [sum, crossings, before] = [0, 0, 0];
      const count = long.duration / step;
      for (let n = 0; n < count; n++) {
        record.write(n * step, q, d, dd);
        sum += q[2] ** 2;
        if (before < 0 && q[2] >= 0) crossings++;
        before = q[2];
      }
      // variance of a Gaussian record's variance: (2 pi / T) * 2 integral S^2 dw / m0^2; some 3 % for 2000 s of this sea
      const m0 = spectrum.moment(0, 3 * spectrum.peak);
      let squares = 0;
      for (let w = 0.5 * spectrum.peak; w < 3 * spectrum.peak; w += 0.001) squares += spectrum.density(w) ** 2 * 0.001;
      const deviation = Math.sqrt((2 * Math.PI * squares) / long.duration) / m0;
      expect(deviation).toBeLessThan(0.04);
      expect(Math.abs(sum / count / m0 - 1)).toBeLessThan(4 * deviation);
      const period = spectrum.crossingPeriod(3 * spectrum.peak);
      expect(Math.abs(long.duration / crossings / period - 1)).toBeLessThan(0.03);
    }
  });

  it('keeps the plate in the surface: roll and pitch are the slopes of the elevation in space (derived)', () => {
    // the elevation a little way along x and y, by the wave numbers of deep water, differenced
    const components = seaComponents(sea);
    const at = (x: number, y: number, t: number) =>
      components.reduce((sum, { amplitude, w, phase }) => {
        const k = (w * w) / 9806.65;
        return sum + amplitude * Math.cos(w * t + phase - k * (x * Math.cos(sea.heading) + y * Math.sin(sea.heading)));
      }, 0);
    const still = floatMotion([0, 0, 0, 0, 0, 0], { ...sea, fade: 0 });
    const [q, d, dd] = [new Float64Array(6), new Float64Array(6), new Float64Array(6)];
    for (const t of [0.4, 7, 13]) {
      still.write(t, q, d, dd);
      expect(q[2]).toBeCloseTo(at(0, 0, t), 9);
      expect(q[4]).toBeCloseTo(-(at(0.01, 0, t) - at(-0.01, 0, t)) / 0.02, 7);
      expect(q[3]).toBeCloseTo((at(0, 0.01, t) - at(0, -0.01, t)) / 0.02, 7);
    }
  });
});
