import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { DesignDocument } from '../../document/design.ts';
import { centreOf, massOf } from '../../document/edits/judge.ts';
import { stateCentre } from '../../document/edits/load.ts';
import { length, subtract } from '../../math/vec3.ts';
import { hullOf, meshOf, payloadMeshStore } from '../../state/mesh/payload-mesh-store.ts';
import { hullCentroid, type VolumeCentroid } from '../../state/mesh/volume-centroid.ts';
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
  return hull ? <Assumptions /> : null;
}

const stated = ({ payload }: DesignDocument): boolean => payload?.centre_mm !== undefined;

const CENTROID_STEP = 'Centre of mass at the volume centroid';

function Assumptions() {
  const document = useDesign((whole) => whole);
  const { uniform, closed } = useUniformBody(document);
  const centre = centreOf(document);
  const there = uniform !== null && length(subtract(uniform.centroid, centre)) < SAME_CENTRE;
  const body = closed ? 'the closed mesh' : 'its hull';
  return (
    <>
      <p className={styles['note']}>
        A mesh says nothing of mass: {massOf(document)} kg is the number above. Its centre is{' '}
        {there
          ? `at the volume centroid of ${body}, as for a uniform body`
          : stated(document)
            ? 'stated'
            : 'assumed in the middle of the box around it'}
        .{stated(document) ? ' It stays where it is when the shape is moved.' : ''}
      </p>
      {uniform ? (
        <Explained
          title="Centre of a uniform body"
          how={<CentroidHow uniform={uniform} closed={closed} corners={hullOf(document)?.corners_mm.length ?? 0} />}
        >
          {() => (
            <p className={styles['centroid']}>
              <span>{listed(uniform.centroid)} mm</span>
              <button
                type="button"
                className={styles['button']}
                disabled={there}
                onClick={() => makeEdit((own) => stateCentre(own, uniform.centroid), CENTROID_STEP)}
              >
                {there ? 'Is the centre of mass' : 'Use as centre of mass'}
              </button>
            </p>
          )}
        </Explained>
      ) : null}
    </>
  );
}

/** The payload as a body of uniform density: the closed mesh where it is at hand, else its hull. */
function useUniformBody(document: DesignDocument): {
  readonly uniform: VolumeCentroid | null;
  readonly closed: boolean;
} {
  const mesh = useStore(payloadMeshStore, (state) => state.mesh);
  return useMemo(() => {
    const solid = meshOf(document, { mesh })?.solid;
    if (solid) return { uniform: solid, closed: true };
    const hull = hullOf(document);
    return { uniform: hull && hullCentroid(hull.corners_mm), closed: false };
  }, [document, mesh]);
}

interface CentroidHowProps {
  readonly uniform: VolumeCentroid;
  readonly closed: boolean;
  readonly corners: number;
}

function CentroidHow({ uniform: { volume, centroid }, closed, corners }: CentroidHowProps) {
  return (
    <p>
      Σ Vᵢ (aᵢ + bᵢ + cᵢ) / 4 / Σ Vᵢ over the tetrahedra from one point to every triangle, Vᵢ = aᵢ · (bᵢ × cᵢ) / 6:{' '}
      {three(volume / CUBIC_MM_IN_CM)} cm³, centroid {listed(centroid)} mm, platform frame.{' '}
      {closed
        ? 'The mesh is closed, so this is exact for one density throughout; bodies in it that overlap count twice.'
        : `Taken of the hull of ${corners} corners, hollows filled: the triangles do not close a body, or are not in this browser.`}
    </p>
  );
}
