/** The keys of a record, in the order in which it lists them. */
export function namesOf<Name extends string>(record: Readonly<Record<Name, unknown>>): readonly Name[] {
  const isName = (key: string): key is Name => Object.hasOwn(record, key);
  return Object.keys(record).filter(isName);
}

/** A record with one entry for each name of a list, so that no list of names is spelled out a second time. */
export function recordOf<Name extends string, Value>(
  names: readonly Name[],
  make: (name: Name, index: number) => Value,
): Record<Name, Value> {
  const record: Partial<Record<Name, Value>> = {};
  names.forEach((name, index) => {
    record[name] = make(name, index);
  });
  const isWhole = (made: Partial<Record<Name, Value>>): made is Record<Name, Value> =>
    names.every((name) => Object.hasOwn(made, name));
  if (!isWhole(record)) throw new Error('A record without all of its names');
  return record;
}
