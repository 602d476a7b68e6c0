import type { DesignDocument, MountDocument, RingDocument } from '../../document/design.ts';
import {
  SWEEP_VARIABLE_NAMES,
  SWEEP_VARIABLES,
  type SweepDocument,
  type SweepVariableName,
  sweepValues,
} from '../../document/sweep-file.ts';
import { mechanismFromDocument } from '../../document/units.ts';
import { placesOf } from '../../explore/grid.ts';
import { type Dimensions, isRingSpec, legAzimuths } from '../../kinematics/dimensions.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { degrees } from '../../terms/units.ts';

/** Values of some variables, as a document writes them: millimetres, degrees, ratios. */
export type LayoutValues = Readonly<Partial<Record<SweepVariableName, number>>>;

/** The values that one layout of a sweep has. */
export function valuesAt(sweep: SweepDocument, index: number): LayoutValues {
  const axes = sweep.variables.map((variable) => ({
    name: SWEEP_VARIABLES[variable.name].dimension,
    values: Float64Array.from(sweepValues(variable)),
  }));
  const places = placesOf(axes, index);
  return Object.fromEntries(sweep.variables.map(({ name }, axis) => [name, axes[axis].values[places[axis]]]));
}

/** Digits behind the point of values that were found in radians: rounding errors go, a billionth of a degree stays. */
const KEPT_DECIMALS = 9;

const kept = (value: number): number => Number(value.toFixed(KEPT_DECIMALS)) + 0;

/** Dimensions [mm, rad] as a document writes them. */
export function valuesFromDimensions(dimensions: Dimensions): LayoutValues {
  const entries = SWEEP_VARIABLE_NAMES.flatMap((name) => {
    const value = dimensions[SWEEP_VARIABLES[name].dimension];
    return value === undefined ? [] : [[name, kept(name.endsWith('_deg') ? degrees(value) : value)] as const];
  });
  return Object.fromEntries(entries);
}

/**
 * A design of two rings with another layout, the one that a sweep measured: its joints stand free of indexed holes. A design with
 * free points stays as it is.
 */
export function withLayout(document: DesignDocument, values: LayoutValues): DesignDocument {
  if (!('ring' in document.base) || !('ring' in document.platform)) return document;
  const ownBase = withoutHoleCircle(document.base.ring);
  const base: RingDocument = {
    ...ownBase,
    radius_mm: values.baseRadius_mm ?? ownBase.radius_mm,
    gap_deg: values.baseGap_deg ?? ownBase.gap_deg,
  };
  const { radiusRatio, turn_deg } = values;
  const own = withoutHoleCircle(document.platform.ring);
  const platform: RingDocument = {
    ...own,
    radius_mm: radiusRatio === undefined ? (values.platformRadius_mm ?? own.radius_mm) : radiusRatio * base.radius_mm,
    gap_deg: values.platformGap_deg ?? own.gap_deg,
    turn_deg: turn_deg === undefined ? own.turn_deg : base.turn_deg + turn_deg,
  };
  const [x, y, z] = document.home.position_mm;
  const changed: DesignDocument = {
    ...document,
    base: { ring: base },
    platform: { ring: platform },
    home: { ...document.home, position_mm: [x, y, values.homeHeight_mm ?? z] },
  };
  return values.mountLean_deg === undefined ? changed : withLean(changed, values.mountLean_deg);
}

/** The same, on the design's own hole circles: every joint goes to the hole nearest to its place. */
export function withLayoutOnHoles(document: DesignDocument, values: LayoutValues): DesignDocument {
  const { base, platform } = document;
  const ideal = withLayout(document, values);
  if (!('ring' in base) || !('ring' in platform) || !('ring' in ideal.base) || !('ring' in ideal.platform))
    return ideal;
  const drilled = (ring: RingDocument, own: RingDocument): RingDocument =>
    own.holes ? { ...ring, holes: own.holes } : ring;
  return {
    ...ideal,
    base: { ring: drilled(ideal.base.ring, base.ring) },
    platform: { ring: drilled(ideal.platform.ring, platform.ring) },
  };
}

/** Values that differ by less are the same: rounding of a sweep's steps. */
const SAME_VALUE = 1e-9;

/** Short words for a layout that would take the place of a design: by what differs, or by all where nothing does. */
export function changeLabel(values: LayoutValues, document: DesignDocument): string {
  const present = presentValues(document);
  const differing: LayoutValues = Object.fromEntries(
    SWEEP_VARIABLE_NAMES.flatMap((name) => {
      const value = values[name];
      return value === undefined || (present && Math.abs(present[name] - value) <= SAME_VALUE) ? [] : [[name, value]];
    }),
  );
  return layoutLabel(Object.keys(differing).length > 0 ? differing : values);
}

/** Whether either plate has indexed holes, which a sweep does not look at. */
export const hasHoles = ({ base, platform }: DesignDocument): boolean =>
  [base, platform].some((plate) => 'ring' in plate && plate.ring.holes !== undefined);

function withoutHoleCircle({ holes: _, ...ring }: RingDocument): RingDocument {
  return ring;
}

/** Both mounts lean by so much, toward where they leaned before or else along their own legs in plan. */
function withLean(document: DesignDocument, lean_deg: number): DesignDocument {
  const { spec } = mechanismFromDocument(document);
  if (!isRingSpec(spec)) return document;
  const mount = (plate: PlateName): MountDocument => {
    const present = document.joints[plate].mount;
    if (typeof present !== 'string') return { ...present, lean_deg };
    const [a, b, c, d, e, f] = Array.from(legAzimuths(spec, plate), (azimuth) => degrees(azimuth));
    return { lean_deg, toward_deg: [a, b, c, d, e, f] };
  };
  const { base, platform } = document.joints;
  return {
    ...document,
    joints: { base: { ...base, mount: mount('base') }, platform: { ...platform, mount: mount('platform') } },
  };
}

/** Short words for a layout: "Layout 31/42, ratio 0.74". */
export function layoutLabel(values: LayoutValues): string {
  const { baseGap_deg, platformGap_deg } = values;
  const number = (value: number) => String(Number(value.toFixed(2)));
  const parts: string[] = [];
  if (baseGap_deg !== undefined && platformGap_deg !== undefined) {
    parts.push(`${number(baseGap_deg)}/${number(platformGap_deg)}`);
  } else if (baseGap_deg !== undefined) parts.push(`base gap ${number(baseGap_deg)}`);
  else if (platformGap_deg !== undefined) parts.push(`platform gap ${number(platformGap_deg)}`);
  for (const name of SWEEP_VARIABLE_NAMES.slice(2)) {
    const value = values[name];
    if (value !== undefined) parts.push(`${SHORT[name]} ${number(value)}`);
  }
  return `Layout ${parts.join(', ')}`;
}

const SHORT: Readonly<Record<SweepVariableName, string>> = {
  baseGap_deg: 'base gap',
  platformGap_deg: 'platform gap',
  radiusRatio: 'ratio',
  turn_deg: 'turn',
  homeHeight_mm: 'height',
  baseRadius_mm: 'base radius',
  platformRadius_mm: 'platform radius',
  mountLean_deg: 'lean',
};

/** The values of a design, as the variables of a sweep name them; null unless both plates are rings. */
export function presentValues(document: DesignDocument): Readonly<Record<SweepVariableName, number>> | null {
  if (!('ring' in document.base) || !('ring' in document.platform)) return null;
  const base = document.base.ring;
  const platform = document.platform.ring;
  const { mount } = document.joints.base;
  return {
    baseGap_deg: base.gap_deg,
    platformGap_deg: platform.gap_deg,
    radiusRatio: platform.radius_mm / base.radius_mm,
    turn_deg: kept(platform.turn_deg - base.turn_deg),
    homeHeight_mm: document.home.position_mm[2],
    baseRadius_mm: base.radius_mm,
    platformRadius_mm: platform.radius_mm,
    mountLean_deg: typeof mount === 'string' ? 0 : mount.lean_deg,
  };
}
