import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import {
  changeHoles,
  changeHome,
  changeLegs,
  changeRing,
  changeTiltLimit,
  spreadPairs,
  turnByHoles,
} from '../../document/edits/edit.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { dimensionsOf } from '../../reach/dimensions.ts';
import type { NamedDimension } from '../../reach/what-helps.ts';
import { degrees, radians } from '../../terms/units.ts';

/** Digits behind the point of changed numbers: rounding errors go. */
const KEPT_DECIMALS = 9;

const kept = (value: number): number => Number(value.toFixed(KEPT_DECIMALS)) + 0;

/** One number of a design in its document. */
interface DocumentNumber {
  /** In which the document states it. */
  readonly unit: 'mm' | 'deg';
  /** The plate whose joint pattern it is part of: on indexed holes it moves by whole holes. */
  readonly pattern?: { readonly plate: PlateName; readonly spreads: boolean };
  read(document: DesignDocument): number | null;
  write(document: DesignDocument, value: number): DesignDocument;
}

const ringNumber = (plate: PlateName, key: 'radius_mm' | 'gap_deg' | 'turn_deg'): DocumentNumber => ({
  unit: key === 'radius_mm' ? 'mm' : 'deg',
  ...(key === 'radius_mm' ? {} : { pattern: { plate, spreads: key === 'gap_deg' } }),
  read: (document) => {
    const own = document[plate];
    return 'ring' in own ? own.ring[key] : null;
  },
  write: (document, value) => changeRing(document, plate, { [key]: value }),
});

const legNumber = (key: 'min_mm' | 'max_mm'): DocumentNumber => ({
  unit: 'mm',
  read: ({ legs }) => legs[key],
  write: (document, value) => changeLegs(document, { [key]: value }),
});

const tilt = (plate: PlateName): DocumentNumber => ({
  unit: 'deg',
  read: ({ joints }) => joints[plate].tilt_deg,
  write: (document, value) => changeTiltLimit(document, plate, value),
});

/** By the names that `dimensionsOf` gives. */
const NUMBERS: ReadonlyMap<string, DocumentNumber> = new Map<string, DocumentNumber>(
  Object.entries({
    baseRadius: ringNumber('base', 'radius_mm'),
    baseGap: ringNumber('base', 'gap_deg'),
    baseTurn: ringNumber('base', 'turn_deg'),
    platformRadius: ringNumber('platform', 'radius_mm'),
    platformGap: ringNumber('platform', 'gap_deg'),
    platformTurn: ringNumber('platform', 'turn_deg'),
    legMin: legNumber('min_mm'),
    legMax: legNumber('max_mm'),
    baseTilt: tilt('base'),
    platformTilt: tilt('platform'),
    homeHeight: {
      unit: 'mm',
      read: ({ home }) => home.position_mm[2],
      write: (document, value) => changeHome(document, 2, value),
    },
  } satisfies Record<string, DocumentNumber>),
);

/** The dimensions of a design with the values that its document states, millimetres and radians. */
export function documentDimensions(document: DesignDocument): readonly NamedDimension[] {
  return dimensionsOf(compiledDesign(document).mechanism.spec).flatMap(({ name, words, unit }) => {
    const value = NUMBERS.get(name)?.read(document);
    if (value === null || value === undefined) return [];
    return [{ name, words, unit, value: unit === 'mm' ? value : radians(value) }];
  });
}

/**
 * The design with another value of a dimension [mm or rad], its joints free of indexed holes where the dimension moves them along
 * the circle: a small change would snap back.
 */
export function withDimension(document: DesignDocument, name: string, value: number): DesignDocument {
  const number = NUMBERS.get(name);
  if (!number) return document;
  const free = number.pattern ? changeHoles(document, number.pattern.plate, null) : document;
  return number.write(free, kept(number.unit === 'mm' ? value : degrees(value)));
}

/** A change that can be made: the design after it, and by how much the dimension then differs [mm or deg]. */
export interface DesignStep {
  readonly document: DesignDocument;
  readonly change: number;
  /** Whole holes that the joints move by; null where they need not sit in holes. */
  readonly holes: number | null;
}

/**
 * The design after a step of so many millimetres or degrees, up or down. Joints in indexed holes move to the next holes instead, the
 * smallest step that they can make. Null where the design does not take it.
 */
export function stepOf(document: DesignDocument, name: string, size: number, sense: 1 | -1): DesignStep | null {
  const number = NUMBERS.get(name);
  const before = number?.read(document) ?? null;
  if (!number || before === null) return null;
  const { pattern } = number;
  const own = pattern && document[pattern.plate];
  if (own && 'ring' in own && own.ring.holes) {
    const { plate, spreads } = pattern;
    const pitch = 360 / own.ring.holes.count;
    const stepped = spreads ? spreadPairs(document, plate, sense) : turnByHoles(document, plate, sense);
    if (stepped === document) return null;
    return { document: stepped, change: sense * (spreads ? 2 * pitch : pitch), holes: 1 };
  }
  return { document: number.write(document, kept(before + sense * size)), change: sense * size, holes: null };
}
