import { type ClearanceSpec, defaultClearance, type PlateBody } from '../kinematics/keep-out.ts';
import type { PlateName } from '../kinematics/layout.ts';
import type { Load } from '../kinematics/load.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { Pose } from '../kinematics/pose.ts';
import type { BuildChoices } from './choices.ts';
import { designFindings } from './design-findings.ts';

/** The two plates in the order in which files of both are written. */
export const SIDES: readonly PlateName[] = ['base', 'platform'];

/** What each plate is called on paper. */
export const SIDE_WORDS: Readonly<Record<PlateName, string>> = { base: 'Base plate', platform: 'Platform plate' };

/** What a design gives to a workshop, without what the workshop chooses; the rooms that read files fill it in. */
export interface BuildDesign {
  readonly name: string;
  readonly note: string;
  readonly hash: string;
  readonly mechanism: Mechanism;
  readonly clearance: ClearanceSpec;
  readonly load: Load;
  readonly assumed: { readonly payload: boolean; readonly plates: boolean };
  readonly designFile: string;
}

/** Everything that leaves the program is made from this, and from nothing else. Lengths in mm, angles in rad. */
export interface BuildParts {
  /** The design's name as its file has it: any text. */
  readonly name: string;
  readonly note: string;
  /** Short hash of the design's normal form: the same design, the same hash. */
  readonly hash: string;
  /** The day that stands on the sheets, YYYY-MM-DD. */
  readonly date: string;
  /** Name and version of this program. */
  readonly program: string;
  readonly mechanism: Mechanism;
  readonly plates: Readonly<Record<PlateName, PlateBody>>;
  /** Bodies that may meet. */
  readonly clearance: ClearanceSpec;
  readonly load: Load;
  /** What the design does not say and was filled in. */
  readonly assumed: { readonly payload: boolean; readonly plates: boolean };
  /** What is wrong with the design itself, a sentence each; stands on every sheet. */
  readonly findings: readonly string[];
  /** The design file in its normal form. */
  readonly designFile: string;
  readonly choices: BuildChoices;
  /** Poses whose leg lengths are to be set, home first. */
  readonly poses: readonly NamedPose[];
}

/** A pose with a name for it. */
export interface NamedPose {
  readonly name: string;
  readonly pose: Pose;
}

/** What a builder adds to a design. */
export interface BuildOrder {
  readonly choices: BuildChoices;
  /** YYYY-MM-DD */
  readonly date: string;
  /** Name and version of this program. */
  readonly program: string;
  /** Poses beside home. */
  readonly poses: readonly NamedPose[];
}

/** z of the plate's face on which its joints stand, plate frame [mm]; the base's joints stand on its top, the platform's on its underside. */
export function jointFace({ mechanism }: Pick<BuildParts, 'mechanism'>, side: PlateName): number {
  const layout = mechanism.spec[side];
  const gap = layout.kind === 'ring' ? layout.ring.jointHeight : 0;
  const heights = Array.from({ length: 6 }, (_, leg) => mechanism.centres[side][3 * leg + 2]);
  return side === 'base' ? Math.min(...heights) - gap : Math.max(...heights) + gap;
}

/** What leaves the program, of a design and what the builder adds. */
export function partsOf(design: BuildDesign, order: BuildOrder): BuildParts {
  const { clearance, mechanism, ...rest } = design;
  const assumed = defaultClearance(mechanism).plates;
  const plate = (side: PlateName): PlateBody => {
    const body = clearance.plates[side] ?? assumed[side];
    return body ?? { outline: { kind: 'disc', radius: mechanism.size }, thickness: 0.1 * mechanism.size, opening: 0 };
  };
  return {
    ...rest,
    mechanism,
    ...order,
    poses: [{ name: 'home', pose: mechanism.home }, ...order.poses],
    plates: { base: plate('base'), platform: plate('platform') },
    clearance,
    findings: designFindings(mechanism, clearance),
  };
}
