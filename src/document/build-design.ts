import type { ClearanceSpec } from '../kinematics/keep-out.ts';
import type { Load } from '../kinematics/load.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { shortHash } from '../math/short-hash.ts';
import type { DesignDocument } from './design.ts';
import { judgementInputs } from './judgement-inputs.ts';
import { mechanismFromDocument } from './units.ts';
import { writeDesign } from './write-design.ts';

/** A design as everything that leaves the program is made from it; `build` names the same fields. */
export interface DesignToBuild {
  readonly name: string;
  readonly note: string;
  /** Of the normal form without snapshots: kept states do not change what is built. */
  readonly hash: string;
  readonly mechanism: Mechanism;
  readonly clearance: ClearanceSpec;
  readonly load: Load;
  readonly assumed: { readonly payload: boolean; readonly plates: boolean };
  /** The design file in its normal form, snapshots included. */
  readonly designFile: string;
}

export function designToBuild(document: DesignDocument): DesignToBuild {
  const { snapshots: _, ...alone } = document;
  const mechanism = mechanismFromDocument(document);
  const { clearance, load, assumed } = judgementInputs(document, mechanism);
  return {
    name: document.name,
    note: document.note,
    hash: shortHash(writeDesign(alone)),
    mechanism,
    clearance,
    load,
    assumed,
    designFile: writeDesign(document),
  };
}
