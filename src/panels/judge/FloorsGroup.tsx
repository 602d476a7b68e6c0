import { Trash2 } from 'lucide-react';
import { useId, useState } from 'react';
import type { DesignDocument } from '../../document/design.ts';
import { changeFloor, floorOf, removeFloor } from '../../document/edits/floors.ts';
import { Button } from '../../ui/Button.tsx';
import { Group } from '../../ui/Group.tsx';
import { Select } from '../../ui/Select.tsx';
import { cm3Text } from '../../words/reach.ts';
import { DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import { UsableFacts } from '../UsableFacts.tsx';
import { useUsable } from '../usable-binding.ts';
import { FLOOR_SPECS, type FloorSpec } from './floor-specs.ts';
import styles from './floors.module.css';

const floorsOf = ({ floors }: DesignDocument) => floors;

/** What a pose must keep to count as usable, and how much of the reach does. */
export const FloorsGroup = () => (
  <Group title="Floors" brief={<Brief />} startsFolded>
    <p className={styles['note']}>
      What every pose must keep. Usable is what keeps all of them and is connected to home without crossing a singular
      pose.
    </p>
    <Rows />
    <Usable />
  </Group>
);

function Brief() {
  const { value, failure } = useUsable();
  const set = useSet();
  if (set.length === 0) return <>none set</>;
  return <>{value ? `${cm3Text(value.usable)} usable` : failure === null ? '…' : 'not known'}</>;
}

function useSet(): readonly FloorSpec[] {
  const floors = useDesign(floorsOf);
  return FLOOR_SPECS.filter(({ number }) => floors !== undefined && number.range in floors);
}

function Rows() {
  const set = useSet();
  return (
    <>
      {set.map((spec) => (
        <div key={spec.quantity} className={styles['row']}>
          <DesignNumber spec={spec.number} />
          <Button
            look="quiet"
            aria-label={`Remove the floor ${spec.words}`}
            onClick={() =>
              makeEdit((document) => removeFloor(document, spec.quantity), `Remove the floor ${spec.words}`)
            }
          >
            <Trash2 size={14} aria-hidden="true" />
          </Button>
        </div>
      ))}
      <AddFloor left={FLOOR_SPECS.filter((spec) => !set.includes(spec))} />
    </>
  );
}

function AddFloor({ left }: { readonly left: readonly FloorSpec[] }) {
  const id = useId();
  const [wanted, setWanted] = useState<FloorSpec['quantity']>('stiffness');
  const chosen = left.find(({ quantity }) => quantity === wanted) ?? left[0];
  if (!chosen) return null;
  const add = () =>
    makeEdit(
      (document) =>
        floorOf(document, chosen.quantity) === null ? changeFloor(document, chosen.quantity, chosen.start) : document,
      `Add the floor ${chosen.words}`,
    );
  return (
    <p className={styles['add']}>
      <label htmlFor={id} className="spoken">
        Floor to add
      </label>
      <Select
        id={id}
        value={chosen.quantity}
        onChange={(event) => {
          const next = left.find(({ quantity }) => quantity === event.target.value);
          if (next) setWanted(next.quantity);
        }}
      >
        {left.map(({ quantity, words }) => (
          <option key={quantity} value={quantity}>
            {words}
          </option>
        ))}
      </Select>
      <Button onClick={add}>Add floor</Button>
    </p>
  );
}

function Usable() {
  const { value, stale, failure } = useUsable();
  if (failure !== null && !value) return <p className={styles['alarm']}>▲ {failure}</p>;
  if (!value) return <p className={styles['note']}>Computing…</p>;
  return <UsableFacts usable={value} stale={stale} />;
}
