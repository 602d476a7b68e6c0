import type { PlateName } from '../../kinematics/layout.ts';
import { bracketFoot, type JointMount, type Point } from '../joint-mounts.ts';
import { shown } from '../numerals.ts';
import type { BuildParts } from '../parts.ts';
import { type DrilledPlate, distance, drilledPlate } from '../plate-holes.ts';
import { plateWarnings } from '../plate-warnings.ts';
import { circle, filled, outline, type Shape, segment, text } from './drawing.ts';
import { textWidth } from './letters.ts';

/** The face of a plate that a drawing shows. */
export type Face = 'above' | 'below';

/** The faces that a choice asks for. */
export const facesOf = ({ choices }: BuildParts): readonly Face[] =>
  choices.faces === 'both' ? ['above', 'below'] : [choices.faces];

/** A plate drawn 1:1 in its own frame, origin at the centre of its joint circle, +X to the right; from below x is mirrored. */
export interface PlateDrawing {
  readonly side: PlateName;
  readonly face: Face;
  readonly plate: DrilledPlate;
  readonly shapes: readonly Shape[];
  readonly warnings: readonly string[];
}

/** Size of a letter on a plate of this reach [mm]: 3.5 mm where there is room, at least 1.8 (ISO 3098-1, from memory). */
const letterSize = (reach: number): number => Math.min(3.5, Math.max(1.8, reach / 30));

export function plateDrawing(parts: BuildParts, side: PlateName, face: Face, kerf = 0): PlateDrawing {
  const plate = drilledPlate(parts, side);
  const flip = face === 'above' ? 1 : -1;
  const seen = ([x, y]: Point): Point => [flip * x, y];
  const reach = plateReach(parts, side);
  const size = letterSize(reach);
  const shapes: Shape[] = [
    ...edges(parts, side, seen, kerf),
    ...plate.holes.map(({ centre, radius }) => circle('drill', 'seen', seen(centre), radius)),
    ...centreLines(plate, reach),
    ...plate.mounts.flatMap((mount) => jointShapes(parts, mount, side, face, seen, size)),
    ...plusX(parts, side, flip, size),
    ...checkTriangle(plate, seen, size),
  ];
  shapes.push(...holeNumbers(parts, plate, seen, size));
  if (plate.mark) {
    const [x, y] = seen(plate.mark);
    shapes.push(text('notes', [x, y - parts.choices.hole / 2 - 1.2 * size], 0.8 * size, 'mark', 'middle'));
  }
  return { side, face, plate, shapes, warnings: plateWarnings(parts, plate) };
}

/** Farthest place of a plate's outline from its origin [mm]. */
export function plateReach(parts: BuildParts, side: PlateName): number {
  const { outline: rim } = parts.plates[side];
  if (rim.kind === 'disc') return rim.radius;
  let reach = 0;
  for (let i = 0; i < rim.points.length; i += 2) reach = Math.max(reach, Math.hypot(rim.points[i], rim.points[i + 1]));
  return reach;
}

/** Outline and opening; the tool's path stands half a kerf outside of the plate. */
function edges(parts: BuildParts, side: PlateName, seen: (at: Point) => Point, kerf: number): readonly Shape[] {
  const { outline: rim, opening } = parts.plates[side];
  const cut: Shape[] = [];
  if (rim.kind === 'disc') cut.push(circle('cut', 'seen', [0, 0], rim.radius + kerf / 2));
  else cut.push(outline('cut', 'seen', widened(rim.points, kerf / 2).map(seen)));
  if (opening > 0) cut.push(circle('cut', 'seen', [0, 0], Math.max(opening - kerf / 2, 0)));
  return cut;
}

/** A convex outline with every edge pushed outward by `by`, corners sharp. */
function widened(points: Float64Array, by: number): readonly Point[] {
  const count = points.length / 2;
  const corner = (n: number): Point => {
    const i = 2 * (((n % count) + count) % count);
    return [points[i], points[i + 1]];
  };
  const outward = ([ax, ay]: Point, [bx, by_]: Point): Point => {
    const length = Math.hypot(bx - ax, by_ - ay);
    return [(by_ - ay) / length, (ax - bx) / length];
  };
  return Array.from({ length: count }, (_, n) => {
    const [x, y] = corner(n);
    const [px, py] = outward(corner(n - 1), corner(n));
    const [nx, ny] = outward(corner(n), corner(n + 1));
    const share = by / (1 + px * nx + py * ny);
    return [x + share * (px + nx), y + share * (py + ny)];
  });
}

function centreLines(plate: DrilledPlate, reach: number): readonly Shape[] {
  const past = reach + Math.min(6, 0.06 * reach);
  return [
    segment('notes', 'centre', [-past, 0], [past, 0]),
    segment('notes', 'centre', [0, -past], [0, past]),
    ...(plate.circle === null ? [] : [circle('notes', 'centre', [0, 0], plate.circle)]),
  ];
}

/** Every so many degrees a hole of the ring carries its number: 12 numbers a turn, more would run into each other. */
const NUMBERED = 12;

/** Numbers outside of hole 1 and of every twelfth of the ring, where no bracket stands in the way. */
function holeNumbers(
  parts: BuildParts,
  plate: DrilledPlate,
  seen: (at: Point) => Point,
  size: number,
): readonly Shape[] {
  const indexed = plate.holes.filter(({ use }) => use === 'index');
  const step = Math.max(1, Math.ceil(indexed.length / NUMBERED));
  const reach = parts.choices.hole / 2;
  const small = 0.75 * size;
  return indexed
    .filter(({ centre }, n) => {
      const bracket = plate.mounts.some(({ foot }) => distance(foot, centre) < parts.choices.block + small);
      return n % step === 0 && !bracket;
    })
    .map(({ centre, number }) => {
      const from = Math.hypot(...centre);
      const share = (from + reach + 1.1 * small) / from;
      const [x, y] = seen([share * centre[0], share * centre[1]]);
      return text('notes', [x, y - 0.35 * small], small, String(number), 'middle');
    });
}

/** Foot, seat and number of one joint; the bracket is dashed where the plate hides it. */
function jointShapes(
  parts: BuildParts,
  mount: JointMount,
  side: PlateName,
  face: Face,
  seen: (at: Point) => Point,
  size: number,
): readonly Shape[] {
  const hidden = (side === 'base') !== (face === 'above');
  const shapes: Shape[] = [outline('notes', hidden ? 'hidden' : 'narrow', bracketFoot(parts, mount).map(seen))];
  const drilled = mount.hole !== null || parts.choices.bolts === '1';
  const [x, y] = seen(mount.foot);
  const reach = parts.choices.hole / 2;
  if (!drilled) shapes.push(circle('notes', 'narrow', [x, y], reach));
  const cross = 1.6 * reach;
  shapes.push(segment('notes', 'narrow', [x - cross, y], [x + cross, y]));
  shapes.push(segment('notes', 'narrow', [x, y - cross], [x, y + cross]));
  const away = 0.75 * parts.choices.block + size;
  const [dx, dy] = seen([Math.cos(mount.azimuth), Math.sin(mount.azimuth)]);
  const inward = Math.hypot(x, y) - away;
  const at: Point = [inward * dx, inward * dy];
  shapes.push(circle('engrave', 'narrow', at, 0.85 * size));
  shapes.push(text('engrave', [at[0], at[1] - 0.35 * size], size, String(mount.leg), 'middle'));
  return shapes;
}

/** An arrow and the letters +X just inside of the rim. */
function plusX(parts: BuildParts, side: PlateName, flip: 1 | -1, size: number): readonly Shape[] {
  const { outline: rim } = parts.plates[side];
  const edge = rim.kind === 'disc' ? rim.radius : edgeAlongX(rim.points);
  const tip = edge - 0.4 * size;
  const arrow: readonly Point[] = [
    [flip * tip, 0],
    [flip * (tip - 1.6 * size), 0.6 * size],
    [flip * (tip - 1.6 * size), -0.6 * size],
  ];
  return [
    filled('engrave', arrow),
    text('engrave', [flip * (tip - 1.6 * size - 0.3 * size), 0.5 * size], size, '+X', flip === 1 ? 'end' : 'start'),
  ];
}

/** Where +X leaves a convex outline around the origin [mm]. */
function edgeAlongX(points: Float64Array): number {
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    const [ax, ay, bx, by] = [points[i], points[i + 1], points[j], points[j + 1]];
    if (ay <= 0 && by > 0) return ax + ((bx - ax) * -ay) / (by - ay);
  }
  return 0;
}

/** The distances 1 to 3, 3 to 5 and 5 to 1, dimensioned between the feet: they fix shape and size at once. */
function checkTriangle({ mounts }: DrilledPlate, seen: (at: Point) => Point, size: number): readonly Shape[] {
  return [
    [0, 2],
    [2, 4],
    [4, 0],
  ].flatMap(([a, b]) => dimension(seen(mounts[a].foot), seen(mounts[b].foot), size));
}

/** A dimension line between two places, arrows at its ends, its figure above it, readable from below or from the right (ISO 129-1, from memory). */
function dimension(from: Point, to: Point, size: number): readonly Shape[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const figure = shown(length, 2);
  const width = textWidth(figure, size);
  if (length < width + 6 * size) return [];
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const head = (at: Point, toward: 1 | -1): Shape => {
    const [bx, by] = [at[0] + toward * 0.9 * size * ux, at[1] + toward * 0.9 * size * uy];
    const half = 0.16 * size;
    return filled('notes', [at, [bx - half * uy, by + half * ux], [bx + half * uy, by - half * ux]]);
  };
  const along = Math.atan2(uy, ux);
  const upright = along > Math.PI / 2 + 1e-9 || along <= -Math.PI / 2 + 1e-9;
  const turn = upright ? along + Math.PI : along;
  const lift = 0.35 * size;
  const middle: Point = [(from[0] + to[0]) / 2 - lift * Math.sin(turn), (from[1] + to[1]) / 2 + lift * Math.cos(turn)];
  return [
    segment('notes', 'narrow', from, to),
    head(from, 1),
    head(to, -1),
    text('notes', middle, size, figure, 'middle', turn),
  ];
}
