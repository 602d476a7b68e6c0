import { useState } from 'react';
import { useStore } from 'zustand';
import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { changeCharacteristicLength, makeHome } from '../../document/edits/edit.ts';
import { designStore, sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import { Group } from '../../ui/Group.tsx';
import { roundedText } from '../../words/numbers.ts';
import { DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import styles from './design.module.css';
import { HOME_SPECS, LENGTH_SPEC, TOOL_SPECS } from './number-specs.ts';

const listed = (numbers: readonly number[]): string => numbers.map((value) => roundedText(value, 1)).join(', ');

const STAYS = [
  ['plate', 'Plate at home'],
  ['home', 'Home numbers'],
] as const;

/** The point that the platform turns about. */
export function ToolGroup() {
  const [stays, setStays] = useState<keyof typeof TOOL_SPECS>('plate');
  return (
    <Group title="Tool point" brief={<ToolBrief />} startsFolded>
      {TOOL_SPECS[stays].map((spec) => (
        <DesignNumber key={spec.name} spec={spec} />
      ))}
      <Choice
        name="What stays when the tool point is moved"
        label="What stays"
        value={stays}
        options={STAYS}
        onChoose={setStays}
      />
      <p className={styles['readout']}>
        From the centre of the platform’s joint circle, in platform axes. The platform turns about it.
      </p>
    </Group>
  );
}

const ToolBrief = () => useDesign((document) => `${listed(document.tool.point_mm)} mm`);

/** The pose in which the platform stands until it is moved. */
export const HomeGroup = () => (
  <Group title="Home pose" brief={<HomeBrief />}>
    {HOME_SPECS.map((spec) => (
      <DesignNumber key={spec.name} spec={spec} />
    ))}
    <p className={styles['readout']}>
      Tool point in base axes; <code>R = Rz(yaw) Ry(pitch) Rx(roll)</code>, turns about the fixed x, then y, then z.
    </p>
    <PresentAsHome />
  </Group>
);

const HomeBrief = () =>
  useDesign(
    ({ home }) => `${listed(home.position_mm)} mm; ${listed([home.roll_deg, home.pitch_deg, home.yaw_deg])} deg`,
  );

function PresentAsHome() {
  const jogged = useStore(sessionStore, (state) => state.pose !== null);
  const adopt = () => {
    const { pose } = sessionStore.getState();
    if (!pose) return;
    const refusal = makeEdit((document) => makeHome(document, pose), 'Home at the present pose');
    if (refusal === null) sessionStore.setState({ pose: null });
  };
  return (
    <Button disabled={!jogged} onClick={adopt}>
      Make the present pose home
    </Button>
  );
}

/** The length by which turns are compared with shifts. */
export function LengthGroup() {
  const own = useDesign(hasOwnLength);
  const toggle = () => {
    const length = compiledDesign(designStore.getState().document).mechanism.characteristicLength;
    makeEdit(
      (document) => changeCharacteristicLength(document, own ? null : Number(length.toFixed(3))),
      own ? 'Characteristic length by default' : 'Own characteristic length',
    );
  };
  return (
    <Group title="Characteristic length" brief={<LengthBrief />} startsFolded>
      <label className={styles['switch']}>
        <input type="checkbox" checked={own} onChange={toggle} />
        <span>Own length instead of the default</span>
      </label>
      {own ? <DesignNumber spec={LENGTH_SPEC} /> : null}
      <p className={styles['readout']}>
        Firmness compares turns with shifts: a turn counts as the distance it moves a point{' '}
        <b>
          <LengthUsed /> mm
        </b>{' '}
        away
        {own ? '' : ', the platform’s mean joint radius'}. The verdict depends on this length.
      </p>
    </Group>
  );
}

const hasOwnLength = ({ characteristicLength_mm }: DesignDocument): boolean => characteristicLength_mm !== undefined;

const lengthUsed = (document: DesignDocument): string =>
  roundedText(compiledDesign(document).mechanism.characteristicLength, 1);

const LengthUsed = () => useDesign(lengthUsed);

const LengthBrief = () =>
  useDesign((document) => `${lengthUsed(document)} mm${hasOwnLength(document) ? '' : ', by default'}`);
