import { X } from 'lucide-react';
import { memo, useId } from 'react';
import { useStore } from 'zustand';
import { type ComparedDesign, removeCompared } from '../../state/compare/compare-store.ts';
import { compareStore, sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Table } from '../../ui/Table.tsx';
import { VERDICT_MARKS } from '../../words/firmness.ts';
import type { Quantity } from './compare-quantity.ts';
import { type CompareCell, compareRows } from './compare-rows.ts';
import styles from './compare-table.module.css';
import type { ComparedFigures } from './compared-figures.ts';
import { atHome } from './figures.ts';
import { Letter } from './Letter.tsx';
import { QUANTITIES } from './quantities.ts';
import { RowsHow } from './RowsHow.tsx';

/** Where a column's design comes from, in words. */
const SOURCE_WORDS: Readonly<Record<ComparedDesign['source'], string>> = {
  live: 'open design',
  pinned: 'pinned',
  snapshot: 'snapshot',
  demo: 'demo',
  file: 'file',
};

/** Up to four designs side by side, row by row. */
export const CompareTable = memo(function CompareTable({ figures }: { readonly figures: readonly ComparedFigures[] }) {
  const chosen = useStore(compareStore, (state) => state.reference);
  const reference = Math.min(chosen, figures.length - 1);
  const note = useId();
  return (
    <section className={styles['part']} aria-label="Table of the comparison">
      <div className={styles['noteRow']}>
        <p id={note} className={styles['note']}>
          Each design is judged at its own home pose. Differences are counted from design{' '}
          {figures[reference].design.letter}; “best” marks the best of a row.
        </p>
        <RowsHow />
      </div>
      <div className={styles['scroller']}>
        <Table className={styles['table']} aria-describedby={note}>
          <thead>
            <tr>
              <td />
              {figures.map(({ design }, index) => (
                <th key={design.letter} scope="col">
                  <ColumnHead design={design} index={index} isReference={index === reference} />
                </th>
              ))}
            </tr>
          </thead>
          {GROUPS.map(({ name, quantities }) => (
            <GroupRows key={name} name={name} quantities={quantities} figures={figures} reference={reference} />
          ))}
        </Table>
      </div>
    </section>
  );
});

/** The quantities by their groups, in the order of the table. */
const GROUPS = [...new Set(QUANTITIES.map(({ group }) => group))].map((name) => ({
  name,
  quantities: QUANTITIES.filter(({ group }) => group === name),
}));

interface GroupRowsProps {
  readonly name: string;
  readonly quantities: readonly Quantity[];
  readonly figures: readonly ComparedFigures[];
  readonly reference: number;
}

/** The rows of one group; each group is a piece of work of its own, so that none holds the page up. */
const GroupRows = memo(function GroupRows({ name, quantities, figures, reference }: GroupRowsProps) {
  const tiltRange = useStore(sessionStore, (state) => state.tiltRange);
  const yawRange = useStore(sessionStore, (state) => state.yawRange);
  return (
    <tbody>
      <tr>
        <th className={styles['group']} scope="rowgroup" colSpan={1 + figures.length}>
          {name}
        </th>
      </tr>
      {compareRows(figures, reference, { tiltRange, yawRange }, quantities).map((row) => (
        <tr key={row.id}>
          <th scope="row">{row.name}</th>
          {row.cells.map((cell, place) => (
            <Cell key={figures[place].design.letter} cell={cell} />
          ))}
        </tr>
      ))}
    </tbody>
  );
});

interface ColumnHeadProps {
  readonly design: ComparedDesign;
  readonly index: number;
  readonly isReference: boolean;
}

function ColumnHead({ design: { letter, title, source, document }, index, isReference }: ColumnHeadProps) {
  const { word } = atHome(document).independence.verdict;
  return (
    <div className={styles['head']}>
      <span className={styles['top']}>
        <Letter letter={letter} />
        <Button
          look="quiet"
          aria-label={`Take design ${letter} out of the comparison`}
          onClick={() => removeCompared(compareStore, index)}
        >
          <X size={14} aria-hidden="true" />
        </Button>
      </span>
      <span className={styles['title']} title={title}>
        {title}
      </span>
      <span className={styles['source']}>
        {SOURCE_WORDS[source]}
        <span className={styles['verdict']} data-firm={word === 'firm' || undefined}>
          {VERDICT_MARKS[word]} {word}
        </span>
      </span>
      <label className={styles['reference']}>
        <input
          type="radio"
          name="compare-reference"
          aria-label={`reference: design ${letter}`}
          checked={isReference}
          onChange={() => compareStore.setState({ reference: index })}
        />
        <span>reference</span>
      </label>
    </div>
  );
}

function Cell({ cell: { text, change, best } }: { readonly cell: CompareCell }) {
  return (
    <td data-best={best || undefined}>
      <span className={styles['value']}>
        {best && <span className={styles['best']}>best</span>}
        {text}
      </span>
      {change && (
        <span
          className={styles['change']}
          data-judged={change.judged}
          data-same={change.direction === 'same' || undefined}
        >
          {MARKS[change.direction]} {change.words}
          {change.judged && <span>, {change.judged}</span>}
        </span>
      )}
    </td>
  );
}

/** Direction of a change, told without colour. */
const MARKS = { up: '↑', down: '↓', same: '', other: '≠' } as const;
