import { type FormEvent, useMemo, useState } from 'react';
import { compiledDesign } from '../../document/compiled.ts';
import { JOINTS } from '../../document/edits/edit.ts';
import { RANGES } from '../../document/ranges.ts';
import { anglesFromPose } from '../../kinematics/pose.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { judgePose } from '../../state/design/judged-pose.ts';
import { designStore, sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Group } from '../../ui/Group.tsx';
import { NumberField } from '../../ui/NumberField.tsx';
import { useJudgement } from '../pose-binding.ts';
import { dropJog, endJog, movePlatform } from './jog.ts';
import { poseOfLengths, sixLengths } from './lengths-to-pose.ts';
import styles from './pose.module.css';

/** Leg lengths as numbers to type: the platform goes to the pose that has them. */
export function LengthsToPose() {
  return (
    <Group title="Pose from leg lengths" startsFolded>
      <LegLengthFields />
      <PastedLengths />
    </Group>
  );
}

/** Solves for lengths from where the platform is; returns why there is no such pose, or null. */
function moveToLengths(replace: (present: readonly number[]) => readonly number[]): string | null {
  const document = liveDocument(designStore.getState());
  const { pose, legs } = judgePose(document, sessionStore.getState().pose);
  const { mechanism, architecture } = compiledDesign(document);
  if (architecture.singularEverywhere) return 'The legs are dependent at every pose, so lengths fix no pose.';
  const solved = poseOfLengths(mechanism, replace(legs.map(({ length }) => length)), pose);
  if (!solved.ok) return solved.fault.text;
  if (solved.value.assemblyChanged)
    return 'The nearest pose lies beyond a singular pose; the platform cannot get there from here.';
  movePlatform(anglesFromPose(solved.value.pose));
  return null;
}

const TRAVEL = { min: RANGES.min_mm.min, max: RANGES.max_mm.max, step: 1 } as const;

function LegLengthFields() {
  const { legs } = useJudgement();
  return (
    <div className={styles['lengths']}>
      {JOINTS.map((leg) => (
        <LegLength key={leg} leg={leg} length={Number(legs[leg - 1].length.toFixed(6))} />
      ))}
    </div>
  );
}

function LegLength({ leg, length }: { readonly leg: number; readonly length: number }) {
  const preview = useMemo(
    () => (wanted: number) =>
      moveToLengths((present) => present.map((old, index) => (index === leg - 1 ? wanted : old))),
    [leg],
  );
  return (
    <span>
      <b aria-hidden="true">{leg}</b>
      <NumberField
        name={`Length of leg ${leg}`}
        value={length}
        unit="mm"
        decimals={2}
        legal={RANGES.max_mm}
        travel={TRAVEL}
        preview={preview}
        commit={endJog}
        restore={dropJog}
      />
    </span>
  );
}

function PastedLengths() {
  const [text, setText] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  const solve = (event: FormEvent) => {
    event.preventDefault();
    const lengths = sixLengths(text);
    setFault(lengths.ok ? moveToLengths(() => lengths.value) : lengths.fault);
    endJog();
  };
  return (
    <form className={styles['paste']} onSubmit={solve}>
      <input
        type="text"
        value={text}
        placeholder="or all six: 160, 161, …"
        aria-label="Six leg lengths in millimetres"
        aria-invalid={fault !== null}
        onChange={(event) => {
          setText(event.target.value);
          setFault(null);
        }}
      />
      <Button submits>Solve</Button>
      <p role="status">{fault === null ? null : `▲ ${fault}`}</p>
    </form>
  );
}
