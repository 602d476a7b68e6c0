import type { UsableReach } from '../reach/columns/usable.ts';
import { Table } from '../ui/Table.tsx';
import { cm3Text } from '../words/reach.ts';
import { floorText, percentText, quantityText, unusableText } from '../words/usable.ts';
import styles from './usable-facts.module.css';

/** The usable volume beside the reachable one, with the share that meets each floor. */
export function UsableFacts({ usable, stale }: { readonly usable: UsableReach; readonly stale: boolean }) {
  const { reachable, floors, reason } = usable;
  // each has its own small error, so that the part can come out a little larger than the whole
  const share = reachable > 0 ? Math.min(1, usable.usable / reachable) : 0;
  return (
    <div className={styles['facts']} data-stale={stale}>
      <p className={styles['volumes']}>
        <span>
          Usable <b>{cm3Text(usable.usable)}</b>
        </span>
        <span>
          of reachable <b>{cm3Text(reachable)}</b>
        </span>
        <span>{percentText(share)}</span>
      </p>
      <span className={styles['track']} aria-hidden="true">
        <i style={{ width: `${100 * share}%` }} />
      </span>
      {stale ? <p className={styles['note']}>Of an earlier state; computing…</p> : null}
      {reason ? <p className={styles['alarm']}>▲ {unusableText(reason)}</p> : null}
      {floors.length > 0 ? (
        <Table className={styles['shares']}>
          <caption>Share of the reach that meets each floor</caption>
          <tbody>
            {floors.map((report) => (
              <tr key={report.floor.quantity}>
                <th scope="row">{floorText(report)}</th>
                <td>
                  {report.share > 0 ? '' : '▲ '}
                  {percentText(report.share)}
                  {report.share < 1 && Number.isFinite(report.best) ? (
                    <small>best {quantityText(report.floor.quantity, report.best)}</small>
                  ) : null}
                </td>
              </tr>
            ))}
          </tbody>
        </Table>
      ) : null}
    </div>
  );
}
