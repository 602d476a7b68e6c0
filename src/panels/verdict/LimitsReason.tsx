import type { LegJointReadings, MeasuredAbout } from '../../kinematics/joint-readings.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { degrees } from '../../terms/units.ts';
import { brokenLimits } from '../../words/limits.ts';
import { roundedText } from '../../words/numbers.ts';
import styles from './verdict.module.css';

interface LimitsReasonProps {
  readonly legs: readonly LegState[];
  readonly mechanism: Mechanism;
  readonly joints: readonly LegJointReadings[];
  /** Bodies that meet or come nearer than the design asks, in words. */
  readonly tooNear: string | null;
}

/** The leg with the largest of some quantity. */
const worst = (legs: readonly LegState[], of: (leg: LegState) => number): LegState =>
  legs.reduce((most, leg) => (of(leg) > of(most) ? leg : most));

/** Which limits are broken at the pose, and how near the others are. */
export function LimitsReason({ legs, mechanism, joints, tooNear }: LimitsReasonProps) {
  const broken = [...brokenLimits(legs, mechanism, joints), ...(tooNear ? [tooNear] : [])];
  const { legs: length } = mechanism;
  const longest = worst(legs, (leg) => leg.length);
  const shortest = worst(legs, (leg) => -leg.length);
  return (
    <>
      {broken.length > 0 ? (
        <ul className={styles['broken']}>
          {broken.map((words) => (
            <li key={words}>▲ {words}</li>
          ))}
        </ul>
      ) : (
        <p>Every leg and joint is within its limits at this pose.</p>
      )}
      <dl className={styles['facts']}>
        <dt>Leg length</dt>
        <dd>
          |t + R b − a|, joint centre to joint centre, {roundedText(length.min, 1)} to {roundedText(length.max, 1)} mm.
          Longest: leg {longest.leg}, {roundedText(longest.length, 1)} mm; shortest: leg {shortest.leg},{' '}
          {roundedText(shortest.length, 1)} mm
        </dd>
        <dt>Base joints</dt>
        <dd>{jointWords(joints, 'base')}</dd>
        <dt>Platform joints</dt>
        <dd>{jointWords(joints, 'platform')}</dd>
      </dl>
      <p className={styles['note']}>
        t is the tool point, R b the platform joint from it, a the base joint. How near legs, plates, payload and
        keep-outs come to each other is under Clearance. Keep hands clear of the pinch points between legs and plates,
        and use hard stops at the ends of the stroke.
      </p>
    </>
  );
}

const ABOUT: Readonly<Record<MeasuredAbout, string>> = {
  mount: 'angle between the leg and the mount’s own axis',
  bolt: 'tilt out of the plane square to the bolt',
  first: 'turn about the first axis',
  second: 'turn about the second axis',
};

/** What a plate's joints are limited in, and which of them is nearest to its limit. */
function jointWords(joints: readonly LegJointReadings[], plate: PlateName): string {
  return joints[0][plate]
    .map(({ about, limit }, n) => {
      const most = joints.reduce((worst, leg) => (leg[plate][n].angle > worst[plate][n].angle ? leg : worst));
      const angle = (value: number) => roundedText(degrees(value), 1);
      return `${ABOUT[about]}, up to ${angle(limit)} deg. Most: leg ${most.leg}, ${angle(most[plate][n].angle)} deg`;
    })
    .join('; ');
}
