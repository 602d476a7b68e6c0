import { betterOf, columnWords } from '../../state/explore/explore-columns.ts';
import { sessionStore } from '../../state/stores.ts';
import { FIGURE_NAMES, type FigureName } from '../../terms/figures.ts';
import { Button } from '../../ui/Button.tsx';
import { Table } from '../../ui/Table.tsx';
import { useHoles } from './desk-context.ts';
import { columnText } from './explore-numbers.ts';
import { MOVE_FIGURES } from './hole-figures.ts';
import { loadDesign } from './load-design.ts';
import styles from './place.module.css';

/** Changes smaller than this share are called none: far below what the figures are good for. */
const NO_CHANGE = 5e-4;

/** What one hole further does, joint pair by joint pair. */
export function HoleMovesTable() {
  const moves = useHoles((state) => state.moves);
  if (!moves) return null;
  const value = (row: Float64Array, name: FigureName) => row[FIGURE_NAMES.indexOf(name)];
  return (
    <section className={styles['list']} data-size="small" aria-label="Next best hole">
      <div className={styles['listHeading']}>
        <h3>
          Next best hole <span>what one hole further does to the present layout</span>
        </h3>
      </div>
      <div className={styles['scroll']}>
        <Table className={styles['plain']}>
          <thead>
            <tr>
              <th scope="col">Move</th>
              {MOVE_FIGURES.map((name) => (
                <th key={name} scope="col" title={columnWords(name).name}>
                  {columnWords(name).short}
                </th>
              ))}
              <th scope="col">
                <span className="spoken">Load</span>
              </th>
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">now</th>
              {MOVE_FIGURES.map((name) => (
                <td key={name}>{columnText(name, value(moves.present, name))}</td>
              ))}
              <td />
            </tr>
            {moves.moves.map(({ name: move, document, row }) => (
              <tr
                key={move}
                onPointerEnter={() => sessionStore.setState({ hovered: document })}
                onPointerLeave={() => sessionStore.setState({ hovered: null })}
              >
                <th scope="row">{move}</th>
                {MOVE_FIGURES.map((name) => (
                  <td key={name}>{row ? changeWords(name, value(moves.present, name), value(row, name)) : '–'}</td>
                ))}
                <td>
                  {document ? (
                    <Button aria-label={`Load: ${move}`} onClick={() => loadDesign(document, move)}>
                      Load
                    </Button>
                  ) : null}
                </td>
              </tr>
            ))}
          </tbody>
        </Table>
      </div>
    </section>
  );
}

/** Change of a figure in percent, with which way it goes. */
function changeWords(name: FigureName, before: number, after: number): string {
  if (before === after || Math.abs(after - before) <= NO_CHANGE * Math.abs(before)) return '=';
  const better = after > before === (betterOf(name) === 'more');
  const words = better ? 'better' : 'worse';
  const mark = after > before ? '↑' : '↓';
  if (!Number.isFinite(before) || !Number.isFinite(after) || before === 0)
    return `${mark} ${columnText(name, after)}, ${words}`;
  const percent = (after / before - 1) * 100;
  const sign = percent > 0 ? '+' : '−';
  return `${mark} ${sign}${Math.abs(percent).toFixed(Math.abs(percent) < 10 ? 1 : 0)} %, ${words}`;
}
