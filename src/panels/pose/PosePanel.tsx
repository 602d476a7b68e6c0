import { House } from 'lucide-react';
import { memo, useState } from 'react';
import { useStore } from 'zustand';
import { compiledDesign } from '../../document/compiled.ts';
import { FREEDOMS } from '../../kinematics/free-travel.ts';
import type { LegState } from '../../kinematics/legs.ts';
import { sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import { Group } from '../../ui/Group.tsx';
import { brokenLimits } from '../../words/limits.ts';
import { roundedText } from '../../words/numbers.ts';
import { copyText } from '../copy-text.ts';
import { useDesign } from '../design-binding.ts';
import { presentPoseNow } from '../pose-binding.ts';
import { JogNumber } from './JogNumber.tsx';
import { returnHome } from './jog.ts';
import { LengthsToPose } from './LengthsToPose.tsx';
import styles from './pose.module.css';
import { POSE_FORMS, type PoseForm, poseText } from './pose-text.ts';
import { TravelHow } from './TravelHow.tsx';
import { useFreeTravel } from './useFreeTravel.ts';

const STEPS = ['0.1', '1', '5', '10'] as const;

const STEP_OPTIONS = STEPS.map((step) => [step, step] as const);

/** The present pose: six jog controls with their stops, home, and the pose as text. */
export const PosePanel = memo(function PosePanel() {
  const jogged = useJogged();
  return (
    <>
      <Group title="Pose" brief={jogged ? 'moved from home' : 'at home'}>
        <Jogs />
        <p className={styles['convention']}>
          Tool point in base axes. <code>R = Rz(yaw) Ry(pitch) Rx(roll)</code>: about the fixed x, then y, then z.
        </p>
        <CopyPose />
      </Group>
      <LengthsToPose />
    </>
  );
});

function Jogs() {
  const [step, setStep] = useState<(typeof STEPS)[number]>('1');
  const { result, stale } = useFreeTravel();
  const jogged = useJogged();
  return (
    <div data-stale={stale} className={styles['jogs']}>
      <div className={styles['top']}>
        <Choice
          name="Step of the buttons, millimetres and degrees"
          label="Step"
          value={step}
          options={STEP_OPTIONS}
          onChoose={setStep}
        />
        <Button className={styles['home']} onClick={returnHome} disabled={!jogged}>
          <House size={14} aria-hidden="true" /> Home
        </Button>
      </div>
      {FREEDOMS.map((freedom, index) => (
        <JogNumber key={freedom} index={index} step={Number(step)} travel={result?.ok ? result.value[index] : null} />
      ))}
      {result && !result.ok ? <Broken legs={result.fault} /> : null}
      {result?.ok ? (
        <div className={styles['said']}>
          <p className={styles['convention']}>
            Room from here, one number at a time; sampled every {roundedText(result.value[0].step, 1)} mm and 0.5 deg.
          </p>
          <TravelHow travel={result.value} />
        </div>
      ) : null}
    </div>
  );
}

const useJogged = (): boolean => useStore(sessionStore, ({ pose }) => pose !== null);

function Broken({ legs }: { readonly legs: readonly LegState[] }) {
  const mechanism = useDesign((document) => compiledDesign(document).mechanism);
  return (
    <p className={styles['broken']}>
      ▲ This pose breaks limits, so there is no room to state from here: {brokenLimits(legs, mechanism)[0]}
      {legs.length > 1 ? ' and more' : ''}.
    </p>
  );
}

const FORM_WORDS: Readonly<Record<PoseForm, string>> = {
  angles: 'Angles',
  quaternion: 'Quaternion w x y z',
  matrix: 'Matrix',
};

function CopyPose() {
  const [done, setDone] = useState<string | null>(null);
  const copy = async (form: PoseForm) => {
    const allowed = await copyText(poseText(presentPoseNow(), form));
    setDone(allowed ? `${FORM_WORDS[form]} copied.` : 'The browser did not allow copying.');
  };
  return (
    <div className={styles['copy']}>
      <span>Copy as</span>
      {POSE_FORMS.map((form) => (
        <Button key={form} onClick={() => copy(form)}>
          {FORM_WORDS[form]}
        </Button>
      ))}
      <p role="status">{done}</p>
    </div>
  );
}
