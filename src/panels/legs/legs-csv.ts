import { degrees } from '../../document/units.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';

/** Digits behind the point of the copied numbers: a tenth of a micrometre, a ten-thousandth of a degree. */
const DECIMALS = 4;

/** The table of legs as comma-separated text, one header line and six rows. */
export function legsAsCsv(legs: readonly LegState[], { legs: { min, max } }: Mechanism): string {
  const header = 'leg,length_mm,strokeUsed_percent,baseTilt_deg,platformTilt_deg,violations';
  const rows = legs.map(({ leg, length, baseTilt, platformTilt, violations }) => {
    const numbers = [length, (100 * (length - min)) / (max - min), degrees(baseTilt), degrees(platformTilt)];
    return [leg, ...numbers.map((value) => value.toFixed(DECIMALS)), violations.join(' ')].join(',');
  });
  return `${[header, ...rows].join('\n')}\n`;
}
