import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { DesignDocument } from '../design.ts';
import { type AccuracyKey, accuracyOf, type StiffnessKey } from './judge.ts';

type Accuracy = NonNullable<DesignDocument['accuracy']>;
type Stiffness = NonNullable<DesignDocument['stiffness']>;
type Six<Item> = readonly [Item, Item, Item, Item, Item, Item];

const six = <Item>(item: (leg: number) => Item): Six<Item> => [item(0), item(1), item(2), item(3), item(4), item(5)];

/** What a leg (0 to 5) has for itself with one number changed; a number that all legs have is not its own. */
function ownWith<Key extends string>(
  own: Readonly<Partial<Record<Key, number>>>,
  key: Key,
  value: number,
  common: number | undefined,
): Readonly<Partial<Record<Key, number>>> {
  const { [key]: _, ...rest } = own;
  // the rest type of a computed key is not tracked, so it is built anew
  const others: Partial<Record<Key, number>> = {};
  Object.assign(others, rest);
  if (value !== common) others[key] = value;
  return others;
}

const isEmpty = (items: Six<object>): boolean => items.every((item) => Object.keys(item).length === 0);

/** An error of one leg (0 to 5) [mm]. */
export function ownError(document: DesignDocument, leg: number, key: AccuracyKey): number {
  const accuracy = accuracyOf(document);
  return accuracy.ownByLeg?.[leg]?.[key] ?? accuracy[key] ?? 0;
}

/** Gives one leg (0 to 5) its own error; the number that all legs have makes it like the others again. */
export function changeOwnError(document: DesignDocument, leg: number, key: AccuracyKey, value: number): DesignDocument {
  const { ownByLeg, ...common }: Accuracy = accuracyOf(document);
  const changed = six((n) =>
    n === leg ? ownWith(ownByLeg?.[n] ?? {}, key, value, common[key] ?? 0) : (ownByLeg?.[n] ?? {}),
  );
  return { ...document, accuracy: isEmpty(changed) ? common : { ...common, ownByLeg: changed } };
}

/** Makes the errors of all legs alike. */
export function sameErrorsAgain(document: DesignDocument): DesignDocument {
  if (!document.accuracy?.ownByLeg) return document;
  const { ownByLeg: _, ...common } = document.accuracy;
  return { ...document, accuracy: common };
}

/** A stiffness of one leg (0 to 5) [N/mm]; null for a joint that does not give. */
export function ownStiffness({ stiffness }: DesignDocument, leg: number, key: StiffnessKey): number | null {
  return stiffness?.ownByLeg?.[leg]?.[key] ?? stiffness?.[key] ?? null;
}

/** Gives one leg (0 to 5) its own stiffness; the number that all legs have makes it like the others again. */
export function changeOwnStiffness(
  document: DesignDocument,
  leg: number,
  key: StiffnessKey,
  value: number,
): DesignDocument {
  if (!document.stiffness) return document;
  const { ownByLeg, ...common }: Stiffness = document.stiffness;
  const changed = six((n) =>
    n === leg ? ownWith(ownByLeg?.[n] ?? {}, key, value, common[key]) : (ownByLeg?.[n] ?? {}),
  );
  return { ...document, stiffness: isEmpty(changed) ? common : { ...common, ownByLeg: changed } };
}

/** Makes the stiffness of all legs alike. */
export function sameStiffnessAgain(document: DesignDocument): DesignDocument {
  if (!document.stiffness?.ownByLeg) return document;
  const { ownByLeg: _, ...common } = document.stiffness;
  return { ...document, stiffness: common };
}

/** Numbers of the legs (1 to 6) that have something of their own. */
export const legsApart = (items: Six<object> | undefined): readonly number[] =>
  Array.from({ length: LEG_COUNT }, (_, leg) => leg + 1).filter(
    (leg) => items !== undefined && Object.keys(items[leg - 1]).length > 0,
  );
