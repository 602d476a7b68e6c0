import { describe, expect, it } from 'vitest';
import { DEMOS } from '../../../src/document/demos.ts';
import { type DesignDocument, MOST_SNAPSHOTS } from '../../../src/document/design.ts';
import { changeRing, checked } from '../../../src/document/edits/edit.ts';
import {
  nextSnapshotName,
  removeSnapshot,
  renameSnapshot,
  restoreSnapshot,
  snapshotsOf,
  takeSnapshot,
} from '../../../src/document/edits/snapshots.ts';
import { readDesign } from '../../../src/document/read-design.ts';
import { contentOf, withoutSnapshots } from '../../../src/document/snapshots.ts';
import { writeDesign } from '../../../src/document/write-design.ts';
import { changeDocument, createDesignStore, undo } from '../../../src/state/design/design-store.ts';
import { layoutKey } from '../../../src/state/design/layout-key.ts';

const NOON = new Date('2026-07-01T12:00:00Z');

function taken(document: DesignDocument, name: string): DesignDocument {
  const result = takeSnapshot(document, name, NOON);
  if (!result.ok) throw new Error(result.fault);
  return result.value;
}

const wider = (document: DesignDocument): DesignDocument => changeRing(document, 'base', { gap_deg: 40 });

describe('a snapshot', () => {
  it('keeps the design as it is, and no other snapshots', () => {
    const first = taken(DEMOS.steady, 'Narrow pairs');
    const second = taken(wider(first), 'Wide pairs');
    expect(snapshotsOf(second)).toEqual([
      { name: 'Narrow pairs', takenAt: '2026-07-01T12:00:00.000Z', design: contentOf(DEMOS.steady) },
      { name: 'Wide pairs', takenAt: '2026-07-01T12:00:00.000Z', design: contentOf(wider(DEMOS.steady)) },
    ]);
    expect(DEMOS.steady.snapshots).toBeUndefined();
  });

  it('stays while the design is edited, also through the validator', () => {
    const edited = checked(wider(taken(DEMOS.steady, 'Narrow pairs')));
    expect(edited.ok && snapshotsOf(edited.value)).toEqual(snapshotsOf(taken(DEMOS.steady, 'Narrow pairs')));
  });

  it('comes back from the file exactly', () => {
    const document = taken(wider(taken(DEMOS.roomy, 'One')), 'Two');
    const read = readDesign(writeDesign(document));
    expect(read.ok && read.value).toStrictEqual(document);
  });

  it('brings its design back and leaves the list as it is', () => {
    const document = taken(wider(taken(DEMOS.steady, 'Narrow pairs')), 'Wide pairs');
    const restored = restoreSnapshot(document, 0);
    expect(withoutSnapshots(restored)).toStrictEqual(DEMOS.steady);
    expect(restored.snapshots).toBe(document.snapshots);
    expect(restoreSnapshot(document, 7)).toBe(document);
  });

  it('is renamed and removed by its place; the last one leaves nothing behind', () => {
    const document = taken(taken(DEMOS.steady, 'One'), 'Two');
    expect(snapshotsOf(renameSnapshot(document, 1, 'Second')).map(({ name }) => name)).toEqual(['One', 'Second']);
    expect(renameSnapshot(document, 1, 'Two')).toBe(document);
    expect(snapshotsOf(removeSnapshot(document, 0)).map(({ name }) => name)).toEqual(['Two']);
    expect(removeSnapshot(taken(DEMOS.steady, 'One'), 0)).toStrictEqual(DEMOS.steady);
  });

  it(`is refused when there are ${MOST_SNAPSHOTS}`, () => {
    let document: DesignDocument = DEMOS.steady;
    for (let n = 0; n < MOST_SNAPSHOTS; n++) document = taken(document, nextSnapshotName(document));
    expect(snapshotsOf(document).at(-1)?.name).toBe(`Snapshot ${MOST_SNAPSHOTS}`);
    const more = takeSnapshot(document, 'One more', NOON);
    expect(more.ok ? 'taken' : more.fault).toBe(
      `A design keeps at most ${MOST_SNAPSHOTS} snapshots; remove one first, or save the design to a file.`,
    );
    const read = readDesign(writeDesign(document));
    expect(read.ok && read.value).toStrictEqual(document);
  });

  it('with the longest notes everywhere still fits into a file that is read', () => {
    const longest = { ...DEMOS.steady, note: '\u0001'.repeat(20_000) };
    let document: DesignDocument = longest;
    for (let n = 0; n < MOST_SNAPSHOTS; n++) document = taken(document, '\u0001'.repeat(200));
    const read = readDesign(new TextEncoder().encode(writeDesign(document)));
    expect(read.ok && read.value).toStrictEqual(document);
  });

  it('gets a name that is not taken', () => {
    const document = removeSnapshot(taken(taken(DEMOS.steady, 'Snapshot 1'), 'Snapshot 2'), 0);
    expect(nextSnapshotName(document)).toBe('Snapshot 3');
  });

  it('stands outside undo, which goes back to the design before and keeps what is kept', () => {
    const store = createDesignStore(DEMOS.steady);
    const first = taken(DEMOS.steady, 'One');
    changeDocument(store, first, 'keep');
    changeDocument(store, wider(first), 'wider');
    undo(store);
    const { snapshots, ...design } = store.getState().document;
    expect(snapshots).toEqual(first.snapshots);
    expect(design).toEqual(DEMOS.steady);
  });
});

describe('layoutKey', () => {
  it('is the same for the same geometry and differs for any other', () => {
    const renamed = { ...taken(DEMOS.steady, 'One'), name: 'Other', note: 'x' };
    expect(layoutKey(renamed)).toBe(layoutKey(DEMOS.steady));
    const { home, ...rest } = DEMOS.steady;
    expect(layoutKey({ home, ...rest })).toBe(layoutKey(DEMOS.steady));
    expect(layoutKey(wider(DEMOS.steady))).not.toBe(layoutKey(DEMOS.steady));
    expect(layoutKey({ ...DEMOS.steady, characteristicLength_mm: 70 })).not.toBe(layoutKey(DEMOS.steady));
  });
});
