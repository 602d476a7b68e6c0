/** A parsed JSON object of a format version that has not been validated. */
export type RawDesign = { readonly format?: unknown; readonly version?: unknown; readonly [key: string]: unknown };

/** Rewrites a design of one version as the next version; must not change its input. */
export type Migration = (design: RawDesign) => RawDesign;

/** By the version they start from. Empty while version 1 is the only one. */
export const MIGRATIONS: ReadonlyMap<number, Migration> = new Map();

/** Brings a copy of a design from its version up to `target`; the design itself is left as it was. */
export function migrated(
  design: RawDesign,
  version: number,
  target: number,
  migrations: ReadonlyMap<number, Migration> = MIGRATIONS,
): RawDesign {
  if (version === target) return design;
  let copy: RawDesign = structuredClone(design);
  for (let from = version; from < target; from++) {
    const step = migrations.get(from);
    if (!step) throw new Error(`no migration from version ${from}`);
    copy = step(copy);
  }
  return copy;
}
