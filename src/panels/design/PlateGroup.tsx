import { useState } from 'react';
import type { DesignDocument } from '../../document/design.ts';
import { builtRing } from '../../document/edits/built-ring.ts';
import { changeHoles, freePoints, ringThroughPoints } from '../../document/edits/edit.ts';
import { nearestRing } from '../../document/edits/ring-fit.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { designStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import { Group } from '../../ui/Group.tsx';
import { Table } from '../../ui/Table.tsx';
import { roundedText } from '../../words/numbers.ts';
import { DesignCell, DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import { AXES, PLATE_WORDS } from '../number-spec.ts';
import styles from './design.module.css';
import { GapGaugeOfDesign } from './GapGauge.tsx';
import { JointListOfDesign } from './JointList.tsx';
import { POINT_SPECS, RING_SPECS } from './number-specs.ts';
import { PlateBody } from './PlateBody.tsx';

/** Points that lie on a ring within this are turned into it without asking [mm]: a thousandth of a hair. */
const ON_A_RING_mm = 1e-4;

/** Holes of a ring that gets them: 72, 5 deg apart, as indexed rings are often drilled. */
const FIRST_HOLES = { count: 72, start_deg: 0 } as const;

const LAYOUTS = [
  ['ring', 'Ring'],
  ['points', 'Free points'],
] as const;

/** One plate: a ring of three joint pairs, or six free points. */
export function PlateGroup({ plate }: { readonly plate: PlateName }) {
  const isRing = useDesign((document) => 'ring' in document[plate]);
  const [asks, setAsks] = useState<number | null>(null);
  const name = PLATE_WORDS[plate];
  const toRing = () => makeEdit((document) => ringThroughPoints(document, plate), `${name} as a ring`);
  const choose = (layout: 'ring' | 'points') => {
    setAsks(null);
    if (layout === 'points') makeEdit((document) => freePoints(document, plate), `${name} as free points`);
    else {
      const misfit = misfitOf(plate);
      if (misfit <= ON_A_RING_mm) toRing();
      else setAsks(misfit);
    }
  };
  return (
    <Group title={name} plate={plate === 'base' ? 'A' : 'B'} brief={<Brief plate={plate} />}>
      <Choice
        name={`${name} layout`}
        label="Joints on"
        value={isRing ? 'ring' : 'points'}
        options={LAYOUTS}
        onChoose={choose}
      />
      {asks !== null && !isRing ? (
        <p className={styles['ask']} role="status">
          These points are on no ring of three pairs; the nearest one moves a joint by {roundedText(asks, 1)} mm.
          <Button onClick={() => [toRing(), setAsks(null)]}>Move them</Button>
          <Button onClick={() => setAsks(null)}>Keep the points</Button>
        </p>
      ) : null}
      {isRing ? <RingNumbers plate={plate} /> : <PointsGrid plate={plate} />}
      <PlateBody plate={plate} />
    </Group>
  );
}

const Brief = ({ plate }: { readonly plate: PlateName }) => useDesign((document) => plateBrief(document, plate));

/** How far the nearest ring would move a joint of the plate on screen [mm]. */
function misfitOf(plate: PlateName): number {
  const layout = liveDocument(designStore.getState())[plate];
  return 'ring' in layout ? 0 : nearestRing(layout.points_mm.flat(), plate).misfit_mm;
}

function plateBrief(document: DesignDocument, plate: PlateName): string {
  const layout = document[plate];
  if (!('ring' in layout)) return 'six free points';
  const { radius_mm, gap_deg } = layout.ring;
  return `${roundedText(radius_mm, 1)} mm, gap ${roundedText(gap_deg, 1)} deg`;
}

function RingNumbers({ plate }: { readonly plate: PlateName }) {
  const specs = RING_SPECS[plate];
  return (
    <>
      <DesignNumber spec={specs.radius} />
      <DesignNumber spec={specs.gap} />
      <GapGaugeOfDesign />
      <DesignNumber spec={specs.turn} />
      <DesignNumber spec={specs.jointHeight} />
      <Holes plate={plate} />
    </>
  );
}

const ringOf = (document: DesignDocument, plate: PlateName) => {
  const layout = document[plate];
  return 'ring' in layout ? layout.ring : null;
};

function Holes({ plate }: { readonly plate: PlateName }) {
  const name = PLATE_WORDS[plate];
  const has = useDesign((document) => ringOf(document, plate)?.holes !== undefined);
  const toggle = () =>
    makeEdit(
      (document) => changeHoles(document, plate, has ? null : FIRST_HOLES),
      `${name} holes ${has ? 'off' : 'on'}`,
    );
  return (
    <>
      <label className={styles['switch']}>
        <input type="checkbox" checked={has} onChange={toggle} aria-label={`${name} indexed holes`} />
        <span>Joints in indexed holes</span>
      </label>
      {has ? <HoleNumbers plate={plate} /> : null}
    </>
  );
}

function HoleNumbers({ plate }: { readonly plate: PlateName }) {
  const specs = RING_SPECS[plate];
  const gap = useDesign((document) => {
    const ring = ringOf(document, plate);
    return ring ? builtRing(ring, plate).gap_deg : 0;
  });
  const snap = useDesign((document) => {
    const ring = ringOf(document, plate);
    return ring ? builtRing(ring, plate).snap_deg : 0;
  });
  const holes = useDesign((document) => {
    const ring = ringOf(document, plate);
    return (ring && builtRing(ring, plate).holes?.join(' ')) ?? '';
  });
  const moved = snap > 1e-6 ? `, joints up to ${roundedText(snap, 1)} deg from where the gap and turn put them` : '';
  return (
    <>
      <DesignNumber spec={specs.holeCount} />
      <DesignNumber spec={specs.holeStart} />
      <p
        className={styles['readout']}
        title="The hole at the start angle is number 1; holes count counter-clockwise seen from above."
      >
        Built gap <b>{roundedText(gap, 1)} deg</b>
        {moved}. Joint and hole:
      </p>
      <JointListOfDesign plate={plate} holes={holes} />
    </>
  );
}

function PointsGrid({ plate }: { readonly plate: PlateName }) {
  return (
    <Table className={styles['points']}>
      <caption>Joint centres in the plate's own frame, mm</caption>
      <thead>
        <tr>
          <th scope="col">Joint</th>
          {AXES.map((axis) => (
            <th key={axis} scope="col">
              {axis}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {POINT_SPECS[plate].map(({ joint, coordinates }) => (
          <tr key={joint}>
            <th scope="row">{joint}</th>
            {coordinates.map((spec) => (
              <td key={spec.name}>
                <DesignCell spec={spec} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
