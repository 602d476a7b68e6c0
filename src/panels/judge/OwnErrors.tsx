import { legsApart, sameErrorsAgain, sameStiffnessAgain } from '../../document/edits/own-legs.ts';
import { Fold } from '../../ui/Fold.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import { apartWords, OwnLegs } from './OwnLegs.tsx';
import { OWN_ERROR_ROWS, OWN_STIFFNESS_ROWS } from './own-leg-specs.ts';

const numbersIn = (words: string): readonly number[] => (words === '' ? [] : words.split(', ').map(Number));

/** Errors of legs that are not like the others. */
export function OwnErrors() {
  const apart = useDesign(({ accuracy }) => legsApart(accuracy?.ownByLeg).join(', '));
  return (
    <Fold name="Errors of single legs" label="Single legs" brief={apartWords(apart)}>
      <OwnLegs
        caption="Errors of each leg, mm. A leg whose number is changed here keeps it when that of all legs changes."
        rows={OWN_ERROR_ROWS}
        apart={numbersIn(apart)}
        onAlike={() => makeEdit(sameErrorsAgain, 'Errors of all legs alike')}
      />
    </Fold>
  );
}

/** Stiffness of legs that are not like the others. */
export function OwnStiffness() {
  const apart = useDesign(({ stiffness }) => legsApart(stiffness?.ownByLeg).join(', '));
  const give = useDesign(({ stiffness }) => stiffness?.baseJoint_N_mm !== undefined);
  return (
    <Fold name="Stiffness of single legs" label="Single legs" brief={apartWords(apart)}>
      <OwnLegs
        caption="Stiffness of each leg, N/mm. A leg whose number is changed here keeps it when that of all legs changes."
        rows={give ? OWN_STIFFNESS_ROWS : OWN_STIFFNESS_ROWS.slice(0, 1)}
        apart={numbersIn(apart)}
        onAlike={() => makeEdit(sameStiffnessAgain, 'Stiffness of all legs alike')}
      />
    </Fold>
  );
}
