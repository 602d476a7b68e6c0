import type { Solid } from './bodies.ts';
import type { PlateBody } from './keep-out.ts';
import type { PlateName } from './layout.ts';
import type { Mechanism } from './mechanism.ts';

/** Corners that stand for a round edge where a plate has an opening: 0.1 % of the radius on the safe side. */
const ROUND_CORNERS = 72;

/**
 * A plate as convex solids in its own frame. A closed plate is one. With an opening it is one per side of the opening: the
 * part of the outline beyond that side; together, and overlapping, they are the plate. The opening is taken as a regular
 * polygon inside of its circle, and a disc with an opening as a polygon around its circle, so distances are never too large.
 */
export function plateSolids(mechanism: Mechanism, name: PlateName, plate: PlateBody): readonly Solid[] {
  const [bottom, top] = plateHeights(mechanism, name, plate.thickness);
  const { outline, opening } = plate;
  if (opening === 0) {
    if (outline.kind === 'disc')
      return [{ kind: 'cylinder', from: [0, 0, bottom], to: [0, 0, top], radius: outline.radius }];
    return [{ kind: 'prism', outline: outline.points, bottom, top }];
  }
  const edge =
    outline.kind === 'disc' ? regular(outline.radius / Math.cos(Math.PI / ROUND_CORNERS)) : Array.from(outline.points);
  const apothem = opening * Math.cos(Math.PI / ROUND_CORNERS);
  const pieces: Solid[] = [];
  for (let side = 0; side < ROUND_CORNERS; side++) {
    const angle = (2 * Math.PI * (side + 0.5)) / ROUND_CORNERS;
    const piece = beyond(edge, Math.cos(angle), Math.sin(angle), apothem);
    if (piece.length >= 6) pieces.push({ kind: 'prism', outline: Float64Array.from(piece), bottom, top });
  }
  return pieces;
}

/** Bottom and top of a plate in its own frame: the base plate lies under its joints, the platform plate over them. */
export function plateHeights(
  { spec, centres }: Mechanism,
  name: PlateName,
  thickness: number,
): readonly [bottom: number, top: number] {
  const layout = spec[name];
  const heights = Array.from({ length: 6 }, (_, leg) => centres[name][3 * leg + 2]);
  const gap = layout.kind === 'ring' ? layout.ring.jointHeight : 0;
  if (name === 'base') {
    const face = Math.min(...heights) - gap;
    return [face - thickness, face];
  }
  const face = Math.max(...heights) + gap;
  return [face, face + thickness];
}

function regular(radius: number): number[] {
  return Array.from({ length: 2 * ROUND_CORNERS }, (_, n) => {
    const angle = (2 * Math.PI * Math.floor(n / 2)) / ROUND_CORNERS;
    return radius * (n % 2 === 0 ? Math.cos(angle) : Math.sin(angle));
  });
}

/** The part of a convex outline with nx x + ny y >= least (Sutherland and Hodgman's clipping by one line). */
function beyond(edge: readonly number[], nx: number, ny: number, least: number): number[] {
  const kept: number[] = [];
  for (let i = 0; i < edge.length; i += 2) {
    const j = (i + 2) % edge.length;
    const here = nx * edge[i] + ny * edge[i + 1] - least;
    const there = nx * edge[j] + ny * edge[j + 1] - least;
    if (here >= 0) kept.push(edge[i], edge[i + 1]);
    if (here * there < 0) {
      const t = here / (here - there);
      kept.push(edge[i] + t * (edge[j] - edge[i]), edge[i + 1] + t * (edge[j + 1] - edge[i + 1]));
    }
  }
  return kept;
}
