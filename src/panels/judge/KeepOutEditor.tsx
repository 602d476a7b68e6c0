import { Trash2 } from 'lucide-react';
import type { DesignDocument } from '../../document/design.ts';
import {
  addKeepOut,
  fixKeepOut,
  type KeepOutDocument,
  removeKeepOut,
  renameKeepOut,
} from '../../document/edits/judge.ts';
import { MOST_KEEP_OUTS } from '../../document/judgement-fields.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import { DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import styles from './judge.module.css';
import { keepOutSpecs } from './judge-specs.ts';
import { VectorRow } from './VectorRow.tsx';

const NONE: readonly KeepOutDocument[] = [];

const keepOutsOf = (document: DesignDocument) => document.keepOuts ?? NONE;

/** Volumes that legs and plates must stay out of. */
export function KeepOutEditor() {
  const keepOuts = useDesign(keepOutsOf);
  // names may repeat, so a volume is known by its place in the list
  const placed = keepOuts.map((keepOut, place) => ({ keepOut, place }));
  const full = keepOuts.length >= MOST_KEEP_OUTS;
  const add = (kind: 'box' | 'cylinder') =>
    makeEdit((document) => addKeepOut(document, kind), `Add a keep-out ${kind}`);
  return (
    <>
      <h3 className={styles['heading']}>Keep-out volumes</h3>
      {placed.map(({ keepOut, place }) => (
        <KeepOut key={place} keepOut={keepOut} index={place} />
      ))}
      <p className={styles['buttons']}>
        <Button disabled={full} onClick={() => add('cylinder')}>
          Add a cylinder
        </Button>
        <Button disabled={full} onClick={() => add('box')}>
          Add a box
        </Button>
      </p>
    </>
  );
}

const FIXED: readonly (readonly [PlateName, string])[] = [
  ['base', 'Base'],
  ['platform', 'Platform'],
];

function KeepOut({ keepOut, index }: { readonly keepOut: KeepOutDocument; readonly index: number }) {
  const specs = keepOutSpecs(index);
  const rename = (name: string) => makeEdit((document) => renameKeepOut(document, index, name), 'Name of a keep-out');
  const remove = () => makeEdit((document) => removeKeepOut(document, index), `Remove ${keepOut.name}`);
  const isBox = 'box' in keepOut.shape;
  return (
    <fieldset className={styles['keepOut']} aria-label={`Keep-out ${index + 1}`}>
      <p>
        <b title="As it is named in the drawing">K{index + 1}</b>
        <input
          key={keepOut.name}
          aria-label={`Keep-out ${index + 1} name`}
          defaultValue={keepOut.name}
          maxLength={80}
          onBlur={(event) => rename(event.target.value)}
          onKeyDown={(event) => event.key === 'Enter' && event.currentTarget.blur()}
        />
        <Button look="quiet" aria-label={`Remove keep-out ${index + 1}`} onClick={remove}>
          <Trash2 size={14} aria-hidden="true" />
        </Button>
      </p>
      <Choice
        name={`Keep-out ${index + 1} moves with`}
        label="Fixed to"
        value={keepOut.fixedTo}
        options={FIXED}
        onChoose={(plate) =>
          makeEdit((document) => fixKeepOut(document, index, plate), `${keepOut.name} fixed to the ${plate}`)
        }
      />
      {(isBox ? specs.box : specs.cylinder).map((vector) => (
        <VectorRow key={vector.label} specs={vector} />
      ))}
      {isBox ? null : <DesignNumber spec={specs.diameter} />}
    </fieldset>
  );
}
