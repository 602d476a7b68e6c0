import { memo, useState } from 'react';
import { useStore } from 'zustand';
import { compiledDesign } from '../../document/compiled.ts';
import { FREEDOMS } from '../../kinematics/free-travel.ts';
import type { LegState } from '../../kinematics/legs.ts';
import { sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Group } from '../../ui/Group.tsx';
import { Select } from '../../ui/Select.tsx';
import { brokenLimits } from '../../words/limits.ts';
import { roundedText } from '../../words/numbers.ts';
import { copyText } from '../copy-text.ts';
import { useDesign } from '../design-binding.ts';
import { presentPoseNow } from '../pose-binding.ts';
import { JogNumber } from './JogNumber.tsx';
import { returnHome } from './jog.ts';
import styles from './pose.module.css';
import { POSE_FORMS, type PoseForm, poseText } from './pose-text.ts';
import { TravelHow } from './TravelHow.tsx';
import { useFreeTravel } from './useFreeTravel.ts';

/** How far one arrow key moves the platform. */
const PACES = [
  { name: 'fine', mm: 0.1, deg: 0.1 },
  { name: 'usual', mm: 1, deg: 0.5 },
  { name: 'coarse', mm: 5, deg: 5 },
] as const;

type Pace = (typeof PACES)[number];

/** The present pose: six jog controls with their stops, home, and the pose as text. */
export const PosePanel = memo(function PosePanel() {
  const jogged = useJogged();
  return (
    <Group title="Pose" brief={jogged ? 'moved from home' : 'at home'}>
      <Jogs />
      <p className={styles['convention']}>
        Tool point in base axes. <code>R = Rz(yaw) Ry(pitch) Rx(roll)</code>: about the fixed x, then y, then z.
      </p>
      <CopyPose />
    </Group>
  );
});

function Jogs() {
  const [pace, setPace] = useState<Pace>(PACES[1]);
  const { result, stale } = useFreeTravel();
  const jogged = useJogged();
  return (
    <div data-stale={stale} className={styles['jogs']}>
      <div className={styles['top']}>
        <label>
          Arrow keys move
          <Select
            aria-label="How far arrow keys move the platform"
            value={pace.name}
            onChange={(event) => setPace(PACES.find(({ name }) => name === event.target.value) ?? pace)}
          >
            {PACES.map(({ name, mm, deg }) => (
              <option key={name} value={name}>{`${mm} mm, ${deg} deg`}</option>
            ))}
          </Select>
        </label>
        <Button onClick={returnHome} disabled={!jogged}>
          Return home
        </Button>
      </div>
      {FREEDOMS.map((freedom, index) => (
        <JogNumber
          key={freedom}
          index={index}
          step={index < 3 ? pace.mm : pace.deg}
          travel={result?.ok ? result.value[index] : null}
        />
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
