import type { Cell, Table as TableOfParts } from '../../build/tables/csv.ts';
import type { ShownSheet } from '../../jobs/build-jobs.ts';
import { Button } from '../../ui/Button.tsx';
import { Table } from '../../ui/Table.tsx';
import { fixedText } from '../../words/numbers.ts';
import styles from './build.module.css';
import { Warnings } from './Checklist.tsx';
import { useBuild, useBuildDesk } from './desk-context.ts';

/** The sheets and tables as they will be saved. */
export function Preview() {
  const preview = useBuild((state) => state.preview);
  const failure = useBuild((state) => state.failure);
  const view = useBuild((state) => state.view);
  if (failure !== null)
    return (
      <p role="alert" className={styles['note']}>
        {failure}
      </p>
    );
  if (!preview) return <p className={styles['note']}>Drawing the sheets…</p>;
  const sheet = view === 'tables' ? undefined : preview.sheets.at(view);
  return (
    <div className={styles['preview']}>
      <Views titles={preview.sheets.map(({ title }) => title)} />
      {sheet ? <Sheet sheet={sheet} /> : <Tables tables={preview.tables} />}
    </div>
  );
}

function Views({ titles }: { readonly titles: readonly string[] }) {
  const desk = useBuildDesk();
  const view = useBuild((state) => state.view);
  return (
    <nav className={styles['views']} aria-label="What is shown">
      {titles.map((title, n) => (
        <Button key={title} look="quiet" aria-pressed={view === n} onClick={() => desk.look(n)}>
          {title}
        </Button>
      ))}
      <Button look="quiet" aria-pressed={view === 'tables'} onClick={() => desk.look('tables')}>
        Tables
      </Button>
    </nav>
  );
}

function Sheet({ sheet: { title, svg, width, height, warnings } }: { readonly sheet: ShownSheet }) {
  const size = `${Math.round(width)} × ${Math.round(height)} mm`;
  return (
    <figure className={styles['sheet']}>
      <img
        src={`data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`}
        alt={`${title}, sheet of ${size}`}
        width={width}
        height={height}
      />
      <figcaption>
        {title}; sheet {size}, scale 1:1 in the file.
        {warnings.length > 0 ? <Warnings warnings={warnings} /> : ' Nothing odd was found.'}
      </figcaption>
    </figure>
  );
}

function Tables({ tables }: { readonly tables: readonly TableOfParts[] }) {
  return (
    // a region that scrolls by itself can be reached with the keyboard
    <section className={styles['tables']} aria-label="Tables">
      {tables.map(({ id, title, columns, rows }) => (
        <details key={id} open={rows.length <= LONGEST_OPEN}>
          <summary>
            {title} ({rows.length} rows)
          </summary>
          <div className={styles['scroll']}>
            <Table>
              <thead>
                <tr>
                  {columns.map((column) => (
                    <th key={column} scope="col">
                      {headOf(column)}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {rows.map((row) => (
                  <tr key={row.join(' ')}>
                    {row.map((cell, n) => (
                      <td key={columns[n]} data-number={typeof cell === 'number'}>
                        {shownCell(cell, columns[n])}
                      </td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </Table>
          </div>
        </details>
      ))}
    </section>
  );
}

/** Tables with more rows start closed. */
const LONGEST_OPEN = 12;

/** `base_tilt_deg` as people read it: "base tilt, deg". */
const headOf = (column: string): string => column.replace(/_(mm|deg)$/, ', $1').replaceAll('_', ' ');

/** Files hold six digits; three are what a person sets. Counts have none. */
function shownCell(cell: Cell, column: string): string {
  if (cell === null) return '';
  if (typeof cell === 'string') return cell;
  return fixedText(cell, /_(mm|deg)$/.test(column) ? 3 : 0);
}
