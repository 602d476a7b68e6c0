import type { DesignDocument, MountDocument } from '../../document/design.ts';
import { changeMount, leanByRule } from '../../document/edits/edit.ts';
import { ruleOf, TOWARD_RULES, type TowardRule } from '../../document/edits/mount-rule.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { Choice } from '../../ui/Choice.tsx';
import { Group } from '../../ui/Group.tsx';
import { Select } from '../../ui/Select.tsx';
import { roundedText } from '../../words/numbers.ts';
import { DesignCell, DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import { PLATE_WORDS } from '../number-spec.ts';
import styles from './design.module.css';
import { JointKind } from './JointKind.tsx';
import { JOINT_SPECS } from './number-specs.ts';

type MountKind = 'square' | 'aimed' | 'leaning';

const MOUNTS = [
  ['square', 'Square'],
  ['aimed', 'Aimed'],
  ['leaning', 'Leaning'],
] as const;

const MOUNT_SAYS: Readonly<Record<MountKind, string>> = {
  square: 'Square to the plate.',
  aimed: 'Along the leg as it lies at the home pose.',
  leaning: 'Leaning from square by one angle toward six azimuths in the plate’s own frame.',
};

/** Lean that mounts start with when they begin to lean [deg]. */
const FIRST_LEAN_deg = 20;

const RULE_WORDS: Readonly<Record<TowardRule, string>> = {
  outward: 'outward',
  inward: 'inward',
  leg: 'toward the leg at home',
};

const kindOf = (mount: MountDocument): MountKind => (typeof mount === 'string' ? mount : 'leaning');

/** Tilt limits and mounts of the joints of both plates. */
export const JointsGroup = () => (
  <Group title="Joints" brief={<Brief />}>
    <PlateJoints plate="base" />
    <PlateJoints plate="platform" />
  </Group>
);

const Brief = () =>
  useDesign(
    ({ joints: { base, platform } }) =>
      `${roundedText(base.tilt_deg, 1)} deg ${kindOf(base.mount)}, ${roundedText(platform.tilt_deg, 1)} deg ${kindOf(platform.mount)}`,
  );

function PlateJoints({ plate }: { readonly plate: PlateName }) {
  const name = PLATE_WORDS[plate];
  const kind = useDesign((document) => kindOf(document.joints[plate].mount));
  const choose = (wanted: MountKind) =>
    makeEdit(
      (document) =>
        wanted === 'leaning'
          ? leanByRule(document, plate, 'leg', FIRST_LEAN_deg)
          : changeMount(document, plate, wanted),
      `${name} mounts ${wanted}`,
    );
  return (
    <div className={styles['part']}>
      <h3>
        {name} joints <span>{plate === 'base' ? 'A' : 'B'}</span>
      </h3>
      <JointKind plate={plate} />
      <DesignNumber spec={JOINT_SPECS[plate].tilt} />
      <Choice name={`${name} joint mounts`} label="Mounts" value={kind} options={MOUNTS} onChoose={choose} />
      <p className={styles['readout']}>{MOUNT_SAYS[kind]}</p>
      {kind === 'leaning' ? <Leaning plate={plate} /> : null}
    </div>
  );
}

const ruleOnScreen = (document: DesignDocument, plate: PlateName): TowardRule | 'own' =>
  ruleOf(document, plate) ?? 'own';

const isRule = (value: string): value is TowardRule => TOWARD_RULES.some((rule) => rule === value);

function Leaning({ plate }: { readonly plate: PlateName }) {
  const name = PLATE_WORDS[plate];
  const rule = useDesign((document) => ruleOnScreen(document, plate));
  const choose = (wanted: string) => {
    if (!isRule(wanted)) return;
    makeEdit(
      (document) => leanByRule(document, plate, wanted, FIRST_LEAN_deg),
      `${name} mounts lean ${RULE_WORDS[wanted]}`,
    );
  };
  return (
    <>
      <DesignNumber spec={JOINT_SPECS[plate].lean} />
      <label className={styles['select']}>
        <span>Toward</span>
        <Select value={rule} onChange={(event) => choose(event.target.value)} aria-label={`${name} mounts lean toward`}>
          {TOWARD_RULES.map((option) => (
            <option key={option} value={option}>
              {RULE_WORDS[option]}
            </option>
          ))}
          <option value="own" disabled>
            own azimuths
          </option>
        </Select>
      </label>
      <fieldset className={styles['azimuths']} aria-label={`${name} mount azimuths, degrees`}>
        {JOINT_SPECS[plate].toward.map((spec) => (
          <span key={spec.name}>
            <b aria-hidden="true">{spec.label}</b>
            <DesignCell spec={spec} />
          </span>
        ))}
      </fieldset>
    </>
  );
}
