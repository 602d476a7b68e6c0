import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { DesignDocument } from '../../document/design.ts';
import { centreOf, massOf } from '../../document/edits/judge.ts';
import { stateBody, stateCentre } from '../../document/edits/load.ts';
import { bodyOfShape } from '../../document/judgement-inputs.ts';
import { inertiaOfMoments } from '../../kinematics/uniform-body.ts';
import { length, subtract } from '../../math/vec3.ts';
import type { MeshSolid } from '../../state/mesh/closed-solid.ts';
import type { HullDocument } from '../../state/mesh/hull-identity.ts';
import { hullOf, meshOf, payloadMeshStore } from '../../state/mesh/payload-mesh-store.ts';
import { Button } from '../../ui/Button.tsx';
import { Explained } from '../../ui/Figure.tsx';
import { listed, three } from '../../words/numbers.ts';
import { makeEdit, useDesign } from '../design-binding.ts';
import styles from './judge.module.css';

/** Centres closer than the digits that the design keeps are the same [mm]. */
const SAME_CENTRE = 2e-3;

const CUBIC_MM_IN_CM = 1000;

/** What an imported payload does not say of its mass, and where a uniform body's centre would be. */
export function MassOfMesh() {
  const hull = useDesign(hullOf);
  return hull ? <Assumptions hull={hull} /> : null;
}

const stated = ({ payload }: DesignDocument): boolean => payload?.centre_mm !== undefined;

const BODY_STEP = 'Centre of mass and inertia of the closed mesh';

function Assumptions({ hull }: { readonly hull: HullDocument }) {
  const document = useDesign((whole) => whole);
  const mesh = useStore(payloadMeshStore, (state) => state.mesh);
  const closed = useMemo(() => meshOf(document, { mesh })?.solid ?? null, [document, mesh]);
  const centre = centreOf(document);
  const there = closed !== null && length(subtract(closed.centroid, centre)) < SAME_CENTRE;
  const solid = useMemo(() => bodyOfShape({ hull }) !== null, [hull]);
  return (
    <>
      <p className={styles['note']}>
        A mesh says nothing of mass: {massOf(document)} kg is the number above. Its centre is{' '}
        {there
          ? 'that of the closed mesh as a uniform body'
          : stated(document)
            ? 'stated'
            : solid
              ? 'that of its hull as a uniform body, hollows filled'
              : 'the middle of the box around it, for its hull encloses nothing'}
        .{stated(document) ? ' It stays where it is when the shape is moved.' : ''}
      </p>
      {closed ? (
        <Explained title="The closed mesh as a uniform body" how={<ClosedHow solid={closed} />}>
          {() => (
            <p className={styles['centroid']}>
              <span>{listed(closed.centroid)} mm</span>
              <Button disabled={there} onClick={() => makeEdit((own) => withBody(own, closed), BODY_STEP)}>
                {there ? 'Is the centre of mass' : 'Use its centre and inertia'}
              </Button>
            </p>
          )}
        </Explained>
      ) : null}
    </>
  );
}

/** The centre of a closed mesh, and its inertia where it is known. */
const withBody = (document: DesignDocument, { volume, centroid, second }: MeshSolid): DesignDocument =>
  second ? stateBody(document, centroid, inertiaOfMoments(second, volume)) : stateCentre(document, centroid);

function ClosedHow({ solid: { volume, centroid, second } }: { readonly solid: MeshSolid }) {
  return (
    <p>
      Σ Vᵢ (aᵢ + bᵢ + cᵢ) / 4 / Σ Vᵢ over the tetrahedra from one point to every triangle, Vᵢ = aᵢ · (bᵢ × cᵢ) / 6:{' '}
      {three(volume / CUBIC_MM_IN_CM)} cm³, centroid {listed(centroid)} mm, platform frame.{' '}
      {second
        ? 'The inertia from Σ Vᵢ (s sᵀ + a aᵀ + b bᵀ + c cᵀ) / 20, s = a + b + c, less the part of the centroid. '
        : 'An older version kept the mesh without its inertia: import the file again to have it. '}
      The mesh is closed, so this is exact for one density throughout; bodies in it that overlap count twice.
    </p>
  );
}
