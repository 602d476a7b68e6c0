// @vitest-environment happy-dom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { followLinks } from '../../src/app/links/follow-links.ts';
import { designAddress, type LinkOpening } from '../../src/app/links/link-opening.ts';
import { DEMOS } from '../../src/document/demos.ts';
import { readLinkFragment } from '../../src/document/share-link.ts';
import { changeDocument, createDesignStore, isUnsaved, undo } from '../../src/state/design/design-store.ts';
import type { SaveRecord } from '../../src/state/kept/autosave-database.ts';
import { createDialogStore } from '../../src/state/session/dialog-store.ts';
import { createNoticesStore } from '../../src/state/session/notices-store.ts';

const LINK = new URL(designAddress(DEMOS.roomy, 'https://example.org/legroom/?x=1#old'));

const record: SaveRecord = { key: 'k/1', session: 'k', savedAt: 1, name: 'n', text: '', fileName: null, unsaved: true };

function begin(keepAside: LinkOpening['keepAside'] = async () => record) {
  const kept: SaveRecord[] = [];
  const opening = {
    design: createDesignStore(DEMOS.steady),
    dialog: createDialogStore(),
    notices: createNoticesStore(),
    keepAside,
    onKept: (one: SaveRecord) => kept.push(one),
  };
  return { ...opening, kept, opening };
}

/** What unpacks a link is fetched when there is one. */
async function settled(): Promise<void> {
  await vi.dynamicImportSettled();
  await new Promise((done) => setTimeout(done, 5));
}

let stop: () => void = () => undefined;

beforeEach(() => window.history.replaceState(null, '', '/'));
afterEach(() => stop());

describe('an address with a design', () => {
  it('is the page with another fragment, and holds the design', async () => {
    expect(`${LINK.origin}${LINK.pathname}${LINK.search}`).toBe('https://example.org/legroom/?x=1');
    const read = readLinkFragment(LINK.hash);
    expect(read.ok && read.value).toStrictEqual(DEMOS.roomy);
  });

  it('opens it as one undo step and leaves the address', async () => {
    window.history.replaceState(null, '', `/${LINK.hash}`);
    const { design, notices, opening } = begin();
    stop = followLinks(opening);
    await settled();
    expect(design.getState().document).toStrictEqual(DEMOS.roomy);
    expect(design.getState().label).toBe('Open Wave table, roomy from a link');
    expect(isUnsaved(design.getState())).toBe(false);
    expect(notices.getState().announcement).toContain('from a link');
    expect(window.location.hash).toBe('');
    undo(design);
    expect(design.getState().document).toBe(DEMOS.steady);
  });

  it('opens it on a page that is open already', async () => {
    const { design, opening } = begin();
    stop = followLinks(opening);
    await settled();
    window.history.replaceState(null, '', `/${LINK.hash}`);
    window.dispatchEvent(new Event('hashchange'));
    await settled();
    expect(design.getState().document).toStrictEqual(DEMOS.roomy);
    expect(window.location.hash).toBe('');
  });

  it('asks before it takes the place of unsaved work, and keeps that work aside', async () => {
    const { design, dialog, kept, opening } = begin();
    const work = { ...DEMOS.even, name: 'My work' };
    changeDocument(design, work, 'Work');
    window.history.replaceState(null, '', `/${LINK.hash}`);
    stop = followLinks(opening);
    await settled();
    expect(design.getState().document).toBe(work);
    const { open } = dialog.getState();
    if (open.kind !== 'linkArrived') throw new Error(`The dialog shows ${open.kind}.`);
    expect(open.name).toBe('Wave table, roomy');
    await settled();
    expect(kept).toEqual([]);
    open.open();
    await settled();
    expect(kept).toEqual([record]);
    expect(design.getState().document).toStrictEqual(DEMOS.roomy);
    undo(design);
    expect(design.getState().document).toBe(work);
  });

  it('opens it also where nothing can be kept: undo still holds the work', async () => {
    const { design, dialog, kept, opening } = begin(async () => null);
    changeDocument(design, DEMOS.even, 'Work');
    window.history.replaceState(null, '', `/${LINK.hash}`);
    stop = followLinks(opening);
    await settled();
    const { open } = dialog.getState();
    if (open.kind === 'linkArrived') open.open();
    await settled();
    expect(kept).toEqual([]);
    expect(design.getState().document).toStrictEqual(DEMOS.roomy);
  });

  it('says so when the design is open already', async () => {
    const { design, dialog, notices, opening } = begin();
    changeDocument(design, { ...DEMOS.roomy }, 'Work');
    window.history.replaceState(null, '', `/${LINK.hash}`);
    stop = followLinks(opening);
    await settled();
    expect(dialog.getState().open.kind).toBe('none');
    expect(notices.getState().announcement).toBe('The design in the link is the one that is open.');
  });

  it('that is broken names the fault and changes nothing', async () => {
    window.history.replaceState(null, '', `/${LINK.hash.slice(0, 90)}`);
    const { design, dialog, opening } = begin();
    stop = followLinks(opening);
    await settled();
    expect(design.getState().document).toBe(DEMOS.steady);
    expect(dialog.getState().open).toMatchObject({ kind: 'linkFaults', faults: [{ path: 'The link' }] });
    expect(window.location.hash).toBe('');
  });
});

it('an ordinary fragment is left alone', async () => {
  window.history.replaceState(null, '', '/#design');
  const { design, dialog, opening } = begin();
  stop = followLinks(opening);
  await settled();
  expect(design.getState().document).toBe(DEMOS.steady);
  expect(dialog.getState().open.kind).toBe('none');
  expect(window.location.hash).toBe('#design');
});
