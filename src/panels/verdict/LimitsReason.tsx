import { degrees } from '../../document/units.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { roundedText } from '../controls/number-text.ts';
import { brokenLimits } from '../limit-words.ts';
import styles from './verdict.module.css';

interface LimitsReasonProps {
  readonly legs: readonly LegState[];
  readonly mechanism: Mechanism;
}

/** The leg with the largest of some quantity. */
const worst = (legs: readonly LegState[], of: (leg: LegState) => number): LegState =>
  legs.reduce((most, leg) => (of(leg) > of(most) ? leg : most));

/** Which limits are broken at the pose, and how near the others are. */
export function LimitsReason({ legs, mechanism }: LimitsReasonProps) {
  const broken = brokenLimits(legs, mechanism);
  const { legs: length, tiltLimit } = mechanism;
  const longest = worst(legs, (leg) => leg.length);
  const shortest = worst(legs, (leg) => -leg.length);
  const base = worst(legs, (leg) => leg.baseTilt);
  const platform = worst(legs, (leg) => leg.platformTilt);
  const angle = (value: number): string => roundedText(degrees(value), 1);
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
        <dt>Base joint tilt</dt>
        <dd>
          angle between the leg and the mount’s own axis, up to {angle(tiltLimit.base)} deg. Most: leg {base.leg},{' '}
          {angle(base.baseTilt)} deg
        </dd>
        <dt>Platform joint tilt</dt>
        <dd>
          the same in the platform, up to {angle(tiltLimit.platform)} deg. Most: leg {platform.leg},{' '}
          {angle(platform.platformTilt)} deg
        </dd>
      </dl>
      <p className={styles['note']}>
        t is the tool point, R b the platform joint from it, a the base joint. Legs, joints and plates can also meet
        each other; that is not judged here. Keep hands clear of the pinch points between legs and plates, and use hard
        stops at the ends of the stroke.
      </p>
    </>
  );
}
