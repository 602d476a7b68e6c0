import { changeLegs } from '../../document/edits/edit.ts';
import { assumeBarrel, barrelLengthOf } from '../../document/edits/plate-body.ts';
import { Button } from '../../ui/Button.tsx';
import { Fold } from '../../ui/Fold.tsx';
import { roundedText } from '../../words/numbers.ts';
import { DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import type { NumberSpec } from '../number-spec.ts';
import styles from './design.module.css';

const BARREL_SPEC: NumberSpec = {
  name: 'Barrel length',
  label: 'Barrel length',
  unit: 'mm',
  decimals: 1,
  range: 'barrelLength_mm',
  travel: { min: 0, max: 400, step: 1 },
  read: barrelLengthOf,
  write: (document, barrelLength_mm) => changeLegs(document, { barrelLength_mm }),
};

const LEAD_SPEC: NumberSpec = {
  name: 'Screw lead',
  label: 'Screw lead',
  unit: 'mm',
  decimals: 1,
  range: 'screwLead_mm',
  travel: { min: -20, max: 20, step: 0.5 },
  read: (document) => document.legs.screwLead_mm ?? 0,
  write: (document, screwLead_mm) => changeLegs(document, { screwLead_mm }),
};

/** How long the barrel is, and what a turn of the leg does to its length. */
export function BarrelAndScrew() {
  const stated = useDesign(({ legs }) => legs.barrelLength_mm !== undefined);
  const length = useDesign((document) => roundedText(barrelLengthOf(document), 1));
  const lead = useDesign(({ legs }) => legs.screwLead_mm ?? null);
  const brief = `${length} mm${stated ? '' : ' assumed'}${lead === null ? '' : `, lead ${roundedText(lead, 2)}`}`;
  return (
    <Fold name="Barrel and screw" brief={brief}>
      <DesignNumber spec={BARREL_SPEC} />
      <DesignNumber spec={LEAD_SPEC} />
      <p className={styles['readout']}>
        Barrel: from the base joint to its end{stated ? '' : '; assumed to just fit the shortest leg'}. Lead: advance of
        the screw in one turn, negative for a left-hand one; with universal joints at both ends the legs twist, and the
        table of legs shows what that does to their lengths.
      </p>
      {stated ? (
        <Button onClick={() => makeEdit(assumeBarrel, 'Barrel length assumed')}>
          Leave the barrel to the assumption
        </Button>
      ) : null}
    </Fold>
  );
}
