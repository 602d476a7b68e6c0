import {
  type BalanceKind,
  balanceEnd,
  changeBalanceEnd,
  changeGravity,
  changeInertia,
  changePull,
  changeSpring,
  gravityOf,
  inertiaOf,
  pullOf,
  springOf,
} from '../../document/edits/load.ts';
import {
  changePayloadDiameter,
  changePayloadTurn,
  changePayloadVector,
  type PayloadVector,
  payloadDiameter,
  payloadTurn,
  payloadVector,
} from '../../document/edits/payload-shape.ts';
import type { NumberSpec } from '../number-spec.ts';
import { judgeSpec, type VectorSpecs, vectorSpecs } from './judge-specs.ts';

export const GRAVITY_SPECS = vectorSpecs(
  'Gravity direction',
  'Toward',
  'gravityDirection',
  { min: -1, max: 1, step: 0.1 },
  (document, axis) => gravityOf(document)[axis],
  changeGravity,
);

const PAIRS = ['xy', 'xz', 'yz'];

/** Moments about the platform's x, y, z, then the entries xy, xz, yz of the inertia matrix. */
export const INERTIA_SPECS = [
  vectorSpecs(
    'Moment of inertia',
    'About',
    'inertia_kg_mm2',
    { min: 0, max: 100_000, step: 100 },
    (document, axis) => inertiaOf(document)[axis],
    changeInertia,
  ),
  vectorSpecs(
    'Inertia',
    'Between',
    'products_kg_mm2',
    { min: -100_000, max: 100_000, step: 100 },
    (document, pair) => inertiaOf(document)[3 + pair],
    (document, pair, value) => changeInertia(document, 3 + pair, value),
    PAIRS,
  ),
] as const;

const payload = (name: PayloadVector, words: string, label: string): VectorSpecs =>
  vectorSpecs(
    `Payload ${words}`,
    label,
    name,
    { min: name === 'size_mm' ? 1 : -200, max: 200, step: 1 },
    (document, axis) => payloadVector(document, name)[axis],
    (document, axis, value) => changePayloadVector(document, name, axis, value),
  );

/** Vectors of a payload's shape by its kind. */
export const PAYLOAD_SPECS = {
  box: [payload('middle_mm', 'middle', 'Middle'), payload('size_mm', 'size', 'Size')],
  cylinder: [payload('from_mm', 'from', 'From'), payload('to_mm', 'to', 'To')],
  hull: [payload('middle_mm', 'middle', 'Middle')],
} as const;

export const PAYLOAD_DIAMETER_SPEC: NumberSpec = judgeSpec('Payload diameter', 'Diameter', 'diameter_mm', {
  travel: { min: 1, max: 200, step: 1 },
  decimals: 1,
  read: payloadDiameter,
  write: changePayloadDiameter,
});

export const PAYLOAD_TURN_SPEC: NumberSpec = judgeSpec('Payload turn', 'Turn', 'boxTurn_deg', {
  travel: { min: -180, max: 180, step: 1 },
  decimals: 1,
  read: payloadTurn,
  write: changePayloadTurn,
});

const end = (kind: BalanceKind, which: 'anchor_mm' | 'attach_mm'): VectorSpecs =>
  vectorSpecs(
    `${kind === 'spring' ? 'Spring' : 'Counterweight'} ${which === 'anchor_mm' ? 'anchor' : 'attachment'}`,
    which === 'anchor_mm' ? 'Anchor' : 'Attach',
    which,
    { min: -200, max: 400, step: 1 },
    (document, axis) => balanceEnd(document, kind, which)[axis],
    (document, axis, value) => changeBalanceEnd(document, kind, which, axis, value),
  );

/** Ends of the balances, in the base frame and in the platform's. */
export const BALANCE_ENDS = {
  counterweight: [end('counterweight', 'anchor_mm'), end('counterweight', 'attach_mm')],
  spring: [end('spring', 'anchor_mm'), end('spring', 'attach_mm')],
} as const;

export const PULL_SPEC: NumberSpec = judgeSpec('Counterweight pull', 'Pull', 'pull_N', {
  travel: { min: 0, max: 100, step: 0.5 },
  decimals: 1,
  read: pullOf,
  write: changePull,
});

export const SPRING_SPECS: readonly NumberSpec[] = [
  judgeSpec('Spring rate', 'Rate', 'rate_N_mm', {
    travel: { min: 0, max: 5, step: 0.01 },
    decimals: 2,
    read: (document) => springOf(document, 'rate_N_mm'),
    write: (document, value) => changeSpring(document, 'rate_N_mm', value),
  }),
  judgeSpec('Spring free length', 'Free length', 'freeLength_mm', {
    travel: { min: 0, max: 400, step: 1 },
    decimals: 1,
    read: (document) => springOf(document, 'freeLength_mm'),
    write: (document, value) => changeSpring(document, 'freeLength_mm', value),
  }),
];
