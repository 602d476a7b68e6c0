import type { ClearanceSpec, PlateBody } from '../../kinematics/keep-out.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { plateHeights } from '../../kinematics/plate-solids.ts';
import { compiledDesign } from '../compiled.ts';
import type { DesignDocument } from '../design.ts';
import { designParts } from '../design-parts.ts';
import { MOST_CORNERS } from '../judgement-fields.ts';

type PlateBodies = NonNullable<DesignDocument['plates']>;
export type PlateBodyDocument = NonNullable<PlateBodies['base']>;

/** How a plate's outline is given: assumed from its joints, by a diameter, or by corners. */
export type OutlineKind = 'assumed' | 'round' | 'corners';

/** Corners, x and y each. */
export type Corners = NonNullable<PlateBodyDocument['outline_mm']>;

/** What clearances take the bodies to be, stated or assumed. */
const bodiesTaken = (document: DesignDocument): ClearanceSpec => designParts(document).clearance;

const bodyTaken = (document: DesignDocument, plate: PlateName): PlateBody | null => bodiesTaken(document).plates[plate];

/** Height of the platform plate's upper face over its joint plane [mm], as drawn and as clearances take it. */
export function platformTop(document: DesignDocument): number {
  const thickness = bodyTaken(document, 'platform')?.thickness ?? 0;
  return kept(plateHeights(compiledDesign(document).mechanism, 'platform', thickness)[1]);
}

export function outlineKind({ plates }: DesignDocument, plate: PlateName): OutlineKind {
  const body = plates?.[plate];
  if (body?.outline_mm) return 'corners';
  return body?.outlineDiameter_mm === undefined ? 'assumed' : 'round';
}

function withBody(document: DesignDocument, plate: PlateName, body: PlateBodyDocument): DesignDocument {
  const { plates = {}, ...rest } = document;
  const { [plate]: _, ...others } = plates;
  const now: PlateBodies = Object.keys(body).length === 0 ? others : { ...others, [plate]: body };
  return Object.keys(now).length === 0 ? rest : { ...rest, plates: now };
}

/** Leaves everything about a plate's body to the assumption. */
export const assumeBody = (document: DesignDocument, plate: PlateName): DesignDocument =>
  document.plates?.[plate] ? withBody(document, plate, {}) : document;

/** Corners of the first polygon. */
const FIRST_CORNERS = 6;

/** Diameters are kept to a thousandth of a millimetre, corners too. */
const kept = (value: number): number => Number(value.toFixed(3)) + 0;

/** Gives a plate's outline another form; a first round is as wide as what was taken, a first polygon just holds it. */
export function chooseOutline(document: DesignDocument, plate: PlateName, kind: OutlineKind): DesignDocument {
  const { outlineDiameter_mm: _, outline_mm: __, ...rest } = document.plates?.[plate] ?? {};
  const outline = bodyTaken(document, plate)?.outline;
  if (kind === 'assumed' || !outline) return withBody(document, plate, rest);
  const radius = outline.kind === 'disc' ? outline.radius : farthest(outline.points);
  if (kind === 'round') return withBody(document, plate, { ...rest, outlineDiameter_mm: kept(2 * radius) });
  const around = radius / Math.cos(Math.PI / FIRST_CORNERS);
  const corners = Array.from({ length: FIRST_CORNERS }, (_, n): [number, number] => {
    const angle = (2 * Math.PI * n) / FIRST_CORNERS;
    return [kept(around * Math.cos(angle)), kept(around * Math.sin(angle))];
  });
  return withBody(document, plate, { ...rest, outline_mm: corners });
}

function farthest(points: Float64Array): number {
  let most = 0;
  for (let n = 0; n < points.length; n += 2) most = Math.max(most, Math.hypot(points[n], points[n + 1]));
  return most;
}

export const cornersOf = ({ plates }: DesignDocument, plate: PlateName): Corners | null =>
  plates?.[plate]?.outline_mm ?? null;

export function changeCorner(
  document: DesignDocument,
  plate: PlateName,
  corner: number,
  axis: 0 | 1,
  value: number,
): DesignDocument {
  const corners = cornersOf(document, plate);
  if (!corners) return document;
  const outline_mm = corners.map(([x, y], n): [number, number] =>
    n === corner ? (axis === 0 ? [value, y] : [x, value]) : [x, y],
  );
  return withBody(document, plate, { ...document.plates?.[plate], outline_mm });
}

/** Adds a corner in the middle of the edge that follows a corner. */
export function addCorner(document: DesignDocument, plate: PlateName, after: number): DesignDocument {
  const corners = cornersOf(document, plate);
  if (!corners || corners.length >= MOST_CORNERS) return document;
  const [a, b] = [corners[after], corners[(after + 1) % corners.length]];
  const middle: [number, number] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const outline_mm = [...corners.slice(0, after + 1), middle, ...corners.slice(after + 1)];
  return withBody(document, plate, { ...document.plates?.[plate], outline_mm });
}

export function removeCorner(document: DesignDocument, plate: PlateName, corner: number): DesignDocument {
  const corners = cornersOf(document, plate);
  if (!corners || corners.length <= 3) return document;
  const outline_mm = corners.filter((_, n) => n !== corner);
  return withBody(document, plate, { ...document.plates?.[plate], outline_mm });
}

/** Numbers of a plate's body, as the file names them. */
export type BodyNumber = 'thickness_mm' | 'outlineDiameter_mm' | 'openingDiameter_mm' | 'jointZone_mm';

/** A number of a plate's body as clearances take it. */
export function bodyNumber(document: DesignDocument, plate: PlateName, key: BodyNumber): number {
  const stated = document.plates?.[plate]?.[key];
  if (stated !== undefined) return stated;
  const body = bodyTaken(document, plate);
  switch (key) {
    case 'thickness_mm':
      return body?.thickness ?? 0;
    case 'outlineDiameter_mm':
      return body?.outline.kind === 'disc' ? 2 * body.outline.radius : 0;
    case 'openingDiameter_mm':
      return 0;
    case 'jointZone_mm':
      return bodiesTaken(document).jointZone[plate];
  }
}

export const changeBodyNumber = (
  document: DesignDocument,
  plate: PlateName,
  key: BodyNumber,
  value: number,
): DesignDocument => withBody(document, plate, { ...document.plates?.[plate], [key]: value });

/** From a base joint to the end of its barrel, stated or assumed [mm]. */
export const barrelLengthOf = (document: DesignDocument): number =>
  document.legs.barrelLength_mm ?? bodiesTaken(document).barrelLength;

/** Leaves the barrel's length to the assumption: one rod diameter less than the shortest leg. */
export function assumeBarrel(document: DesignDocument): DesignDocument {
  const { barrelLength_mm: _, ...legs } = document.legs;
  return { ...document, legs };
}
