import { describe, expect, it } from 'vitest';
import {
  changeDocument,
  changeSnapshots,
  commitDraft,
  createDesignStore,
  isUnsaved,
  liveDocument,
  markSaved,
  openDocument,
  presentOpening,
  previewDocument,
  redo,
  resumeDocument,
  undo,
} from '../../src/state/design/design-store.ts';
import { named, sampleDesign } from './sample-design.ts';

const start = () => createDesignStore(named('first'));
const stepsBack = (store: ReturnType<typeof start>) => store.temporal.getState().pastStates.length;

describe('the design store', () => {
  it('records one step for a drag, however many values it passes', () => {
    const store = start();
    for (let n = 0; n < 50; n++) previewDocument(store, named(`draft ${n}`));
    expect(liveDocument(store.getState()).name).toBe('draft 49');
    expect(stepsBack(store)).toBe(0);
    commitDraft(store, 'Rename');
    expect(stepsBack(store)).toBe(1);
    undo(store);
    expect(store.getState().document.name).toBe('first');
    redo(store);
    expect(store.getState()).toMatchObject({ label: 'Rename', document: { name: 'draft 49' }, draft: null });
  });

  it('records nothing when a drag ends where it began', () => {
    const store = start();
    previewDocument(store, named('elsewhere'));
    previewDocument(store, store.getState().document);
    commitDraft(store, 'Rename');
    expect(stepsBack(store)).toBe(0);
  });

  it('goes back to the former file when opening is undone', () => {
    const store = start();
    markSaved(store, store.getState().document, 'first.json');
    openDocument(store, named('second'), 'Open second.json', { fileName: 'second.json', saved: null });
    expect(presentOpening(store.getState()).fileName).toBe('second.json');
    undo(store);
    expect(presentOpening(store.getState()).fileName).toBe('first.json');
    expect(isUnsaved(store.getState())).toBe(false);
    redo(store);
    expect(presentOpening(store.getState()).fileName).toBe('second.json');
  });

  it('knows what the file holds after undoing past a save', () => {
    const store = start();
    changeDocument(store, named('changed'), 'Rename');
    expect(isUnsaved(store.getState())).toBe(true);
    markSaved(store, store.getState().document, 'work.json');
    expect(isUnsaved(store.getState())).toBe(false);
    undo(store);
    expect(isUnsaved(store.getState())).toBe(true);
    redo(store);
    expect(isUnsaved(store.getState())).toBe(false);
  });

  it('leaves snapshots alone when it goes back and forth, and records no step for keeping one', () => {
    const store = createDesignStore(sampleDesign);
    const widened = { ...sampleDesign, name: 'wider' };
    changeDocument(store, widened, 'Widen');
    const { format: _, version: __, ...content } = widened;
    changeSnapshots(store, [{ name: 'kept', takenAt: '2026-01-01T00:00:00.000Z', design: content }]);
    expect(store.temporal.getState().pastStates).toHaveLength(1);
    undo(store);
    expect(store.getState().document.name).toBe(sampleDesign.name);
    expect(store.getState().document.snapshots).toHaveLength(1);
    redo(store);
    expect(store.getState().document).toMatchObject({ name: 'wider', snapshots: [{ name: 'kept' }] });
    changeSnapshots(store, []);
    undo(store);
    expect(store.getState().document).toEqual(sampleDesign);
  });

  it('resumes kept work with nothing to undo', () => {
    const store = start();
    changeDocument(store, named('changed'), 'Rename');
    resumeDocument(store, named('kept'), { fileName: 'kept.json', saved: null });
    expect(stepsBack(store)).toBe(0);
    expect(isUnsaved(store.getState())).toBe(true);
    undo(store);
    expect(store.getState().document.name).toBe('kept');
  });
});
