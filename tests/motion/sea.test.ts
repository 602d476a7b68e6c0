import { describe, expect, it } from 'vitest';
import { froudeScaled, SeaSpectrum, waveNumber } from '../../src/motion/sea/spectrum.ts';

// IEC TS 62600-2 C.2 (Bretschneider form) for the shape; moments, peaked forms and cut moments computed beforehand with
// scipy.integrate.quad from the formulas named beside each; DNV-RP-C205 3.5.5 for the peaked form is from memory.
const of = (height: number, peakPeriod: number, peakedness: number) =>
  new SeaSpectrum({ height, peakPeriod, peakedness });

const near = (value: number, expected: number, relative = 1e-8) =>
  expect(Math.abs(value / expected - 1)).toBeLessThan(relative);

describe('sea spectrum', () => {
  const sea = of(2.5, 8, 1);

  it('is the published form of Hs 2.5 m, Tp 8 s', () => {
    const perHertz = (f: number) => 2 * Math.PI * sea.density(2 * Math.PI * f);
    for (const [f, expected] of [
      [0.1, 2.254283],
      [0.125, 4.476637],
      [0.2, 1.23136],
    ] as const)
      near(perHertz(f), expected, 4e-7);
  });

  it('has the moments of the closed form', () => {
    near(sea.moment(0), 0.390625);
    near(sea.moment(-1), 0.4263475128189516);
    near(sea.moment(1), 0.3975220421394075);
    near(sea.moment(2), 0.4774960026783432);
    near(sea.crossingPeriod() / 8, 0.710370681, 1e-9);
  });

  it('has a fourth moment that grows with the cut', () => {
    near(sea.moment(4, 3 * sea.peak), 0.6706132527510109);
    near(sea.moment(4, 5 * sea.peak), 1.0477599974965361);
    near(sea.moment(4, 8 * sea.peak), 1.3967390110185176);
  });

  const PEAKED = [
    [1, 1, 0.7103706809856613, 0.7717714366881258],
    [2, 0.8028101765389098, 0.746436099856581, 0.8062955938019081],
    [3.3, 0.6557598030897294, 0.7773992076093844, 0.8343279633899656],
    [7, 0.4494040201334245, 0.8284976565691259, 0.8774749640213845],
  ] as const;
  for (const [peakedness, scale, crossing, mean] of PEAKED)
    it(`of peakedness ${peakedness} keeps its height, and has its periods`, () => {
      const peaked = of(2.5, 8, peakedness);
      near(peaked.moment(0), 2.5 ** 2 / 16);
      near(peaked.crossingPeriod() / 8, crossing);
      near((2 * Math.PI * peaked.moment(0)) / peaked.moment(1) / 8, mean);
      // the peak itself, whose factor is the peakedness: only the exact normalisation gives this
      near(peaked.density(peaked.peak), peakedness * scale * sea.density(sea.peak));
    });

  it('slopes by w^2/g on deep water, rms with its cut', () => {
    near(waveNumber((2 * Math.PI) / 8, 9.80665), 0.06290122264668209);
    const slope = Math.sqrt(sea.moment(4, 3 * sea.peak)) / 9.80665;
    near((slope * 180) / Math.PI, 4.784516126257078);
  });

  it('shrinks by Froude similitude: 1:25 of Hs 2.5 m, Tp 8 s is 100 mm and 1.6 s', () => {
    const model = froudeScaled({ height: 2500, peakPeriod: 8, peakedness: 1 }, 25);
    expect(model.height).toBeCloseTo(100, 12);
    expect(model.peakPeriod).toBeCloseTo(1.6, 12);
    near(new SeaSpectrum(model).crossingPeriod(), 1.1365930896, 1e-9);
  });
});
