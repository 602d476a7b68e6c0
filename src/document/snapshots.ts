import {
  DESIGN_FORMAT,
  DESIGN_VERSION,
  type DesignContent,
  type DesignDocument,
  type SnapshotDocument,
} from './design.ts';

/** The design itself: without the envelope of its file and without its snapshots. */
export function contentOf(document: DesignDocument): DesignContent {
  const { format: _format, version: _version, snapshots: _snapshots, ...content } = document;
  return content;
}

/** A design without its snapshots; one that has none comes back as it is. */
export const withoutSnapshots = (document: DesignDocument): DesignDocument => withSnapshots(document, undefined);

/** A design with these snapshots in place of its own; the same object when they are its own. An empty list is left out. */
export function withSnapshots(document: DesignDocument, snapshots: DesignDocument['snapshots']): DesignDocument {
  if (document.snapshots === snapshots) return document;
  const { snapshots: _, ...bare } = document;
  return snapshots === undefined || snapshots.length === 0 ? bare : { ...bare, snapshots };
}

/** The design that a snapshot keeps, without snapshots of its own. */
export const snapshotDesign = ({ design }: SnapshotDocument): DesignDocument => ({
  format: DESIGN_FORMAT,
  version: DESIGN_VERSION,
  ...design,
});
