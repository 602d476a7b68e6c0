import { useState } from 'react';
import { FIGURE_COUNT } from '../../explore/layout-figures.ts';
import { columnWords } from '../../state/explore/explore-columns.ts';
import { choiceLabel, withChoice } from '../../state/explore/hole-edits.ts';
import { designStore, sessionStore } from '../../state/stores.ts';
import { FIGURE_NAMES, type FigureName } from '../../terms/figures.ts';
import { degrees } from '../../terms/units.ts';
import { countText } from '../../words/amounts.ts';
import { roundedText } from '../../words/numbers.ts';
import { useHoles } from './desk-context.ts';
import { columnNumber } from './explore-numbers.ts';
import { HoleMovesTable } from './HoleMovesTable.tsx';
import { HoleSearchResult } from './HoleSearchResult.tsx';
import { HOLE_FIGURES } from './hole-figures.ts';
import { LongTable } from './LongTable.tsx';
import { loadDesign } from './load-design.ts';
import styles from './place.module.css';

const COLUMNS = [
  { key: 'rank', title: 'Rank', unit: '', name: 'Rank' },
  { key: 'score', title: 'Score', unit: '', name: 'Score: 100 is the best of the list in all that counts' },
  { key: 'base', title: 'Base gap', unit: 'deg', name: 'Base gap' },
  { key: 'platform', title: 'Platform gap', unit: 'deg', name: 'Platform gap' },
  { key: 'turn', title: 'Turn', unit: 'deg', name: 'Turn of the platform against the base' },
  ...HOLE_FIGURES.map((name) => {
    const { short, unit, name: full } = columnWords(name);
    return { key: name, title: short, unit, name: full };
  }),
] as const;

/** The ranked choices, the steps from the present one, and the result of the search. */
export function HolesResults() {
  return (
    <div className={styles['results']}>
      <RankedChoices />
      <HoleMovesTable />
      <HoleSearchResult />
    </div>
  );
}

function RankedChoices() {
  const run = useHoles((state) => state.run);
  const [selected, setSelected] = useState(-1);
  const ranked = run?.ranked;
  if (!run || !ranked) {
    return <p className={styles['empty']}>Every choice of holes will stand here, best first by what counts to you.</p>;
  }
  const { choices, rows, scores } = ranked;
  const cells = (row: number): readonly string[] => {
    const { baseGap, platformGap, baseTurn, platformTurn } = choices[row];
    const angle = (value: number) => roundedText(degrees(value), 2);
    return [
      `${row + 1}${flag(rows, row)}`,
      scores[row].toFixed(1),
      angle(baseGap),
      angle(platformGap),
      angle(platformTurn - baseTurn),
      ...HOLE_FIGURES.map((name) => columnNumber(name, rows[row * FIGURE_COUNT + FIGURE_NAMES.indexOf(name)])),
    ];
  };
  const point = (row: number | null) => {
    setSelected(row ?? -1);
    sessionStore.setState({ hovered: row === null ? null : withChoice(run.document, choices[row]) });
  };
  return (
    <section className={styles['list']} aria-label="Hole choices">
      <div className={styles['listHeading']}>
        <h3>
          Hole choices{' '}
          <span>
            {choices.length < ranked.known ? `the best ${countText(choices.length)} of ` : ''}
            {countText(ranked.known)}; ✕ cannot be built or stand at home, or is singular everywhere
          </span>
        </h3>
      </div>
      <LongTable
        label="Hole choices, best first"
        columns={COLUMNS}
        count={choices.length}
        cell={(row, column) => cells(row)[column]}
        selected={selected}
        onSelect={point}
        onLoad={(row) =>
          loadDesign(withChoice(designStore.getState().document, choices[row]), choiceLabel(choices[row]))
        }
      />
    </section>
  );
}

const flag = (rows: Float64Array, row: number): string => {
  const value = (name: FigureName) => rows[row * FIGURE_COUNT + FIGURE_NAMES.indexOf(name)];
  return value('buildable') === 1 && value('homeReachable') === 1 && value('singularEverywhere') === 0 ? '' : ' ✕';
};
