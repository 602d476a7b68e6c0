import type { DesignDocument } from '../document/design.ts';
import type { NumberName } from '../document/ranges.ts';
import type { PlateName } from '../kinematics/layout.ts';
import type { Travel } from '../ui/travel.ts';
import type { FieldUnit } from '../words/units.ts';

/** One end of a field's legal numbers that depends on the design. */
export interface MovingEnd {
  readonly read: (document: DesignDocument) => number;
  readonly says: string;
}

/** A number of the design as a control shows and changes it. */
export interface NumberSpec {
  /** Full name, as undo and screen readers say it: "Base pair gap". */
  readonly name: string;
  /** Short name in its group: "Pair gap". */
  readonly label: string;
  readonly unit: FieldUnit;
  readonly decimals: number;
  readonly range: NumberName;
  readonly travel: Travel;
  readonly read: (document: DesignDocument) => number;
  readonly write: (document: DesignDocument, value: number) => DesignDocument;
  /** The number must stay below this. */
  readonly below?: MovingEnd;
  /** The number must stay above this. */
  readonly above?: MovingEnd;
}

/** Words for the two plates; the letters stand on the drawing too. */
export const PLATE_WORDS = { base: 'Base', platform: 'Platform' } as const satisfies Record<PlateName, string>;

/** Letters of the axes, in the order in which numbers of a vector stand. */
export const AXES = ['x', 'y', 'z'] as const;
