import { failed, ok, type Result } from '../../math/result.ts';
import { type DesignDocument, MOST_SNAPSHOTS, type SnapshotDocument } from '../design.ts';
import { contentOf, snapshotDesign, withSnapshots } from '../snapshots.ts';

/** The design's snapshots, oldest first; the same empty list when there are none. */
export const snapshotsOf = ({ snapshots }: DesignDocument): readonly SnapshotDocument[] => snapshots ?? NONE;

const NONE: readonly SnapshotDocument[] = [];

/** Keeps the design as it is under a name; fails, in a sentence, when the file holds as many as it may. */
export function takeSnapshot(document: DesignDocument, name: string, at: Date): Result<DesignDocument, string> {
  const snapshots = snapshotsOf(document);
  if (snapshots.length >= MOST_SNAPSHOTS) {
    return failed(
      `A design keeps at most ${MOST_SNAPSHOTS} snapshots; remove one first, or save the design to a file.`,
    );
  }
  const taken = { name, takenAt: at.toISOString(), design: contentOf(document) };
  return ok(withSnapshots(document, [...snapshots, taken]));
}

/** Gives one snapshot, by its place in the list, another name. */
export function renameSnapshot(document: DesignDocument, index: number, name: string): DesignDocument {
  const snapshots = snapshotsOf(document);
  if (snapshots[index]?.name === name) return document;
  return withSnapshots(
    document,
    snapshots.map((snapshot, place) => (place === index ? { ...snapshot, name } : snapshot)),
  );
}

/** Takes one snapshot, by its place in the list, out of the file. */
export const removeSnapshot = (document: DesignDocument, index: number): DesignDocument =>
  withSnapshots(document, snapshotsOf(document).toSpliced(index, 1));

/** The design as one of its snapshots kept it, with all snapshots still in place. */
export function restoreSnapshot(document: DesignDocument, index: number): DesignDocument {
  const snapshot = snapshotsOf(document)[index];
  return snapshot ? withSnapshots(snapshotDesign(snapshot), document.snapshots) : document;
}

/** A name for the next snapshot: "Snapshot 3". */
export function nextSnapshotName(document: DesignDocument): string {
  const names = new Set(snapshotsOf(document).map(({ name }) => name));
  let number = snapshotsOf(document).length + 1;
  while (names.has(`Snapshot ${number}`)) number += 1;
  return `Snapshot ${number}`;
}
