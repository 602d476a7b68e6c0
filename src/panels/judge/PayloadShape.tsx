import { useRef } from 'react';
import { useStore } from 'zustand';
import type { DesignDocument } from '../../document/design.ts';
import { choosePayloadShape, type PayloadShapeKind, payloadShapeKind } from '../../document/edits/payload-shape.ts';
import { meshOf, payloadMeshStore } from '../../state/mesh/payload-mesh-store.ts';
import { Choice } from '../../ui/Choice.tsx';
import { Fold } from '../../ui/Fold.tsx';
import { DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import styles from './judge.module.css';
import { PAYLOAD_DIAMETER_SPEC, PAYLOAD_SPECS, PAYLOAD_TURN_SPEC } from './load-specs.ts';
import { MeshImport } from './MeshImport.tsx';
import { VectorRow } from './VectorRow.tsx';

const KINDS: readonly (readonly [PayloadShapeKind, string])[] = [
  ['none', 'None'],
  ['box', 'Box'],
  ['cylinder', 'Cylinder'],
  ['hull', 'Mesh'],
];

const BRIEF: Readonly<Record<PayloadShapeKind, string>> = {
  none: 'none',
  box: 'box',
  cylinder: 'cylinder',
  hull: 'mesh',
};

/** What the payload looks like: for clearances, its inertia and the drawing. */
export function PayloadShape() {
  const kind = useDesign(payloadShapeKind);
  const chooseFile = useRef<HTMLInputElement>(null);
  const choose = (wanted: PayloadShapeKind) => {
    if (wanted === 'hull') chooseFile.current?.click();
    else makeEdit((document) => choosePayloadShape(document, wanted), `Payload shape ${wanted}`);
  };
  return (
    <Fold name="Payload shape" brief={BRIEF[kind]}>
      <Choice name="Shape of the payload" label="Shape" value={kind} options={KINDS} onChoose={choose} />
      {kind === 'none' ? null : PAYLOAD_SPECS[kind].map((specs) => <VectorRow key={specs.label} specs={specs} />)}
      {kind === 'cylinder' ? <DesignNumber spec={PAYLOAD_DIAMETER_SPEC} /> : null}
      {kind === 'box' ? <DesignNumber spec={PAYLOAD_TURN_SPEC} /> : null}
      {kind === 'hull' ? <HullNote /> : null}
      <MeshImport input={chooseFile} />
    </Fold>
  );
}

const hullCorners = ({ payload }: DesignDocument): number => {
  const shape = payload?.shape;
  return shape && 'hull' in shape ? shape.hull.corners_mm.length : 0;
};

const hullSource = ({ payload }: DesignDocument): string => {
  const shape = payload?.shape;
  return (shape && 'hull' in shape && shape.hull.source) || 'the mesh';
};

/** What of a mesh is kept, and what clearances are measured to. */
function HullNote() {
  const corners = useDesign(hullCorners);
  const source = useDesign(hullSource);
  return (
    <p className={styles['note']}>
      The design keeps the convex hull of <b>{source}</b> ({corners} corners), not its triangles. <TrianglesNote />{' '}
      Clearance is measured exactly to the hull: hollows count as filled, so the mesh itself is never nearer than
      stated.
    </p>
  );
}

/** Where the triangles are drawn from, or why only the hull is drawn. */
function TrianglesNote() {
  const document = useDesign((own) => own);
  const state = useStore(payloadMeshStore);
  if (!meshOf(document, state))
    return state.looking
      ? 'They are being looked for in this browser.'
      : 'They are not in this browser, so the hull is drawn; import the file again to see them.';
  if (state.kept === 'refused') return 'They are drawn until the page is closed, for this browser could not keep them.';
  return 'They are drawn, and kept in this browser only.';
}
