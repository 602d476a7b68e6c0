import { boundingBall, fixedPlacement, PlacedSolid, type Placement, SegmentCore, type Solid } from './bodies.ts';
import type { ClearanceSpec } from './keep-out.ts';
import { LEG_COUNT, type PlateName } from './layout.ts';
import { type LegPart, newSegments, segmentOffset } from './leg-bodies.ts';
import type { Mechanism } from './mechanism.ts';
import { plateSolids } from './plate-solids.ts';

/** A leg's barrel or rod. */
export interface LegBody {
  readonly kind: 'leg';
  /** As a table names it, such as "leg 3 barrel". */
  readonly name: string;
  /** 0 to 5. */
  readonly leg: number;
  readonly part: Exclude<LegPart, 'whole'>;
  /** Place of its segment in the model's flat array. */
  readonly segment: number;
  readonly core: SegmentCore;
  /** Of the capsule [mm]. */
  readonly radius: number;
}

/** A plate, payload or keep-out, or a convex piece of one. */
export interface SolidBody {
  readonly kind: 'solid';
  readonly name: string;
  readonly fixedTo: PlateName;
  /** Whether this is (a piece of) the plate that it is fixed to. */
  readonly isPlate: boolean;
  readonly core: PlacedSolid;
  readonly radius: 0;
  /** A ball around it in its own frame. */
  readonly ball: { readonly centre: readonly [number, number, number]; readonly radius: number };
  /** Lowest and highest z in its own frame. */
  readonly bottom: number;
  readonly top: number;
}

export type Body = LegBody | SolidBody;

/** Two bodies that can meet; the first is a leg's part unless both are solids. */
export type ClearancePair =
  | { readonly a: LegBody; readonly b: LegBody }
  | { readonly a: LegBody; readonly b: SolidBody }
  | { readonly a: SolidBody; readonly b: SolidBody };

/** The bodies of a design and which of them can meet. */
export interface ClearanceModel {
  readonly mechanism: Mechanism;
  readonly spec: ClearanceSpec;
  /** Segments of the legs at the pose last measured. */
  readonly segments: Float64Array;
  readonly placements: Readonly<Record<PlateName, Placement>>;
  readonly legPairs: readonly { readonly a: LegBody; readonly b: LegBody }[];
  readonly legSolidPairs: readonly { readonly a: LegBody; readonly b: SolidBody }[];
  readonly solidPairs: readonly { readonly a: SolidBody; readonly b: SolidBody }[];
}

/**
 * Pairs that are checked: every two legs; every leg with every plate, with the payload and with every keep-out; and every
 * two solids of which one is fixed to the base and the other to the platform. Two solids fixed to the same plate never
 * move against each other and are left out.
 */
export function clearanceModel(mechanism: Mechanism, spec: ClearanceSpec): ClearanceModel {
  const segments = newSegments();
  const placements = { base: fixedPlacement(), platform: fixedPlacement() };
  const solids = solidBodies(mechanism, spec, placements);
  const legs = Array.from({ length: LEG_COUNT }, (_, leg) => legBodies(mechanism, segments, leg));
  const legPairs = legs.flatMap((one, leg) =>
    legs.slice(leg + 1).flatMap((other) => one.full.flatMap((a) => other.full.map((b) => ({ a, b })))),
  );
  const legSolidPairs = legs.flatMap(({ full, trimmed }) =>
    solids.flatMap((b) =>
      full.map((part, n) => {
        // next to its own joint a leg is checked only beyond the joint zone: the barrel at the base, the rod at the platform
        const own = b.isPlate && n === (b.fixedTo === 'base' ? 0 : 1);
        return { a: own ? trimmed[n] : part, b };
      }),
    ),
  );
  const onBase = solids.filter(({ fixedTo }) => fixedTo === 'base');
  const onPlatform = solids.filter(({ fixedTo }) => fixedTo === 'platform');
  const solidPairs = onBase.flatMap((a) => onPlatform.map((b) => ({ a, b })));
  return { mechanism, spec, segments, placements, legPairs, legSolidPairs, solidPairs };
}

/** Names of the two plates in tables and messages. */
export const PLATE_NAMES: Readonly<Record<PlateName, string>> = { base: 'base plate', platform: 'platform plate' };

function solidBodies(
  mechanism: Mechanism,
  spec: ClearanceSpec,
  placements: ClearanceModel['placements'],
): readonly SolidBody[] {
  const body = (name: string, fixedTo: PlateName, solid: Solid, isPlate = false): SolidBody => {
    const core = new PlacedSolid(solid, placements[fixedTo]);
    const own = new PlacedSolid(solid, fixedPlacement());
    const tip = new Float64Array(3);
    own.support(0, 0, 1, tip, 0);
    const top = tip[2];
    own.support(0, 0, -1, tip, 0);
    return { kind: 'solid', name, fixedTo, isPlate, core, radius: 0, ball: boundingBall(solid), bottom: tip[2], top };
  };
  const plates = (['base', 'platform'] as const).flatMap((name) => {
    const plate = spec.plates[name];
    return plate ? plateSolids(mechanism, name, plate).map((solid) => body(PLATE_NAMES[name], name, solid, true)) : [];
  });
  const payload = spec.payload ? [body('payload', 'platform', spec.payload)] : [];
  const keepOuts = spec.keepOuts.map(({ name, fixedTo, solid }) => body(name, fixedTo, solid));
  return [...plates, ...payload, ...keepOuts];
}

function legBodies({ legs }: Mechanism, segments: Float64Array, leg: number) {
  const body = (part: Exclude<LegPart, 'whole'>, word: 'barrel' | 'rod'): LegBody => {
    const segment = segmentOffset(leg, part);
    return {
      kind: 'leg',
      name: `leg ${leg + 1} ${word}`,
      leg,
      part,
      segment,
      core: new SegmentCore(segments, segment),
      radius: (word === 'barrel' ? legs.barrelDiameter : legs.rodDiameter) / 2,
    };
  };
  return {
    full: [body('barrel', 'barrel'), body('rod', 'rod')],
    trimmed: [body('barrelBeyondJoint', 'barrel'), body('rodBeforeJoint', 'rod')],
  };
}
