import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import type { BracketShape } from './bracket-shape.ts';
import { flatAbove } from './bracket-shape.ts';
import type { PlateShape } from './plate-solid.ts';

/** The mesh library, once it is loaded. */
export type Modeller = ManifoldToplevel;

let loading: Promise<Modeller> | null = null;

/** Loads the mesh library when it is first needed: some 200 kB of WebAssembly. */
export function loadModeller(): Promise<Modeller> {
  loading ??= import('manifold-3d').then(async ({ default: start }) => {
    const modeller = await start();
    modeller.setup();
    return modeller;
  });
  return loading;
}

/** Farthest that a mesh's chord leaves a round face [mm], or this share of its radius where that is more. */
export const CHORD_ERROR = 0.01;
const CHORD_SHARE = 5e-5;

/** Sides of a circle so that its chords stay within {@link CHORD_ERROR}; a multiple of four. */
export function sidesOf(radius: number): number {
  const error = Math.max(CHORD_ERROR, CHORD_SHARE * radius);
  const sides = radius > error ? Math.PI / Math.acos(1 - error / radius) : 0;
  return Math.max(16, 4 * Math.ceil(sides / 4));
}

/** A mesh: corners flat x y z [mm] and triangles flat, counter-clockwise seen from outside. */
export interface Mesh {
  readonly corners: Float32Array;
  readonly triangles: Uint32Array;
  /** Holes that go through. */
  readonly genus: number;
  readonly volume: number;
}

/** Takes a solid's mesh and gives the solid back to the library. */
export function meshOf(solid: Manifold): Mesh {
  const { vertProperties, numProp, triVerts } = solid.getMesh();
  const count = vertProperties.length / numProp;
  const corners = new Float32Array(3 * count);
  for (let n = 0; n < count; n++)
    for (let axis = 0; axis < 3; axis++) corners[3 * n + axis] = vertProperties[numProp * n + axis];
  const mesh = { corners, triangles: Uint32Array.from(triVerts), genus: solid.genus(), volume: solid.volume() };
  solid.delete();
  return mesh;
}

/** What is cut past a face, so that no skin of no thickness stays [mm]. */
const PAST = 1;

export function plateManifold({ Manifold: M, CrossSection }: Modeller, plate: PlateShape): Manifold {
  const { outline, bottom, top, holes } = plate;
  const rim =
    outline.kind === 'disc'
      ? CrossSection.circle(outline.radius, sidesOf(outline.radius))
      : new CrossSection(
          Array.from({ length: outline.points.length / 2 }, (_, n): [number, number] => [
            outline.points[2 * n],
            outline.points[2 * n + 1],
          ]),
        );
  const cuts = holes.map(({ centre, radius }) => CrossSection.circle(radius, sidesOf(radius)).translate([...centre]));
  const section = cuts.length > 0 ? rim.subtract(CrossSection.union(cuts)) : rim;
  return M.extrude(section, top - bottom).translate([0, 0, bottom]);
}

/** A bracket in its own frame, see {@link BracketShape}. */
export function bracketManifold({ Manifold: M, CrossSection }: Modeller, shape: BracketShape): Manifold {
  const { side, height, lean, flat, seat, bolts } = shape;
  const half = side / 2;
  const profile = new CrossSection([
    [-half, 0],
    [half, 0],
    [half, flatAbove(shape, half)],
    [-half, flatAbove(shape, -half)],
  ]);
  // extruded along z with the profile in x y; turned so that the profile stands in x z
  const block = M.extrude(profile, side).translate([0, 0, -half]).rotate([90, 0, 0]);
  const leanDegrees = (lean * 180) / Math.PI;
  const tallest = flatAbove(shape, -half) + PAST;
  const cuts = bolts.map(({ at, radius, depth }) => {
    const reach = depth === 'through' ? tallest : depth;
    return M.cylinder(reach + PAST, radius, radius, sidesOf(radius)).translate([at[0], at[1], -PAST]);
  });
  if (seat.kind === 'cup') {
    cuts.push(M.sphere(seat.radius, sidesOf(seat.radius)).rotate([0, leanDegrees, 0]).translate([0, 0, height]));
  } else {
    const bore = M.cylinder(seat.depth + PAST, seat.radius, seat.radius, sidesOf(seat.radius));
    cuts.push(
      bore
        .translate([0, 0, flat - seat.depth])
        .rotate([0, leanDegrees, 0])
        .translate([0, 0, height]),
    );
  }
  return block.subtract(M.union(cuts));
}
