import { assumedBuild, type BuildableSpec, type MountingSpec } from '../kinematics/buildable/spec.ts';
import type { PlateName } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { DesignContent } from './design.ts';
import { type SweepDocument, sweepOptions } from './sweep-file.ts';
import { mechanismFromDocument } from './units.ts';

/** What decides whether a design can be built, as far as it says so; the usual assumptions where it is silent. */
export function buildInputs(design: DesignContent, { legs }: Pick<Mechanism, 'legs'>): BuildableSpec {
  const assumed = assumedBuild(legs);
  const { parts = {} } = design;
  const zone = (plate: PlateName) => design.plates?.[plate]?.jointZone_mm ?? assumed.jointZone[plate];
  const mounting = (plate: PlateName): MountingSpec => {
    const own = design.plates?.[plate];
    const diameter = plate === 'base' ? parts.baseJointDiameter_mm : parts.platformJointDiameter_mm;
    const usual = assumed.mountings[plate];
    const mounted: MountingSpec =
      diameter === undefined ? usual : { ...usual, footprint: { kind: 'circle', diameter } };
    if (own?.outlineDiameter_mm === undefined || own.thickness_mm === undefined) return mounted;
    const { outlineDiameter_mm: outline, thickness_mm: thickness, openingDiameter_mm: opening = 0 } = own;
    return { ...mounted, plate: { diameter: outline, opening, thickness } };
  };
  return {
    ...assumed,
    mountings: { base: mounting('base'), platform: mounting('platform') },
    barrelLength: design.legs.barrelLength_mm ?? assumed.barrelLength,
    jointZone: { base: zone('base'), platform: zone('platform') },
    deadLength: parts.deadLength_mm ?? assumed.deadLength,
  };
}

/** What the figures of layouts around a design depend on beside the layouts, in millimetres and radians. */
export const figureOptions = (design: DesignContent, sweep: SweepDocument) => ({
  ...sweepOptions(sweep),
  build: buildInputs(design, mechanismFromDocument(design)),
});
