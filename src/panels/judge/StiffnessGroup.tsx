import { changeJointGive, changeStiffness } from '../../document/edits/judge.ts';
import { type Inertia, wholeInertia } from '../../kinematics/inertia.ts';
import { beyondLinearSag, type LegStiffness, type StiffnessReport } from '../../kinematics/stiffness.ts';
import { length, type Vec3 } from '../../math/vec3.ts';
import { degrees } from '../../terms/units.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { Group } from '../../ui/Group.tsx';
import { directionWords } from '../../words/firmness.ts';
import { listed, three } from '../../words/numbers.ts';
import { DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import styles from './judge.module.css';
import { JOINT_STIFFNESS_SPECS, LEG_STIFFNESS_SPEC } from './judge-specs.ts';
import { OwnStiffness } from './OwnErrors.tsx';
import { type Judged, useJudged } from './useJudged.ts';

/** Numbers to start from [N/mm]; examples, no part's values. */
const FIRST_LEG = 1000;
const FIRST_JOINT = 5000;

/** How far the tool gives way. */
export function StiffnessGroup() {
  const stated = useDesign((document) => document.stiffness !== undefined);
  return (
    <Group title="Stiffness" brief={stated ? <Brief /> : 'not stated'} startsFolded>
      {stated ? <Stated /> : <Unstated />}
    </Group>
  );
}

function Unstated() {
  const start = () =>
    makeEdit((document) => changeStiffness(document, 'leg_N_mm', FIRST_LEG), 'State the legs’ stiffness');
  return (
    <>
      <p className={styles['note']}>The design does not say how stiff its legs are, and nothing is assumed.</p>
      <Button onClick={start}>Start with {FIRST_LEG} N/mm a leg, an example</Button>
    </>
  );
}

const JOINTS = [
  ['rigid', 'Rigid'],
  ['give', 'Give'],
] as const;

function Stated() {
  const give = useDesign(({ stiffness }) =>
    stiffness?.baseJoint_N_mm === undefined && stiffness?.platformJoint_N_mm === undefined ? 'rigid' : 'give',
  );
  const choose = (wanted: 'rigid' | 'give') =>
    makeEdit(
      (document) => changeJointGive(document, wanted === 'give' ? FIRST_JOINT : null),
      wanted === 'give' ? 'Joints give' : 'Rigid joints',
    );
  return (
    <>
      <DesignNumber spec={LEG_STIFFNESS_SPEC} />
      <Choice name="Joints along the leg" label="Joints" value={give} options={JOINTS} onChoose={choose} />
      {give === 'give' ? JOINT_STIFFNESS_SPECS.map((spec) => <DesignNumber key={spec.name} spec={spec} />) : null}
      <OwnStiffness />
      <Results />
    </>
  );
}

function Brief() {
  const report = useJudged().at.stiffness;
  if (!report) return null;
  return <>{report.ok ? `weakest ${three(report.value.weakestTranslation.stiffness)} N/mm` : 'singular here'}</>;
}

const partsOf = ({ leg, baseJoint, platformJoint }: LegStiffness): readonly number[] =>
  [leg, baseJoint, platformJoint].filter(Number.isFinite);

const seriesOf = (parts: readonly number[]): number => 1 / parts.reduce((sum, part) => sum + 1 / part, 0);

/** Springs in series, with their numbers; each leg's own where they differ. */
function seriesText(legs: readonly LegStiffness[]): string {
  const [parts, ...others] = legs.map(partsOf);
  if (others.every((other) => other.join() === parts.join()))
    return `1/k = ${parts.map((part) => `1/${three(part)}`).join(' + ')}, so k = ${three(seriesOf(parts))} N/mm a leg`;
  const all = legs.map((leg) => three(seriesOf(partsOf(leg))));
  return `1/k = 1/leg + 1/base joint + 1/platform joint, each leg’s own: k = ${all.join(', ')} N/mm, legs 1 to 6`;
}

function Results() {
  const judged = useJudged();
  const report = judged.at.stiffness;
  const legs = judged.inputs.stiffness;
  if (!report || !legs) return null;
  if (!report.ok) return <p className={styles['alarm']}>▲ {report.fault.message}</p>;
  return <Figures report={report.value} judged={judged} series={seriesText(legs)} />;
}

/** Moments about x, y, z, and the other three entries of the matrix where there are any. */
function inertiaText(inertia: Vec3 | Inertia): string {
  const [xx, yy, zz, xy, xz, yz] = wholeInertia(inertia);
  const moments = `xx, yy, zz ${listed([xx, yy, zz])}`;
  return xy === 0 && xz === 0 && yz === 0 ? moments : `${moments} and xy, xz, yz ${listed([xy, xz, yz])}`;
}

interface FiguresProps {
  readonly report: StiffnessReport;
  readonly judged: Judged;
  readonly series: string;
}

function Figures({ report, judged, series }: FiguresProps) {
  const { weakestTranslation, stiffestTranslation, sag, sideForce, modes } = report;
  const { payload } = judged.inputs.load;
  const { direction, stiffness } = weakestTranslation;
  const beyond = beyondLinearSag(judged.mechanism, sag);
  return (
    <>
      {beyond ? <p className={styles['alarm']}>▲ {beyond}</p> : null}
      <Figure
        label="Weakest direction"
        value={`${three(stiffness)} N/mm (${three(stiffness / 1000)} N/µm)`}
        how={
          <p>
            {series}. K = Jᵀ diag(k) J; weakest along {directionWords(direction)} ({listed(direction)}), where K⁻¹ moves
            the tool most: 1 / {three(1 / stiffness)} mm/N. Firmest direction {three(stiffestTranslation.stiffness)}{' '}
            N/mm. Plates and frame count as rigid.
          </p>
        }
      />
      <Figure
        label="Sag under the load"
        value={beyond ? 'too far' : `${three(length(sag.translation))} mm, ${three(degrees(length(sag.rotation)))} deg`}
        how={
          <p>
            K⁻¹ w, from the unloaded pose: {listed(sag.translation)} mm and {listed(sag.rotation, 180 / Math.PI)} deg, w
            the load of {three(payload.mass)} kg{judged.inputs.assumed.payload ? ' (assumed)' : ''} and what acts from
            outside.
          </p>
        }
      />
      <Figure
        label="1 N from the side"
        value={`${three(1000 * length(sideForce.shift.translation))} µm`}
        how={
          <p>
            K⁻¹ times 1 N in the horizontal direction that moves the tool most, {listed(sideForce.direction)}: shift{' '}
            {listed(sideForce.shift.translation, 1000)} µm, turn {listed(sideForce.shift.rotation, 180 / Math.PI)} deg.
          </p>
        }
      />
      <Figure
        label="First natural frequency"
        value={modes.frequencies.length > 0 ? `${three(modes.frequencies[0])} Hz` : 'no mass'}
        how={
          <p>
            K y = ω² M y with M of {three(payload.mass)} kg
            {payload.inertia ? ` and the inertia ${inertiaText(payload.inertia)} kg mm²` : ', a point mass'} about its
            centre of mass, the platform itself included; legs and joints without mass. All:{' '}
            {modes.frequencies.map(three).join(', ') || 'none'} Hz. {modes.fewer}
          </p>
        }
      />
    </>
  );
}
