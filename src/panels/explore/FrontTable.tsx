import { useMemo, useState } from 'react';
import { dimensionsAt } from '../../explore/grid.ts';
import { FIGURE_COUNT } from '../../explore/layout-figures.ts';
import { type ColumnName, isDimension } from '../../explore/layout-table.ts';
import { columnWords } from '../../state/explore/explore-columns.ts';
import { notify } from '../../state/session/notices-store.ts';
import { noticesStore } from '../../state/stores.ts';
import { FIGURE_NAMES } from '../../terms/figures.ts';
import { Button } from '../../ui/Button.tsx';
import { countText } from '../../words/amounts.ts';
import controls from './controls.module.css';
import { useExplore, useExploreDesk } from './desk-context.ts';
import { columnNumber } from './explore-numbers.ts';
import { LongTable } from './LongTable.tsx';
import styles from './place.module.css';
import { saveFile } from './save-picture.ts';

interface Sort {
  readonly column: string;
  readonly falling: boolean;
}

/** The layouts that nothing beats, one a row. */
export function FrontTable() {
  const { pointer } = useExploreDesk();
  const grid = useExplore((state) => state.run?.grid ?? null);
  const front = useExplore((state) => state.pictures.front);
  const figures = useExplore((state) => state.view.figures);
  const pointed = useExplore((state) => state.pointed?.index ?? -1);
  const [sort, setSort] = useState<Sort | null>(null);
  const names = useMemo((): readonly ColumnName[] => {
    const dimensions = (grid ?? []).filter(({ values }) => values.length > 1).map(({ name }) => name);
    const objectives = front?.objectives.map(({ figure }) => figure) ?? [];
    return [...dimensions, ...new Set([...objectives, ...figures])];
  }, [grid, front, figures]);
  const columns = names.map((name) => {
    const { short, unit, name: full } = columnWords(name);
    return { key: name, title: short, unit, name: full };
  });
  const read = useMemo(() => {
    if (!grid || !front) return () => Number.NaN;
    const dimensions = [...front.indices].map((index) => dimensionsAt(grid, index));
    return (row: number, name: ColumnName): number =>
      isDimension(name)
        ? (dimensions[row][name] ?? Number.NaN)
        : front.rows[row * FIGURE_COUNT + FIGURE_NAMES.indexOf(name)];
  }, [grid, front]);
  const order = useMemo(() => {
    const rows = [...(front?.indices.keys() ?? [])];
    const name = names.find((candidate) => candidate === sort?.column);
    if (!sort || !name) return rows;
    return rows.sort((a, b) => (sort.falling ? -1 : 1) * (read(a, name) - read(b, name)));
  }, [front, names, sort, read]);
  if (!grid || !front) return null;
  return (
    <section className={styles['list']} aria-label="Layouts of the front">
      <div className={styles['listHeading']}>
        <h3>
          Front <span>{countText(front.count)} layouts</span>
        </h3>
        <Export indices={Uint32Array.from(order, (row) => front.indices[row])} />
      </div>
      <LongTable
        label="Layouts of the front"
        columns={columns}
        count={order.length}
        cell={(row, column) => (
          <>
            {front.indices[order[row]] === front.knee?.place && column === 0 ? <em title="knee">knee </em> : null}
            {columnNumber(names[column], read(order[row], names[column]))}
          </>
        )}
        selected={order.findIndex((row) => front.indices[row] === pointed)}
        onSelect={(row) => pointer.point(row === null ? null : front.indices[order[row]])}
        onLoad={(row) => pointer.load(front.indices[order[row]])}
        sort={sort}
        onSort={(column) => setSort((old) => ({ column, falling: old?.column === column ? !old.falling : true }))}
      />
    </section>
  );
}

/** The front, or all layouts that pass, as a file for other programs. */
function Export({ indices }: { readonly indices: Uint32Array }) {
  const desk = useExploreDesk();
  const save = async (kind: 'front' | 'passing') => {
    try {
      const blob = await desk.csv(kind === 'front' ? { kind, indices } : { kind });
      await saveFile(blob, kind === 'front' ? 'front.csv' : 'layouts.csv');
    } catch {
      notify(noticesStore, 'The table could not be saved; try again.', { tone: 'warning' });
    }
  };
  return (
    <div className={controls['buttons']}>
      <Button onClick={() => void save('front')}>CSV of the front</Button>
      <Button onClick={() => void save('passing')}>CSV of all that pass</Button>
    </div>
  );
}
