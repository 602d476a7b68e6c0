import type { HolesFound } from '../../explore/hole-search.ts';
import { AMOUNTS, columnWords } from '../../state/explore/explore-columns.ts';
import { holeDesign, withSingleHoles } from '../../state/explore/hole-edits.ts';
import { Button } from '../../ui/Button.tsx';
import { Table } from '../../ui/Table.tsx';
import { useHoles } from './desk-context.ts';
import { columnNumber } from './explore-numbers.ts';
import { loadDesign } from './load-design.ts';
import styles from './place.module.css';

/** The best single holes found, against where the search began. */
export function HoleSearchResult() {
  const search = useHoles((state) => state.search);
  if (!search?.state) return null;
  const { start, best } = search.state;
  const holes = holeDesign(search.document);
  const load = () => {
    if (holes) loadDesign(withSingleHoles(search.document, holes, best.base, best.platform), 'Single holes');
  };
  const numbers = (found: HolesFound, plate: 'base' | 'platform') => {
    const count = holes?.circles[plate].count ?? 1;
    return found[plate].map((hole) => (((hole % count) + count) % count) + 1).join(' ');
  };
  return (
    <section className={styles['list']} data-size="small" aria-label="Single holes found">
      <div className={styles['listHeading']}>
        <h3>
          Single holes <span>{search.status === 'cancelled' ? 'search cancelled, best so far' : 'best so far'}</span>
        </h3>
        <Button onClick={load}>Load as free points</Button>
      </div>
      <div className={styles['scroll']}>
        <Table className={styles['plain']}>
          <thead>
            <tr>
              <th scope="col">Layout</th>
              {AMOUNTS.map((name) => (
                <th key={name} scope="col" title={columnWords(name).name}>
                  {columnWords(name).short} <small>{columnWords(name).unit}</small>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {(
              [
                ['start', start],
                ['found', best],
              ] as const
            ).map(([name, found]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                {AMOUNTS.map((figure) => (
                  <td key={figure}>{columnNumber(figure, found.figures[figure])}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </Table>
      </div>
      <p className={styles['hint']}>
        Holes of legs 1 to 6: base {numbers(best, 'base')}, platform {numbers(best, 'platform')}.
      </p>
    </section>
  );
}
