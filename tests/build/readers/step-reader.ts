import { facts, type MeshFacts } from './closed-mesh.ts';

/** What a CAD kernel makes of a STEP file. */
export interface StepFacts extends Pick<MeshFacts, 'volume' | 'closed'> {
  readonly solids: number;
  readonly faces: number;
}

interface Imported {
  readonly success: boolean;
  readonly meshes: readonly {
    readonly attributes: { readonly position: { readonly array: readonly number[] } };
    readonly index: { readonly array: readonly number[] };
    readonly brep_faces: readonly unknown[];
  }[];
}

/** Reads STEP with occt-import-js, a CAD kernel that has nothing of this project; its mesh stays within `deflection` [mm] of the faces. */
export async function stepFacts(bytes: Uint8Array, deflection: number): Promise<StepFacts> {
  // the package has no types of its own
  const { default: start } = await import('occt-import-js');
  const kernel: { ReadStepFile(content: Uint8Array, settings: object): Imported } = await start();
  const read = kernel.ReadStepFile(bytes, {
    linearUnit: 'millimeter',
    linearDeflectionType: 'absolute_value',
    linearDeflection: deflection,
    angularDeflection: 0.3,
  });
  if (!read.success) throw new Error('The kernel refuses the file.');
  const corners = read.meshes.flatMap(({ attributes, index }) =>
    index.array.map((n) => [0, 1, 2].map((axis) => Number(attributes.position.array[3 * n + axis].toPrecision(9)))),
  );
  const { volume, closed } = facts(corners);
  return {
    solids: read.meshes.length,
    faces: read.meshes.flatMap(({ brep_faces }) => brep_faces).length,
    volume,
    closed,
  };
}
