import { Button } from '../../ui/Button.tsx';
import { Table } from '../../ui/Table.tsx';
import { DesignCell } from '../DesignNumber.tsx';
import type { NumberSpec } from '../number-spec.ts';
import styles from './own-legs.module.css';

/** One quantity with its number for every leg. */
export interface OwnLegRow {
  readonly label: string;
  /** Six. */
  readonly cells: readonly NumberSpec[];
}

interface OwnLegsProps {
  readonly caption: string;
  readonly rows: readonly OwnLegRow[];
  /** Legs 1 to 6 that have something of their own. */
  readonly apart: readonly number[];
  readonly onAlike: () => void;
}

const LEGS = [1, 2, 3, 4, 5, 6];

/** Numbers of the single legs, for those that are not like the others. */
export const OwnLegs = ({ caption, rows, apart, onAlike }: OwnLegsProps) => (
  <>
    <Table className={styles['table']}>
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">Leg</th>
          {LEGS.map((leg) => (
            <th key={leg} scope="col" data-apart={apart.includes(leg)}>
              {leg}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ label, cells }) => (
          <tr key={label}>
            <th scope="row" title={label}>
              {label}
            </th>
            {cells.map((spec) => (
              <td key={spec.name}>
                <DesignCell spec={spec} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </Table>
    <Button disabled={apart.length === 0} onClick={onAlike}>
      Make all legs alike
    </Button>
  </>
);

/** "all legs alike", or which are not. */
export const apartWords = (apart: string): string => (apart === '' ? 'all legs alike' : `leg ${apart} differs`);
