import { type JointShapes, jointShapes } from '../kinematics/joint-limits.ts';
import type { ClearanceSpec, PlateBody } from '../kinematics/keep-out.ts';
import type { PlateName } from '../kinematics/layout.ts';
import { compiledDesign, inputsOf } from './compiled.ts';
import type { DesignDocument } from './design.ts';

/** What a design says of its joints and bodies, as the drawing and the panels need it. */
export interface DesignParts {
  readonly shapes: JointShapes;
  readonly clearance: ClearanceSpec;
  /** Plates that the design describes itself; null where nothing is said of them. */
  readonly plates: Readonly<Record<PlateName, PlateBody | null>>;
}

const known = new WeakMap<DesignDocument, DesignParts>();

/** The parts of a design; the same document object always gives the same object. */
export function designParts(document: DesignDocument): DesignParts {
  const found = known.get(document);
  if (found) return found;
  const { clearance } = inputsOf(document);
  const shapes = jointShapes(compiledDesign(document).mechanism);
  const stated = (plate: PlateName): PlateBody | null => (document.plates?.[plate] ? clearance.plates[plate] : null);
  const parts = { shapes, clearance, plates: { base: stated('base'), platform: stated('platform') } };
  known.set(document, parts);
  return parts;
}
