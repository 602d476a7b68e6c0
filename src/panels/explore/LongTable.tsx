import { type KeyboardEvent, type ReactNode, type UIEvent, useState } from 'react';
import { Button } from '../../ui/Button.tsx';
import { Table } from '../../ui/Table.tsx';
import { useSize } from '../../ui/useSize.ts';
import styles from './long-table.module.css';

/** A column of a long table. */
export interface TableColumn {
  readonly key: string;
  readonly title: string;
  readonly unit: string;
  /** Full name, for a tooltip and to be read out. */
  readonly name: string;
}

interface LongTableProps {
  /** What the table lists, as it is read out. */
  readonly label: string;
  readonly columns: readonly TableColumn[];
  readonly count: number;
  readonly cell: (row: number, column: number) => ReactNode;
  /** Row the cursor is on; -1 for none. */
  readonly selected: number;
  readonly onSelect: (row: number | null) => void;
  readonly onLoad: (row: number) => void;
  readonly sort?: { readonly column: string; readonly falling: boolean } | null;
  readonly onSort?: (column: string) => void;
}

/** Height of a row, fixed so that only the rows in view are made [px]. */
const ROW = 24;

/** Rows made above and below those in view. */
const SPARE = 6;

/** A table of any length of which only the rows in view exist; arrow keys move through it, Enter loads a row. */
export function LongTable(props: LongTableProps) {
  const { label, columns, count, cell, selected, onSelect, onLoad, sort = null, onSort } = props;
  const [frame, { height }] = useSize<HTMLDivElement>();
  const [top, setTop] = useState(0);
  const first = Math.max(0, Math.floor(top / ROW) - SPARE);
  const last = Math.min(count, Math.ceil((top + height) / ROW) + SPARE);
  const onScroll = (event: UIEvent<HTMLDivElement>) => setTop(event.currentTarget.scrollTop);
  const go = (row: number) => {
    const to = Math.min(count - 1, Math.max(0, row));
    onSelect(to);
    const element = frame.current;
    if (!element) return;
    const head = element.querySelector('thead')?.clientHeight ?? 0;
    const room = element.clientHeight - head;
    if (to * ROW < element.scrollTop) element.scrollTop = to * ROW;
    else if ((to + 1) * ROW > element.scrollTop + room) element.scrollTop = (to + 1) * ROW - room;
    // after the rows about it have been made
    requestAnimationFrame(() =>
      element.querySelector<HTMLElement>(`[data-row="${to}"]`)?.focus({ preventScroll: true }),
    );
  };
  const onKeyDown = (event: KeyboardEvent, row: number) => {
    const page = Math.max(1, Math.floor(height / ROW) - 2);
    const targets: Readonly<Record<string, number>> = {
      ArrowDown: row + 1,
      ArrowUp: row - 1,
      PageDown: row + page,
      PageUp: row - page,
      Home: 0,
      End: count - 1,
    };
    const target = targets[event.key];
    if (event.key === 'Escape') onSelect(null);
    else if (target !== undefined) go(target);
    else return;
    event.preventDefault();
  };
  // the table is one stop of the Tab key; the arrow keys move through its rows
  const stop = selected >= first && selected < last ? selected : Math.min(last - 1, first + (first > 0 ? SPARE : 0));
  const rows = Array.from({ length: Math.max(0, last - first) }, (_, n) => first + n);
  return (
    <div ref={frame} className={styles['frame']} onScroll={onScroll} onPointerLeave={() => onSelect(null)}>
      <Table
        className={styles['table']}
        aria-label={label}
        aria-rowcount={count + 1}
        style={{ marginBlock: `${first * ROW}px ${(count - last) * ROW}px` }}
      >
        <thead>
          <tr aria-rowindex={1}>
            {columns.map(({ key, title, unit, name }) => (
              <th
                key={key}
                scope="col"
                title={name}
                aria-sort={sort?.column === key ? (sort.falling ? 'descending' : 'ascending') : undefined}
              >
                {onSort ? (
                  <Button look="bare" aria-label={`Sort by ${name}`} onClick={() => onSort(key)}>
                    {title}
                    <small>{unit}</small>
                    <span aria-hidden="true">{sort?.column === key ? (sort.falling ? '▾' : '▴') : ''}</span>
                  </Button>
                ) : (
                  <>
                    {title} <small>{unit}</small>
                  </>
                )}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr
              key={row}
              aria-rowindex={row + 2}
              data-selected={row === selected}
              onPointerEnter={() => onSelect(row)}
              onClick={() => onLoad(row)}
            >
              {columns.map(({ key }, column) => (
                <td key={key}>
                  {column === 0 ? (
                    <Button
                      look="bare"
                      data-row={row}
                      tabIndex={row === stop ? 0 : -1}
                      aria-description="Enter loads this layout"
                      onFocus={() => onSelect(row)}
                      onKeyDown={(event) => onKeyDown(event, row)}
                    >
                      {cell(row, column)}
                    </Button>
                  ) : (
                    cell(row, column)
                  )}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </Table>
    </div>
  );
}
