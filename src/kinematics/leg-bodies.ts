import type { ClearanceSpec } from './keep-out.ts';
import { LEG_COUNT } from './layout.ts';
import type { Mechanism } from './mechanism.ts';

/**
 * The parts of a leg, each a capsule about a segment of its axis. The barrel keeps its length whatever the leg does, so a
 * leg shorter than its barrel shows it sticking out, as it would.
 */
export const LEG_PARTS = [
  /** Base joint centre to the end of the barrel. */
  'barrel',
  /** End of the barrel to the platform joint centre. */
  'rod',
  /** Barrel without the joint zone at the base plate: what is checked against that plate. */
  'barrelBeyondJoint',
  /** Rod without the joint zone at the platform plate. */
  'rodBeforeJoint',
  /** All of it: a quick test, never named. */
  'whole',
] as const;

export type LegPart = (typeof LEG_PARTS)[number];

/** Numbers per segment: two ends. */
const SEGMENT = 6;

/** Place of a leg's part in the flat array of segments; leg 0 to 5. */
export const segmentOffset = (leg: number, part: LegPart): number =>
  SEGMENT * (LEG_PARTS.length * leg + LEG_PARTS.indexOf(part));

/** Room for all segments of all legs. */
export const newSegments = (): Float64Array => new Float64Array(SEGMENT * LEG_PARTS.length * LEG_COUNT);

/** Where a segment's end sits: at a joint centre, or `along` the leg's unit vector from it [mm]. */
export interface LegPoint {
  readonly from: 'base' | 'platform';
  readonly along: number;
}

/** Both ends of a leg's part; the same for every pose. `whole` has none, its end depends on the pose. */
export function partEnds(part: Exclude<LegPart, 'whole'>, spec: ClearanceSpec): readonly [LegPoint, LegPoint] {
  const barrelEnd: LegPoint = { from: 'base', along: spec.barrelLength };
  switch (part) {
    case 'barrel':
      return [{ from: 'base', along: 0 }, barrelEnd];
    case 'rod':
      return [barrelEnd, { from: 'platform', along: 0 }];
    case 'barrelBeyondJoint':
      return [{ from: 'base', along: Math.min(spec.jointZone.base, spec.barrelLength) }, barrelEnd];
    case 'rodBeforeJoint':
      return [barrelEnd, { from: 'platform', along: -spec.jointZone.platform }];
  }
}

/**
 * Writes the segments of all legs at a pose, base axes; no allocation.
 * @param vectors p_AiBi_B, flat 18 [mm]
 * @param lengths six [mm]
 */
export function writeSegments(
  { centres }: Mechanism,
  spec: Pick<ClearanceSpec, 'barrelLength' | 'jointZone'>,
  vectors: Float64Array,
  lengths: Float64Array,
  segments: Float64Array,
): void {
  const { barrelLength, jointZone } = spec;
  const trimmed = Math.min(jointZone.base, barrelLength);
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const i = 3 * leg;
    const at = SEGMENT * LEG_PARTS.length * leg;
    const size = lengths[leg];
    for (let axis = 0; axis < 3; axis++) {
      const start = centres.base[i + axis];
      const u = size > 0 ? vectors[i + axis] / size : 0;
      const barrelEnd = start + barrelLength * u;
      const end = start + vectors[i + axis];
      segments[at + axis] = start;
      segments[at + 3 + axis] = barrelEnd;
      segments[at + 6 + axis] = barrelEnd;
      segments[at + 9 + axis] = end;
      segments[at + 12 + axis] = start + trimmed * u;
      segments[at + 15 + axis] = barrelEnd;
      segments[at + 18 + axis] = barrelEnd;
      segments[at + 21 + axis] = end - jointZone.platform * u;
      segments[at + 24 + axis] = start;
      segments[at + 27 + axis] = start + Math.max(size, barrelLength) * u;
    }
  }
}
