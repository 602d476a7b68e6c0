import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { readDesign } from '../../src/document/read-design.ts';
import { writeDesign } from '../../src/document/write-design.ts';
import { failed } from '../../src/math/result.ts';
import {
  changeDocument,
  createDesignStore,
  type DesignStore,
  previewDocument,
} from '../../src/state/design/design-store.ts';
import { AUTOSAVE_DELAY, type Autosave, startAutosave } from '../../src/state/kept/autosave.ts';
import {
  type AutosaveDatabase,
  listSaves,
  openAutosaves,
  saveKey,
  writeSave,
} from '../../src/state/kept/autosave-database.ts';
import { type ReadText, restoreWork } from '../../src/state/kept/restore.ts';
import { named } from './sample-design.ts';

const read: ReadText = (text) => {
  const design = readDesign(text);
  return design.ok ? design : failed(design.fault.map(({ message }) => message));
};

const tab = (id: string, ...others: string[]) => ({ id, alive: new Set([id, ...others]) });

const record = (session: string, sequence: number, savedAt: number, name: string) => ({
  key: saveKey(session, sequence),
  session,
  savedAt,
  name,
  text: writeDesign(named(name)),
  fileName: null,
  unsaved: true,
});

let database: AutosaveDatabase;
const running: Autosave[] = [];

function autosave(store: DesignStore, session: string, adopted: string | null = null): Autosave {
  const onFailure = (reason: unknown) => {
    throw reason;
  };
  const options = { database, session, firstSequence: 1, adopted, write: writeDesign, onFailure };
  const started = startAutosave(store, options);
  running.push(started);
  return started;
}

beforeEach(async () => {
  database = await openAutosaves();
  await database.clear('saves');
  await database.clear('setAside');
});

afterEach(() => {
  for (const { stop } of running) stop();
  running.length = 0;
  vi.useRealTimers();
  database.close();
});

describe('autosave', () => {
  it('keeps the last of many changes once, after a quiet time', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const store = createDesignStore(named('first'));
    const saving = autosave(store, 'a');
    changeDocument(store, named('second'), 'Rename');
    previewDocument(store, named('a drag in between'));
    changeDocument(store, named('third'), 'Rename');
    vi.advanceTimersByTime(AUTOSAVE_DELAY - 1);
    expect((await listSaves(database)).size).toBe(0);
    vi.advanceTimersByTime(1);
    await saving.flush();
    expect([...(await listSaves(database)).values()]).toMatchObject([{ name: 'third', session: 'a', unsaved: true }]);
  });

  it('keeps work aside that later saves do not replace, and offers it again', async () => {
    const store = createDesignStore(named('first'));
    const saving = autosave(store, 'a');
    changeDocument(store, named('second'), 'Rename');
    const aside = await saving.keepAside();
    expect(aside).toMatchObject({ name: 'second', unsaved: true });
    for (const name of ['third', 'fourth']) {
      changeDocument(store, named(name), 'Rename');
      await saving.flush();
    }
    const restored = await restoreWork(database, tab('a'), read);
    expect(restored.work?.document.name).toBe('fourth');
    expect(restored.earlier).toEqual([aside]);
  });

  it('writes the new save before it drops the old one', async () => {
    const store = createDesignStore(named('first'));
    const saving = autosave(store, 'a');
    changeDocument(store, named('second'), 'Rename');
    await saving.flush();
    const before = [...(await listSaves(database)).keys()];
    const steps: string[] = [];
    const put = vi.spyOn(database, 'put').mockImplementation(async () => {
      steps.push('put');
      throw new Error('the disk is full');
    });
    const remove = vi.spyOn(database, 'delete');
    saving.stop();
    await expect(writeSave(database, record('a', 9, 9, 'third'))).rejects.toThrow('full');
    expect(steps).toEqual(['put']);
    expect(remove).not.toHaveBeenCalled();
    put.mockRestore();
    expect([...(await listSaves(database)).keys()]).toEqual(before);
  });

  it('never touches the saves of another tab', async () => {
    await writeSave(database, record('b', 1, 5, 'theirs'));
    const store = createDesignStore(named('first'));
    const saving = autosave(store, 'a');
    for (const name of ['second', 'third']) {
      changeDocument(store, named(name), 'Rename');
      await saving.flush();
    }
    expect([...(await listSaves(database)).values()]).toMatchObject([{ name: 'third' }, { name: 'theirs' }]);
  });

  it('drops the save it goes on from only when it has one of its own', async () => {
    await writeSave(database, record('closed', 3, 5, 'work'));
    const store = createDesignStore(named('work'));
    const saving = autosave(store, 'a', saveKey('closed', 3));
    await saving.flush();
    expect([...(await listSaves(database)).keys()]).toEqual([saveKey('closed', 3)]);
    changeDocument(store, named('more work'), 'Rename');
    await saving.flush();
    expect([...(await listSaves(database)).keys()]).toEqual([saveKey('a', 1)]);
  });
});

describe('restoring', () => {
  it('finds nothing in an empty store', async () => {
    expect(await restoreWork(database, tab('a'), read)).toEqual({
      work: null,
      adopted: false,
      earlier: [],
      nextSequence: 1,
      unreadable: 0,
    });
  });

  it("prefers this tab's own work, then the newest of closed tabs, and leaves open tabs alone", async () => {
    await writeSave(database, record('a', 4, 10, 'mine'));
    await writeSave(database, record('closed', 1, 20, 'older tab'));
    await writeSave(database, record('later', 1, 30, 'later tab'));
    await writeSave(database, record('open', 1, 99, 'open tab'));
    const mine = await restoreWork(database, tab('a', 'open'), read);
    expect(mine).toMatchObject({ work: { document: { name: 'mine' } }, adopted: false, nextSequence: 5 });
    const fresh = await restoreWork(database, tab('new', 'open'), read);
    expect(fresh).toMatchObject({ work: { document: { name: 'later tab' } }, adopted: true, nextSequence: 1 });
    expect(fresh.earlier.map(({ name }) => name)).toEqual(['older tab', 'mine']);
  });

  it('gives back the document as it was kept', async () => {
    await writeSave(database, record('a', 1, 10, 'mine'));
    const { work } = await restoreWork(database, tab('a'), read);
    expect(work?.document).toEqual(named('mine'));
    expect(work).toMatchObject({ unsaved: true, fileName: null, savedAt: 10 });
  });

  it('sets aside what it cannot read, whole, and goes on with the next', async () => {
    const torn = { ...record('a', 2, 20, 'torn'), text: '{"format": "legroom-design", "version": 1' };
    await writeSave(database, record('closed', 1, 1, 'good'));
    await database.put('saves', torn, torn.key);
    await database.put('saves', { strange: true }, 'zz/0000000001');
    const restored = await restoreWork(database, tab('a'), read);
    expect(restored).toMatchObject({ work: { document: { name: 'good' } }, unreadable: 2, nextSequence: 3 });
    const aside = await database.getAll('setAside');
    expect(aside.map(({ record: kept }) => kept)).toEqual([torn, { strange: true }]);
    expect(aside[0].reasons[0]).toContain('JSON');
    expect([...(await listSaves(database)).keys()]).toEqual([saveKey('closed', 1)]);
  });
});
