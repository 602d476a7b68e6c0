import type { PlateName } from '../../kinematics/layout.ts';
import { failed, ok } from '../../math/result.ts';
import { bracketKinds } from '../bracket-kinds.ts';
import { type BuildFile, CANCELLED, type Exporter } from '../exporter.ts';
import { fileStem } from '../file-name.ts';
import { type BuildParts, SIDE_WORDS } from '../parts.ts';
import { bracketShape } from './bracket-shape.ts';
import { jigManifold } from './jig.ts';
import {
  bracketManifold,
  CHORD_ERROR,
  loadModeller,
  type Mesh,
  type Modeller,
  meshOf,
  plateManifold,
} from './manifold.ts';
import { meshStl, meshThreeMf } from './mesh-files.ts';
import { plateShape } from './plate-solid.ts';
import { NO_SOLID } from './step.ts';

/** A solid for a printer, named after the plate and what it is. */
export interface NamedMesh {
  /** Ends the file's name: `base-bracket-1`. */
  readonly id: string;
  readonly side: PlateName;
  readonly mesh: Mesh;
  readonly warnings: readonly string[];
}

/** Meshes of the parts that were asked for last: STL and 3MF are written from the same ones. */
const known = new WeakMap<BuildParts, Map<PlateName, readonly NamedMesh[]>>();

/** Every solid of a plate: the plate itself, its distinct brackets and its drilling jig. */
export function sideMeshes(modeller: Modeller, parts: BuildParts, side: PlateName): readonly NamedMesh[] {
  const sides = known.get(parts) ?? new Map<PlateName, readonly NamedMesh[]>();
  known.set(parts, sides);
  const meshes = sides.get(side) ?? madeMeshes(modeller, parts, side);
  sides.set(side, meshes);
  return meshes;
}

function madeMeshes(modeller: Modeller, parts: BuildParts, side: PlateName): readonly NamedMesh[] {
  const meshes: NamedMesh[] = [];
  const left: string[] = [];
  const plate = plateShape(parts, side);
  if (plate) meshes.push({ id: side, side, mesh: meshOf(plateManifold(modeller, plate)), warnings: [] });
  else left.push(`${SIDE_WORDS[side]}: ${NO_SOLID}.`);
  for (const [n, kind] of bracketKinds(parts, side).entries()) {
    const { shape, warnings } = bracketShape(parts, side, kind);
    if (!shape) left.push(...warnings);
    else
      meshes.push({ id: `${side}-bracket-${n + 1}`, side, mesh: meshOf(bracketManifold(modeller, shape)), warnings });
  }
  const jig = jigManifold(modeller, parts, side);
  if (jig) meshes.push({ id: `${side}-jig`, side, mesh: meshOf(jig), warnings: [] });
  const [first, ...others] = meshes;
  return first ? [{ ...first, warnings: [...parts.findings, ...first.warnings, ...left] }, ...others] : [];
}

const SAYS = `Plates, brackets and a drilling jig as closed meshes, mm; round faces within ${CHORD_ERROR} mm (0.005 % of a large radius).`;

function meshExporter(words: string, ending: string, write: (mesh: Mesh, title: string) => Uint8Array): Exporter {
  return {
    words,
    says: SAYS,
    purpose: 'print',
    ending,
    async write(parts, sides, work) {
      const modeller = await loadModeller();
      const files: BuildFile[] = [];
      for (const [n, side] of sides.entries()) {
        if (work.shouldStop()) return failed(CANCELLED);
        work.report(n, sides.length);
        for (const { id, mesh, warnings } of sideMeshes(modeller, parts, side)) {
          const bytes = write(mesh, `${parts.name}, ${id}, design ${parts.hash}`);
          files.push({ name: `${fileStem(parts.name)}-${id}.${ending}`, side, bytes, warnings });
        }
      }
      return files.length > 0 ? ok(files) : failed({ kind: 'impossible', message: 'None of the solids can be made.' });
    },
  };
}

export const stl = meshExporter('STL meshes', 'stl', (mesh, title) => meshStl(mesh, title));
export const threeMf = meshExporter('3MF meshes', '3mf', meshThreeMf);
