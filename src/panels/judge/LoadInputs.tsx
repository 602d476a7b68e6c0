import {
  type BalanceKind,
  chooseGravity,
  freeCentre,
  type GravityKind,
  gravityKind,
  stateInertia,
  toggleBalance,
} from '../../document/edits/load.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import { Fold } from '../../ui/Fold.tsx';
import { DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import styles from './judge.module.css';
import { CENTRE_SPECS, FORCE_SPECS, MASS_SPEC, TORQUE_SPECS } from './judge-specs.ts';
import { BALANCE_ENDS, GRAVITY_SPECS, INERTIA_SPECS, PULL_SPEC, SPRING_SPECS } from './load-specs.ts';
import { MassOfMesh } from './MassOfMesh.tsx';
import { PayloadShape } from './PayloadShape.tsx';
import { VectorRow } from './VectorRow.tsx';

/** Everything that says what the legs have to hold. */
export const LoadInputs = () => (
  <>
    <DesignNumber spec={MASS_SPEC} />
    <VectorRow specs={CENTRE_SPECS} />
    <MassOfMesh />
    <VectorRow specs={FORCE_SPECS} />
    <VectorRow specs={TORQUE_SPECS} />
    <p className={styles['note']}>
      Mass of everything that moves with the platform; its centre in the platform’s frame. Outside force and torque act
      at the tool point, base axes.
    </p>
    <PayloadShape />
    <Inertia />
    <Gravity />
    <Balances />
  </>
);

const INERTIA_KINDS = [
  ['shape', 'From its shape'],
  ['own', 'Stated'],
] as const;

function Inertia() {
  const own = useDesign(({ payload }) => payload?.inertia_kg_mm2 !== undefined);
  const ownCentre = useDesign(({ payload }) => payload?.centre_mm !== undefined);
  const choose = (kind: 'shape' | 'own') =>
    makeEdit(
      (document) => stateInertia(document, kind === 'own'),
      kind === 'own' ? 'State the inertia' : 'Inertia from the payload’s shape',
    );
  return (
    <Fold name="Inertia and centre of mass" brief={own ? 'inertia stated' : 'from its shape'}>
      <Choice
        name="Moments of inertia"
        label="Inertia"
        value={own ? 'own' : 'shape'}
        options={INERTIA_KINDS}
        onChoose={choose}
      />
      {own ? INERTIA_SPECS.map((specs) => <VectorRow key={specs.label} specs={specs} />) : null}
      <p className={styles['note']}>
        {own
          ? 'About the centre of mass, along the platform’s axes; xy = −Σ m x y, and so on. Used for the natural frequency only. What it states is counted whole: nothing is added for the plate.'
          : 'A box, a cylinder or the hull of a mesh counts as a uniform body, about its own centre; a payload without shape as a point mass. Nothing is added for the plate.'}
      </p>
      {ownCentre ? (
        <Button onClick={() => makeEdit(freeCentre, 'Centre of mass from the shape')}>
          Take the centre from its shape or tool point
        </Button>
      ) : null}
    </Fold>
  );
}

const GRAVITY_KINDS: readonly (readonly [GravityKind, string])[] = [
  ['down', 'Stands'],
  ['up', 'Hangs'],
  ['own', 'Own'],
];

const GRAVITY_SAYS: Readonly<Record<GravityKind, string>> = {
  down: 'Things fall along −z of the base.',
  up: 'The base is overhead: things fall along +z of the base.',
  own: 'Direction in which things fall, base frame; its length does not matter.',
};

function Gravity() {
  const kind = useDesign(gravityKind);
  const words = GRAVITY_KINDS.find(([value]) => value === kind)?.[1].toLowerCase();
  return (
    <Fold name="Gravity" brief={words}>
      <Choice
        name="How the platform stands"
        label="Platform"
        value={kind}
        options={GRAVITY_KINDS}
        onChoose={(wanted) => makeEdit((document) => chooseGravity(document, wanted), 'Direction of gravity')}
      />
      {kind === 'own' ? <VectorRow specs={GRAVITY_SPECS} /> : null}
      <p className={styles['note']}>{GRAVITY_SAYS[kind]}</p>
    </Fold>
  );
}

function Balances() {
  const counterweight = useDesign(({ load }) => load?.counterweight !== undefined);
  const spring = useDesign(({ load }) => load?.spring !== undefined);
  const words = [counterweight ? 'counterweight' : '', spring ? 'spring' : ''].filter((word) => word !== '');
  return (
    <Fold name="Counterweight and spring" brief={words.join(', ') || 'none'}>
      <Switch kind="counterweight" on={counterweight} words="Counterweight or constant-force spring" />
      {counterweight ? (
        <>
          <DesignNumber spec={PULL_SPEC} />
          {BALANCE_ENDS.counterweight.map((specs) => (
            <VectorRow key={specs.label} specs={specs} />
          ))}
        </>
      ) : null}
      <Switch kind="spring" on={spring} words="Spring" />
      {spring ? (
        <>
          {SPRING_SPECS.map((spec) => (
            <DesignNumber key={spec.name} spec={spec} />
          ))}
          {BALANCE_ENDS.spring.map((specs) => (
            <VectorRow key={specs.label} specs={specs} />
          ))}
        </>
      ) : null}
      {counterweight || spring ? (
        <p className={styles['note']}>Anchor in the base frame, attachment in the platform’s frame.</p>
      ) : null}
    </Fold>
  );
}

function Switch({ kind, on, words }: { readonly kind: BalanceKind; readonly on: boolean; readonly words: string }) {
  return (
    <label className={styles['switch']}>
      <input
        type="checkbox"
        checked={on}
        onChange={() => makeEdit((document) => toggleBalance(document, kind), `${words} ${on ? 'off' : 'on'}`)}
      />
      <span>{words}</span>
    </label>
  );
}
