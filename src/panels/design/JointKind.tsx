import type { DesignDocument, JointDocument } from '../../document/design.ts';
import {
  changeCrossAxis,
  changeJointKind,
  changeSecondTilt,
  crossAxisOf,
  secondTiltOf,
} from '../../document/edits/judge.ts';
import { changeOwnAzimuth, changeOwnRise, ownAxisAsNow, ownAzimuth, ownRise } from '../../document/edits/own-axis.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { Choice } from '../../ui/Choice.tsx';
import { DesignCell, DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import { type NumberSpec, PLATE_WORDS } from '../number-spec.ts';
import styles from './design.module.css';

type Kind = JointDocument['kind'];

const KINDS: readonly (readonly [Kind, string])[] = [
  ['ball', 'Ball'],
  ['rodEnd', 'Rod end'],
  ['universal', 'Universal'],
];

const AXIS_SAYS: Readonly<Record<'acrossLeg' | 'tangential' | 'radial' | 'own', string>> = {
  acrossLeg: 'in the plate’s plane, square to the leg at home',
  tangential: 'along the joint circle',
  radial: 'toward the middle of the plate',
  own: 'along azimuths of its own',
};

const SAYS: Readonly<Record<Exclude<Kind, 'ball'>, string>> = {
  rodEnd: 'Free round its bolt; the tilt limit holds across it.',
  universal: 'The tilt limit holds about the first axis, which is fixed to the plate.',
};

const AXES = [
  ['acrossLeg', 'Across'],
  ['tangential', 'Tangent'],
  ['radial', 'Radial'],
  ['own', 'Own'],
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
  const axis = useDesign((document): (typeof AXES)[number][0] => {
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
            onChoose={(wanted) =>
              makeEdit(
                (document) =>
                  wanted === 'own' ? ownAxisAsNow(document, plate) : changeCrossAxis(document, plate, wanted),
                `${name} ${axisWords.toLowerCase()}`,
              )
            }
          />
          {axis === 'own' ? <OwnAxis plate={plate} words={axisWords} /> : null}
          {kind === 'universal' ? <DesignNumber spec={SECOND_TILT[plate]} /> : null}
          <p className={styles['note']}>
            {axisWords} {AXIS_SAYS[axis]}. {SAYS[kind]} Only Explore, which measures many layouts, counts the widest
            cone within the limit.
          </p>
        </>
      )}
    </>
  );
}

const azimuth = (plate: PlateName, words: string, leg: number): NumberSpec => ({
  name: `${PLATE_WORDS[plate]} ${words.toLowerCase()} ${leg + 1} azimuth`,
  label: String(leg + 1),
  unit: 'deg',
  decimals: 1,
  range: 'toward_deg',
  travel: { min: -180, max: 180, step: 1 },
  read: (document) => ownAzimuth(document, plate, leg),
  write: (document, value) => changeOwnAzimuth(document, plate, leg, value),
});

const rise = (plate: PlateName, words: string): NumberSpec => ({
  name: `${PLATE_WORDS[plate]} ${words.toLowerCase()} rise`,
  label: 'Rise',
  unit: 'deg',
  decimals: 1,
  range: 'rise_deg',
  travel: { min: -45, max: 45, step: 0.5 },
  read: (document) => ownRise(document, plate),
  write: (document, value) => changeOwnRise(document, plate, value),
});

const ownSpecs = (plate: PlateName, words: string) => ({
  rise: rise(plate, words),
  azimuths: [0, 1, 2, 3, 4, 5].map((leg) => azimuth(plate, words, leg)),
});

const OWN_AXIS = {
  Bolt: { base: ownSpecs('base', 'Bolt'), platform: ownSpecs('platform', 'Bolt') },
  'First axis': { base: ownSpecs('base', 'First axis'), platform: ownSpecs('platform', 'First axis') },
} as const;

interface OwnAxisProps {
  readonly plate: PlateName;
  readonly words: keyof typeof OWN_AXIS;
}

/** Six azimuths and a rise of bolts or first axes. */
function OwnAxis({ plate, words }: OwnAxisProps) {
  const specs = OWN_AXIS[words][plate];
  return (
    <>
      <DesignNumber spec={specs.rise} />
      <fieldset
        className={styles['azimuths']}
        aria-label={`${PLATE_WORDS[plate]} ${words.toLowerCase()} azimuths, degrees in the plate's frame`}
      >
        {specs.azimuths.map((spec) => (
          <span key={spec.name}>
            <b aria-hidden="true">{spec.label}</b>
            <DesignCell spec={spec} />
          </span>
        ))}
      </fieldset>
    </>
  );
}
