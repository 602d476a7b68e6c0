import type { DesignDocument, JointDocument } from '../../document/design.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import {
  changeCrossAxis,
  changeJointKind,
  changeSecondTilt,
  crossAxisOf,
  secondTiltOf,
} from '../../state/edit-judge.ts';
import { Choice } from '../controls/Choice.tsx';
import { DesignNumber } from '../design/DesignNumber.tsx';
import { type NumberSpec, PLATE_WORDS } from '../design/number-specs.ts';
import { makeEdit, useDesign } from '../design-binding.ts';
import styles from './judge.module.css';

type Kind = JointDocument['kind'];

const KINDS: readonly (readonly [Kind, string])[] = [
  ['ball', 'Ball'],
  ['rodEnd', 'Rod end'],
  ['universal', 'Universal'],
];

const SAYS: Readonly<Record<Exclude<Kind, 'ball'>, string>> = {
  rodEnd: 'Free round its bolt; the tilt limit holds across it.',
  universal: 'The tilt limit holds about the first axis, which is fixed to the plate.',
};

const AXES = [
  ['acrossLeg', 'Across leg'],
  ['tangential', 'Tangent'],
  ['radial', 'Radial'],
] as const;

const secondTilt = (plate: PlateName): NumberSpec => ({
  name: `${PLATE_WORDS[plate]} joint second tilt limit`,
  label: 'Second limit',
  unit: 'deg',
  decimals: 1,
  range: 'secondTilt_deg',
  travel: { min: 5, max: 90, step: 0.5 },
  read: (document: DesignDocument) => secondTiltOf(document.joints[plate]),
  write: (document: DesignDocument, value: number) => changeSecondTilt(document, plate, value),
});

const SECOND_TILT: Readonly<Record<PlateName, NumberSpec>> = {
  base: secondTilt('base'),
  platform: secondTilt('platform'),
};

/** Which kind of joints a plate has, and what that kind needs besides its tilt limit. */
export function JointKind({ plate }: { readonly plate: PlateName }) {
  const kind = useDesign((document) => document.joints[plate].kind);
  const axis = useDesign((document) => {
    const own = crossAxisOf(document.joints[plate]);
    return typeof own === 'string' ? own : 'own';
  });
  const name = PLATE_WORDS[plate];
  const axisWords = kind === 'rodEnd' ? 'Bolt' : 'First axis';
  return (
    <>
      <Choice
        name={`${name} joint kind`}
        label="Kind"
        value={kind}
        options={KINDS}
        onChoose={(wanted) => makeEdit((document) => changeJointKind(document, plate, wanted), `${name} joint kind`)}
      />
      {kind === 'ball' ? null : (
        <>
          <Choice
            name={`${name} ${axisWords.toLowerCase()}`}
            label={axisWords}
            value={axis}
            options={AXES}
            onChoose={(wanted) => {
              if (wanted === 'own') return;
              makeEdit((document) => changeCrossAxis(document, plate, wanted), `${name} ${axisWords.toLowerCase()}`);
            }}
          />
          {kind === 'universal' ? <DesignNumber spec={SECOND_TILT[plate]} /> : null}
          <p className={styles['note']}>
            {SAYS[kind]} {axis === 'own' ? 'Its axis has six azimuths of its own. ' : ''}Reach and drawing count the
            widest cone within; the table of legs goes by the true limit.
          </p>
        </>
      )}
    </>
  );
}
