import { jointShapes } from '../../kinematics/joint-limits.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { degrees } from '../../terms/units.ts';
import type { CrossAxisDocument, DesignDocument } from '../design.ts';
import { mechanismFromDocument } from '../units.ts';
import { changeCrossAxis, crossAxisOf } from './judge.ts';

/** Six azimuths of bolts or first axes with one rise. */
type OwnAxis = Extract<CrossAxisDocument, object>;

const ownAxisOf = (document: DesignDocument, plate: PlateName): OwnAxis | null => {
  const axis = crossAxisOf(document.joints[plate]);
  return typeof axis === 'string' ? null : axis;
};

const kept = (value: number): number => Number(value.toFixed(3)) + 0;

/** Gives bolts or first axes azimuths of their own, to start with as they point now. */
export function ownAxisAsNow(document: DesignDocument, plate: PlateName): DesignDocument {
  if (ownAxisOf(document, plate)) return document;
  const azimuth = (leg: number): number => {
    const shape = jointShapes(mechanismFromDocument(document))[plate][leg];
    const axis: Vec3 = shape.kind === 'rodEnd' ? shape.bolt : shape.kind === 'universal' ? shape.first : [1, 0, 0];
    return kept(degrees(Math.atan2(axis[1], axis[0])));
  };
  const toward_deg = [azimuth(0), azimuth(1), azimuth(2), azimuth(3), azimuth(4), azimuth(5)] as const;
  return changeCrossAxis(document, plate, { toward_deg, rise_deg: 0 });
}

/** Azimuth of one joint's (0 to 5) bolt or first axis [deg]; 0 where it follows a rule. */
export const ownAzimuth = (document: DesignDocument, plate: PlateName, leg: number): number =>
  ownAxisOf(document, plate)?.toward_deg[leg] ?? 0;

export function changeOwnAzimuth(
  document: DesignDocument,
  plate: PlateName,
  leg: number,
  value: number,
): DesignDocument {
  const axis = ownAxisOf(document, plate);
  if (!axis) return document;
  const [a, b, c, d, e, f] = axis.toward_deg.map((old, n) => (n === leg ? value : old));
  return changeCrossAxis(document, plate, { ...axis, toward_deg: [a, b, c, d, e, f] });
}

/** Rise of bolts or first axes out of the plate's plane [deg]. */
export const ownRise = (document: DesignDocument, plate: PlateName): number =>
  ownAxisOf(document, plate)?.rise_deg ?? 0;

export function changeOwnRise(document: DesignDocument, plate: PlateName, rise_deg: number): DesignDocument {
  const axis = ownAxisOf(document, plate);
  return axis ? changeCrossAxis(document, plate, { ...axis, rise_deg }) : document;
}
