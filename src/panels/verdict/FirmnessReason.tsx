import type { Architecture } from '../../kinematics/architecture.ts';
import { GENERIC_POSES, RANK_TOLERANCE } from '../../kinematics/architecture.ts';
import { FIRM_MAGNIFICATION, type Independence, NEARLY_SINGULAR_MAGNIFICATION } from '../../kinematics/independence.ts';
import { magnificationText, motionWords } from '../../words/firmness.ts';
import { figure, roundedText, withMinus } from '../../words/numbers.ts';
import styles from './verdict.module.css';

const digits = (value: number): string => withMinus(Number(value.toPrecision(5)).toString());

interface FirmnessReasonProps {
  readonly independence: Independence;
  readonly architecture: Architecture;
  readonly ownLength: boolean;
}

/** A power of ten as it is printed: "10⁻¹⁰". */
const powerText = (value: number): string =>
  `10${[...String(Math.round(Math.log10(value)))].map((sign) => (sign === '-' ? '⁻' : '⁰¹²³⁴⁵⁶⁷⁸⁹'[Number(sign)])).join('')}`;

/** How the firmness was judged, with its numbers. */
export function FirmnessReason({ independence, architecture, ownLength }: FirmnessReasonProps) {
  const { singularValues, firmness, magnification, condition, determinant, rank, characteristicLength, verdict } =
    independence;
  const smallest = singularValues[5];
  return (
    <>
      <p>{verdict.reason}</p>
      <dl className={styles['facts']}>
        <dt>Firmness</dt>
        <dd>
          σ₆ = <b>{figure(firmness)}</b> = 1 / magnification: the figure that Explore calls firmness at home
        </dd>
        <dt>Magnification</dt>
        <dd>
          1 / σ₆ = 1 / {digits(smallest)} = <b>{magnificationText(magnification)}</b>: a change of the six leg lengths
          (root of their squares summed) moves the tool at most this many times as far, turns counted at L
        </dd>
        <dt>Thresholds</dt>
        <dd>
          firm up to {FIRM_MAGNIFICATION}, soft up to {NEARLY_SINGULAR_MAGNIFICATION}, above that nearly singular
        </dd>
        <dt>Singular values</dt>
        <dd>
          σ₁ to σ₆ = {Array.from(singularValues, digits).join(', ')}, of the 6 × 6 matrix with rows [uᵢ, (R bᵢ) × uᵢ /
          L]
        </dd>
        <dt>Characteristic length</dt>
        <dd>
          L = {roundedText(characteristicLength, 1)} mm,{' '}
          {ownLength ? 'set in the design' : 'the platform’s mean joint radius'}; another length gives another number
        </dd>
        <dt>Condition</dt>
        <dd>
          σ₁ / σ₆ = {digits(singularValues[0])} / {digits(smallest)} ={' '}
          {Number.isFinite(condition) ? digits(condition) : 'without bound'}
        </dd>
        <dt>Determinant</dt>
        <dd>
          det J = {digits(determinant)} mm³,{' '}
          {rank < 6 ? 'zero but for rounding' : determinant > 0 ? 'positive' : 'negative'}; its sign changes where the
          platform passes a singular pose
        </dd>
        <dt>Rank</dt>
        <dd>
          {rank} of 6 here, counting values above {powerText(RANK_TOLERANCE)} σ₁; highest over {GENERIC_POSES} generic
          poses {architecture.genericRank}
          {verdict.freeMotions > 0 ? `; free motions with all legs locked: ${verdict.freeMotions}` : ''}
        </dd>
        <dt>Loosest motion</dt>
        <dd>{motionWords(independence.loosestMotion, characteristicLength)}</dd>
      </dl>
      <p className={styles['note']}>
        u is a leg’s direction, b its platform joint from the tool point, R the rotation of the platform. The thresholds
        are this program’s own: common practice gives no number.
      </p>
    </>
  );
}
