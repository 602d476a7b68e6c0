import { type JointCentres, LEG_COUNT } from '../layout.ts';

/** Why no pose is given for six lengths. `text` is a plain sentence for the user, without units of length. */
export type ForwardFault =
  /** A length that is not a positive finite number; `leg` 1 to 6. */
  | { readonly kind: 'badLength'; readonly leg: number; readonly text: string }
  /** A joint coordinate that is not a finite number. */
  | { readonly kind: 'badJoint'; readonly text: string }
  /** Two legs whose lengths no pose has: the two joints on one plate are too near or too far. `legs` 1 to 6. */
  | { readonly kind: 'impossibleLengths'; readonly legs: readonly [number, number]; readonly text: string }
  /** The way from the guess ends where the legs stop being independent. `residual`: largest length error left. */
  | { readonly kind: 'nearSingular'; readonly residual: number; readonly text: string }
  /** Newton and the stepwise approach both gave up; no pose near the guess seems to have these lengths. */
  | { readonly kind: 'notConverged'; readonly residual: number; readonly text: string }
  /** The legs are dependent at every pose, so lengths fix no pose. */
  | { readonly kind: 'singularEverywhere'; readonly text: string };

export const badLength = (leg: number): ForwardFault => ({
  kind: 'badLength',
  leg,
  text: `Leg ${leg} needs a length that is a number above zero.`,
});

export const badJoint: ForwardFault = { kind: 'badJoint', text: 'A joint coordinate is not a finite number.' };

export const impossibleLengths = (first: number, second: number): ForwardFault => ({
  kind: 'impossibleLengths',
  legs: [first, second],
  text: `No pose has these lengths: legs ${first} and ${second} cannot both be as long as asked, given how far apart their joints are.`,
});

export const nearSingular = (residual: number): ForwardFault => ({
  kind: 'nearSingular',
  residual,
  text: 'On the way from the guess to these lengths the legs stop being independent, so the pose cannot be followed there.',
});

export const notConverged = (residual: number): ForwardFault => ({
  kind: 'notConverged',
  residual,
  text: 'No pose near the guess has these lengths, or the guess is too far away.',
});

export const singularEverywhereFault: ForwardFault = {
  kind: 'singularEverywhere',
  text: 'The legs of this layout are dependent at every pose, so six lengths do not fix a pose.',
};

/** The first leg (1 to 6) without a positive finite length, or 0. */
export function firstBadLength(lengths: ArrayLike<number>): number {
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    if (!(lengths[leg] > 0 && lengths[leg] < Number.POSITIVE_INFINITY)) return leg + 1;
  }
  return 0;
}

export const finiteCentres = ({ base, platform }: JointCentres): boolean =>
  base.length === 3 * LEG_COUNT &&
  platform.length === 3 * LEG_COUNT &&
  base.every(Number.isFinite) &&
  platform.every(Number.isFinite);
