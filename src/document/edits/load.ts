import { type Inertia, NO_INERTIA, wholeInertia } from '../../kinematics/inertia.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { inputsOf } from '../compiled.ts';
import type { DesignDocument } from '../design.ts';
import { ASSUMED_MASS } from '../judgement-inputs.ts';

type Load = NonNullable<DesignDocument['load']>;

const DOWN: Vec3 = [0, 0, -1];
const UP: Vec3 = [0, 0, 1];
const ZERO: Vec3 = [0, 0, 0];

const replaced = (vector: Vec3, axis: number, value: number): Vec3 => [
  axis === 0 ? value : vector[0],
  axis === 1 ? value : vector[1],
  axis === 2 ? value : vector[2],
];

/** A design without a part of its load; without any load when nothing is left. */
function withoutPart(document: DesignDocument, part: keyof Load): DesignDocument {
  const { load = {}, ...rest } = document;
  const { [part]: _, ...left } = load;
  return Object.keys(left).length === 0 ? rest : { ...rest, load: left };
}

/** Which way things fall: as the base stands, as it hangs, or along a direction of its own. */
export type GravityKind = 'down' | 'up' | 'own';

export function gravityKind({ load }: DesignDocument): GravityKind {
  const direction = load?.gravityDirection;
  if (!direction || (direction[0] === 0 && direction[1] === 0 && direction[2] < 0)) return 'down';
  return direction[0] === 0 && direction[1] === 0 ? 'up' : 'own';
}

export const gravityOf = ({ load }: DesignDocument): Vec3 => load?.gravityDirection ?? DOWN;

/** Sets where things fall; a direction of its own starts along -x, as on a wall. */
export function chooseGravity(document: DesignDocument, kind: GravityKind): DesignDocument {
  if (kind === 'down') return withoutPart(document, 'gravityDirection');
  return { ...document, load: { ...document.load, gravityDirection: kind === 'up' ? UP : [-1, 0, 0] } };
}

export const changeGravity = (document: DesignDocument, axis: number, value: number): DesignDocument => ({
  ...document,
  load: { ...document.load, gravityDirection: replaced(gravityOf(document), axis, value) },
});

/** Inertia matrix that is counted: the one stated, else that of the payload's shape, else none [kg mm^2]. */
export function inertiaOf(document: DesignDocument): Inertia {
  const { payload } = inputsOf(document).load;
  return payload.inertia ? wholeInertia(payload.inertia) : NO_INERTIA;
}

/** Digits kept of an inertia that was computed from a shape. */
const KEPT_DIGITS = 6;

/** States the inertia that is counted now, or leaves them to the payload's shape again. */
export function stateInertia(document: DesignDocument, stated: boolean): DesignDocument {
  const { payload } = document;
  if (!stated) {
    if (!payload) return document;
    const { inertia_kg_mm2: _, ...rest } = payload;
    return { ...document, payload: rest };
  }
  return withInertia(document, inertiaOf(document));
}

/** A design with an inertia of its own, to some digits; three numbers where the other three are 0. */
function withInertia(document: DesignDocument, inertia: Inertia): DesignDocument {
  const [xx, yy, zz, xy, xz, yz] = inertia.map((entry) => Number(entry.toPrecision(KEPT_DIGITS)) + 0);
  const plain = xy === 0 && xz === 0 && yz === 0;
  return {
    ...document,
    payload: {
      mass_kg: ASSUMED_MASS,
      ...document.payload,
      inertia_kg_mm2: plain ? [xx, yy, zz] : [xx, yy, zz, xy, xz, yz],
    },
  };
}

/** Sets one entry of the inertia matrix, in the order xx, yy, zz, xy, xz, yz. */
export function changeInertia(document: DesignDocument, entry: number, value: number): DesignDocument {
  const [xx, yy, zz, xy, xz, yz] = inertiaOf(document).map((own, n) => (n === entry ? value : own));
  return withInertia(document, [xx, yy, zz, xy, xz, yz]);
}

/** Digits kept of a centre that was computed [mm]. */
const CENTRE_DECIMALS = 3;

/** States the centre of mass, platform frame [mm]; the mass counted so far stays as a number of the design. */
export function stateCentre(document: DesignDocument, centre: Vec3): DesignDocument {
  const [x, y, z] = centre.map((value) => Number(value.toFixed(CENTRE_DECIMALS)) + 0);
  return { ...document, payload: { mass_kg: ASSUMED_MASS, ...document.payload, centre_mm: [x, y, z] } };
}

/** States the centre of mass and the inertia about it for the mass counted so far, platform frame [mm, kg mm^2 for 1 kg]. */
export function stateBody(document: DesignDocument, centre: Vec3, inertia: Inertia): DesignDocument {
  const stated = stateCentre(document, centre);
  const mass = stated.payload?.mass_kg ?? ASSUMED_MASS;
  const [xx, yy, zz, xy, xz, yz] = inertia.map((entry) => mass * entry);
  return withInertia(stated, [xx, yy, zz, xy, xz, yz]);
}

/** Leaves the centre of mass to the payload's shape, or to the tool point. */
export function freeCentre(document: DesignDocument): DesignDocument {
  const { payload } = document;
  if (!payload) return document;
  const { centre_mm: _, ...rest } = payload;
  return { ...document, payload: rest };
}

/** What balances the weight. */
export type BalanceKind = 'counterweight' | 'spring';

/** Height over the base at which a first anchor stands, in home heights. */
const ANCHOR_HEIGHTS = 2;

/** Force and rate to start from; examples, no part's values. */
const FIRST_PULL_N = 5;
const FIRST_RATE_N_mm = 0.1;

/** Adds a counterweight over the platform's middle or a spring in the open middle, or takes it away. */
export function toggleBalance(document: DesignDocument, kind: BalanceKind): DesignDocument {
  if (document.load?.[kind]) return withoutPart(document, kind);
  const height = document.home.position_mm[2];
  if (kind === 'counterweight') {
    const anchor_mm: Vec3 = [0, 0, ANCHOR_HEIGHTS * height];
    return {
      ...document,
      load: { ...document.load, counterweight: { anchor_mm, attach_mm: ZERO, pull_N: FIRST_PULL_N } },
    };
  }
  const spring = { anchor_mm: ZERO, attach_mm: ZERO, rate_N_mm: FIRST_RATE_N_mm, freeLength_mm: Math.max(height, 0) };
  return { ...document, load: { ...document.load, spring } };
}

/** An end of a balance; the origin where there is no such balance. */
export const balanceEnd = ({ load }: DesignDocument, kind: BalanceKind, end: 'anchor_mm' | 'attach_mm'): Vec3 =>
  load?.[kind]?.[end] ?? ZERO;

export function changeBalanceEnd(
  document: DesignDocument,
  kind: BalanceKind,
  end: 'anchor_mm' | 'attach_mm',
  axis: number,
  value: number,
): DesignDocument {
  const moved = { [end]: replaced(balanceEnd(document, kind, end), axis, value) };
  const { counterweight, spring } = document.load ?? {};
  if (kind === 'counterweight') {
    return counterweight
      ? { ...document, load: { ...document.load, counterweight: { ...counterweight, ...moved } } }
      : document;
  }
  return spring ? { ...document, load: { ...document.load, spring: { ...spring, ...moved } } } : document;
}

export const pullOf = ({ load }: DesignDocument): number => load?.counterweight?.pull_N ?? 0;

export function changePull(document: DesignDocument, pull_N: number): DesignDocument {
  const counterweight = document.load?.counterweight;
  return counterweight
    ? { ...document, load: { ...document.load, counterweight: { ...counterweight, pull_N } } }
    : document;
}

export const springOf = ({ load }: DesignDocument, key: 'rate_N_mm' | 'freeLength_mm'): number =>
  load?.spring?.[key] ?? 0;

export function changeSpring(
  document: DesignDocument,
  key: 'rate_N_mm' | 'freeLength_mm',
  value: number,
): DesignDocument {
  const spring = document.load?.spring;
  return spring ? { ...document, load: { ...document.load, spring: { ...spring, [key]: value } } } : document;
}
