import { type Solid, solidFault } from './bodies.ts';
import { inputFault, type JudgementFault } from './inverse-jacobian.ts';
import type { PlateName } from './layout.ts';
import type { Mechanism } from './mechanism.ts';

/** A volume that legs and the other plate must stay out of: what passes through the open middle, or stands beside. */
export interface KeepOut {
  readonly name: string;
  readonly solid: Solid;
  /** The plate whose frame the solid is given in, and moves with. */
  readonly fixedTo: PlateName;
}

/** A plate as a flat body with its face toward the joints. */
export interface PlateBody {
  /** A disc about the plate's own axis, or a convex outline (flat x y pairs, plate frame, counter-clockwise). */
  readonly outline:
    | { readonly kind: 'disc'; readonly radius: number }
    | { readonly kind: 'polygon'; readonly points: Float64Array };
  /** [mm] */
  readonly thickness: number;
  /** Radius of a round opening in the middle [mm]; 0 for a closed plate. */
  readonly opening: number;
}

/** Everything that can be in the way [mm]. */
export interface ClearanceSpec {
  /** From the base joint's centre to the end of the barrel, along the leg. */
  readonly barrelLength: number;
  /** Length of leg next to a joint's centre that belongs to the joint, and is not checked against the plate it sits on. */
  readonly jointZone: Readonly<Record<PlateName, number>>;
  /** Null for a plate that is not checked. */
  readonly plates: Readonly<Record<PlateName, PlateBody | null>>;
  /** Fixed to the platform; null when nothing is known of its shape. */
  readonly payload: Solid | null;
  readonly keepOuts: readonly KeepOut[];
}

/** Thickness of a plate nobody has drawn yet, as a share of its joint radius: 10 mm on a 100 mm ring. */
const DEFAULT_THICKNESS = 0.1;

/** Joints on the plate's own axis leave no radius to take a share of; a plate is at least a micrometre thick [mm]. */
const THINNEST = 1e-3;

/**
 * What is assumed until more is known: closed round plates that reach one barrel's width past their joints; joints as
 * long as the barrel (base) or rod (platform) is thick; a barrel that just fits the shortest leg; no payload, no keep-outs.
 */
export function defaultClearance(mechanism: Mechanism): ClearanceSpec {
  const { legs } = mechanism;
  const plate = (name: PlateName): PlateBody => {
    const points = mechanism.centres[name];
    let radius = 0;
    for (let i = 0; i < points.length; i += 3) radius = Math.max(radius, Math.hypot(points[i], points[i + 1]));
    return {
      outline: { kind: 'disc', radius: radius + legs.barrelDiameter },
      thickness: Math.max(DEFAULT_THICKNESS * radius, THINNEST),
      opening: 0,
    };
  };
  const jointZone = { base: legs.barrelDiameter, platform: legs.rodDiameter };
  return {
    barrelLength: Math.max(legs.min - jointZone.platform, 0),
    jointZone,
    plates: { base: plate('base'), platform: plate('platform') },
    payload: null,
    keepOuts: [],
  };
}

/** First number that cannot be used, in words; null when all can. */
export function clearanceFault(spec: ClearanceSpec): JudgementFault | null {
  const lengths: readonly (readonly [string, number])[] = [
    ['Barrel length', spec.barrelLength],
    ['Joint zone of the base', spec.jointZone.base],
    ['Joint zone of the platform', spec.jointZone.platform],
  ];
  for (const [name, value] of lengths)
    if (!(value >= 0) || !Number.isFinite(value))
      return inputFault(`${name}: ${value} mm; it must be a number of at least 0.`);
  for (const name of ['base', 'platform'] as const) {
    const plate = spec.plates[name];
    const fault = plate && plateFault(name === 'base' ? 'Base plate' : 'Platform plate', plate);
    if (fault) return fault;
  }
  const payload = spec.payload && solidFault('Payload', spec.payload);
  if (payload) return payload;
  for (const { name, solid } of spec.keepOuts) {
    const fault = solidFault(name, solid);
    if (fault) return fault;
  }
  return null;
}

function plateFault(name: string, { outline, thickness, opening }: PlateBody): JudgementFault | null {
  if (!(thickness > 0) || !Number.isFinite(thickness))
    return inputFault(`${name}, thickness: ${thickness} mm; it must be above 0.`);
  if (!(opening >= 0) || !Number.isFinite(opening))
    return inputFault(`${name}, opening: ${opening} mm; it must be a number of at least 0.`);
  if (outline.kind === 'disc')
    return outline.radius > opening
      ? null
      : inputFault(`${name}: its radius, ${outline.radius} mm, must be larger than its opening, ${opening} mm.`);
  return isConvex(outline.points)
    ? null
    : inputFault(`${name}: its outline must be convex, counter-clockwise, with at least three corners.`);
}

/** Counter-clockwise, never turning right, at least three corners. */
function isConvex(points: Float64Array): boolean {
  const n = points.length;
  if (n < 6 || n % 2 !== 0 || !points.every(Number.isFinite)) return false;
  let area = 0;
  for (let i = 0; i < n; i += 2) {
    const [j, k] = [(i + 2) % n, (i + 4) % n];
    const turn =
      (points[j] - points[i]) * (points[k + 1] - points[j + 1]) -
      (points[j + 1] - points[i + 1]) * (points[k] - points[j]);
    if (turn < 0) return false;
    area += points[i] * points[j + 1] - points[j] * points[i + 1];
  }
  return area > 0;
}
