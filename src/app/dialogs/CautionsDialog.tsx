import { Table } from '../../ui/Table.tsx';
import { DialogFrame } from './DialogFrame.tsx';
import styles from './dialogs.module.css';

const CAUTIONS = [
  'Legs and plates pinch. Fingers fit between two legs, and between a leg and a plate, at many poses; keep hands out while power is on.',
  'A leg that can be driven backwards drops its load when power goes. Hold the load by a brake, a self-locking screw or a support before power is cut.',
  'End stops are hit at full speed when homing or software limits fail. Fit hard stops that take the load, home slowly, and test the limits before anything is mounted.',
  'Fit an emergency stop within reach of everyone who works at the platform, and guards where people can reach in.',
  'A long thin leg buckles before it breaks. Check the push force of every leg at its longest.',
  'Near a singular pose forces run away and the platform moves without its legs. Keep clear of such poses by a margin you have measured.',
  'Nothing here makes a platform fit to carry people.',
];

const STANDARDS = [
  ['ISO 12100', 'risk assessment'],
  ['ISO 13849-1, ISO 13849-2', 'safety-related control'],
  ['ISO 13850', 'emergency stop'],
  ['ISO 14118', 'unexpected start-up'],
  ['ISO 14120', 'guards'],
  ['ISO 10218-1, ISO 10218-2', 'industrial robots'],
  ['IEC 60204-1', 'electrical equipment of machines'],
] as const;

/** What a drawing does not tell; always one click away. */
export function CautionsDialog() {
  return (
    <DialogFrame
      title="Cautions"
      description="Legroom computes geometry. It does not assess a machine: local codes and a licensed engineer decide what is safe to build and run."
    >
      <ul className={styles['list']}>
        {CAUTIONS.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <h3 className={styles['group']}>Standards to start from</h3>
      <Table className={styles['keys']}>
        <tbody>
          {STANDARDS.map(([standard, about]) => (
            <tr key={standard}>
              <th scope="row">{standard}</th>
              <td>{about}</td>
            </tr>
          ))}
        </tbody>
      </Table>
    </DialogFrame>
  );
}
