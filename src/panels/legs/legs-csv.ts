import type { JointShape } from '../../kinematics/joint-shapes.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { degrees } from '../../terms/units.ts';
import type { LegJoints } from './leg-rows.ts';

/** Digits behind the point of the copied numbers: a tenth of a micrometre, a ten-thousandth of a degree. */
const DECIMALS = 4;

/** Names of a joint's columns after "base" or "platform". */
const COLUMNS: Readonly<Record<JointShape['kind'], readonly string[]>> = {
  ball: ['Tilt_deg'],
  rodEnd: ['AcrossBolt_deg'],
  universal: ['First_deg', 'Second_deg'],
};

/** The table of legs as comma-separated text, one header line and six rows. */
export function legsAsCsv(
  legs: readonly LegState[],
  { legs: { min, max } }: Mechanism,
  { shapes, readings, twists }: LegJoints,
): string {
  const columns = (['base', 'platform'] as const).flatMap((plate) =>
    COLUMNS[shapes[plate][0].kind].map((name) => `${plate}${name}`),
  );
  const header = [
    ...['leg', 'length_mm', 'strokeUsed_percent', ...columns],
    ...(twists ? ['twist_deg', 'twistLength_mm'] : []),
    'violations',
  ].join(',');
  const rows = legs.map(({ leg, length, violations }, index) => {
    const { base, platform } = readings[index];
    const twist = twists?.[index];
    const numbers = [
      ...[length, (100 * (length - min)) / (max - min)],
      ...[...base, ...platform].map(({ angle }) => degrees(angle)),
      ...(twist ? [degrees(twist.twist), twist.lengthChange] : []),
    ];
    return [leg, ...numbers.map((value) => value.toFixed(DECIMALS)), violations.join(' ')].join(',');
  });
  return `${[header, ...rows].join('\n')}\n`;
}
