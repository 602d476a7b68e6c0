import { Fragment, memo, useId, useMemo } from 'react';
import { useStore } from 'zustand';
import { compiledDesign } from '../../document/compiled.ts';
import { boxDemands } from '../../reach/prove/box-demands.ts';
import { proveDesk } from '../../state/judge/judging.ts';
import { sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Table } from '../../ui/Table.tsx';
import { useDesign } from '../design-binding.ts';
import { type DemandRow, demandRows } from './demand-rows.ts';
import styles from './demands.module.css';
import { useProofBox } from './useProofBox.ts';

/** What the box that is set up asks of legs and joints, beside their present limits; follows every change at once. */
export function BoxDemands() {
  const document = useDesign((own) => own);
  const box = useProofBox();
  const moves = useStore(proveDesk.store, ({ setup }) => setup.around === 'present');
  const { rows, poses } = useMemo(() => {
    const { mechanism } = compiledDesign(document);
    const demands = boxDemands(mechanism, box);
    return { rows: demandRows(mechanism, demands), poses: demands.poses };
  }, [document, box]);
  return <BoxDemandsView rows={rows} poses={poses} moves={moves} />;
}

interface BoxDemandsViewProps {
  readonly rows: readonly DemandRow[];
  readonly poses: number;
  /** Whether the box moves with the platform: then nothing leads to a pose of it, since there the box would be another. */
  readonly moves: boolean;
}

export const BoxDemandsView = memo(function BoxDemandsView({ rows, poses, moves }: BoxDemandsViewProps) {
  const id = useId();
  return (
    <section className={styles['demands']} aria-labelledby={id}>
      <h3 id={id}>What the box asks of the parts</h3>
      <p>
        Corners and mid-points of the box, sampled ({poses} poses): between them a little more may be asked, which only
        a proof settles.
      </p>
      <Table aria-labelledby={id}>
        <thead>
          <tr>
            <th scope="col">Part</th>
            <th scope="col">Asked</th>
            <th scope="col">Limit</th>
            <th scope="col">Holds</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Fragment key={row.part}>
              <tr data-holds={row.holds}>
                <th scope="row">{row.part}</th>
                <td>{row.asked}</td>
                <td>{row.limit}</td>
                <td>{row.holds ? '✓ yes' : '✗ no'}</td>
              </tr>
              <tr>
                <td colSpan={4}>{moves ? row.where : <Where row={row} />}</td>
              </tr>
            </Fragment>
          ))}
        </tbody>
      </Table>
    </section>
  );
});

const Where = ({ row: { where, pose } }: { readonly row: DemandRow }) => (
  <Button look="bare" title="Go to this pose" onClick={() => sessionStore.setState({ pose })}>
    {where}
  </Button>
);
