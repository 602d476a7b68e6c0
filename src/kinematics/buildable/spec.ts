import type { PlateName } from '../layout.ts';
import type { LegSpec } from '../mechanism.ts';

/** What stands on a plate around one joint centre: a round body, or a bracket that is a rectangle turned with its joint. */
export type Footprint =
  | { readonly kind: 'circle'; readonly diameter: number }
  /** Sides along the ray from the plate's middle through the joint and across it [mm], turned further by `turn` [rad]. */
  | { readonly kind: 'rectangle'; readonly along: number; readonly across: number; readonly turn: number };

/** Bolts evenly around a joint's foot, the first on the ray through it. */
export interface BoltCircle {
  readonly count: number;
  /** Of the circle that their centres lie on [mm]. */
  readonly diameter: number;
  /** Room that a driver or a socket needs over each [mm across]. */
  readonly tool: number;
}

/** How the joints of one plate are mounted [mm]. */
export interface MountingSpec {
  readonly footprint: Footprint;
  /** From the plate's face to the joint's centre; the foot of a leaning mount stands aside by this times the lean's tangent. */
  readonly height: number;
  /** Diameter of the hole under each joint; 0: none is drilled. */
  readonly hole: number;
  /** Diameter of the plate itself and of its opening; null where nobody has drawn it, so that nothing is asked of it. */
  readonly plate: { readonly diameter: number; readonly opening: number; readonly thickness: number } | null;
  readonly bolts: BoltCircle | null;
}

/** All that decides whether a layout can be built, beside the layout itself [mm, rad]. */
export interface BuildableSpec {
  readonly mountings: Readonly<Record<PlateName, MountingSpec>>;
  /** Least space between two footprints on a plate, and between a barrel and its own plate. */
  readonly spacing: number;
  /** From the base joint's centre to the end of the barrel; from a joint's centre to where barrel or rod begin. */
  readonly barrelLength: number;
  readonly jointZone: Readonly<Record<PlateName, number>>;
  /** Kept free at home at both ends of the stroke, and at the joints' limits after the mounts' tolerance. */
  readonly strokeReserve: number;
  readonly tiltReserve: number;
  readonly mountTolerance: number;
  /** Length of a leg that is neither stroke nor its double: ends, motor. */
  readonly deadLength: number;
  /** Plates of metal need less edge around a hole. */
  readonly metal: boolean;
  /** Brackets are printed, so that their lean is limited. */
  readonly printed: boolean;
  /** Sheet or printer bed that a plate is cut from; null where it does not matter. */
  readonly sheet: readonly [width: number, depth: number] | null;
}

/** Least space between two bodies on a plate [mm]: two parts that touch cannot be mounted. Common practice, no source. */
export const USUAL_SPACING = 1;

/** Largest lean of a printed bracket that needs no support [rad]: 50 deg. Common practice, no source. */
export const STEEPEST_OVERHANG = (50 * Math.PI) / 180;

/** Share of its diameter that a hole in metal needs to an edge; in wood and plastic its diameter or the thickness. Rules of thumb. */
export const METAL_EDGE = 0.75;

/**
 * What is assumed until the parts are known: round joint bodies as wide as the barrel, standing square; a barrel that just fits the
 * shortest leg; nothing drilled, no reserves, an actuator without dead length.
 */
export function assumedBuild({ min, barrelDiameter, rodDiameter }: LegSpec): BuildableSpec {
  const mounting: MountingSpec = {
    footprint: { kind: 'circle', diameter: barrelDiameter },
    height: 0,
    hole: 0,
    plate: null,
    bolts: null,
  };
  return {
    mountings: { base: mounting, platform: mounting },
    spacing: USUAL_SPACING,
    barrelLength: Math.max(min - rodDiameter, 0),
    jointZone: { base: barrelDiameter, platform: rodDiameter },
    strokeReserve: 0,
    tiltReserve: 0,
    mountTolerance: 0,
    deadLength: 0,
    metal: false,
    printed: false,
    sheet: null,
  };
}
