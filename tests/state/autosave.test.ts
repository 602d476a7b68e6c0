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
import { AUTOSAVE_DELAY, type Autosave, FIRST_RETRY, startAutosave } from '../../src/state/kept/autosave.ts';
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
  const options = {
    database,
    session,
    firstSequence: 1,
    adopted,
    write: writeDesign,
    onFailure,
    onRecovery: () => undefined,
  };
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
  vi.unstubAllGlobals();
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

/** A stand-in for the browser's local storage. */
function standInStorage(refuses = false): Map<string, string> {
  const held = new Map<string, string>();
  const storage = {
    getItem: (name: string) => held.get(name) ?? null,
    setItem: (name: string, value: string) => {
      if (refuses) throw new DOMException('full', 'QuotaExceededError');
      held.set(name, value);
    },
    removeItem: (name: string) => held.delete(name),
  };
  vi.stubGlobal(
    'localStorage',
    new Proxy(storage, {
      ownKeys: () => [...held.keys()],
      getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }),
    }),
  );
  return held;
}

describe('a save that fails', () => {
  const failing = (told: string[]) => {
    const store = createDesignStore(named('first'));
    const options = { database, session: 'a', firstSequence: 1, adopted: null, write: writeDesign };
    const saving = startAutosave(store, {
      ...options,
      onFailure: () => told.push('failed'),
      onRecovery: () => told.push('kept again'),
    });
    running.push(saving);
    const put = vi
      .spyOn(database, 'put')
      .mockRejectedValue(new DOMException('The quota has been exceeded.', 'QuotaExceededError'));
    return { store, saving, put };
  };

  it('is told once, leaves a guard, is tried again by itself, and ends with the work kept', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    standInStorage();
    const told: string[] = [];
    const { store, saving, put } = failing(told);
    expect(saving.leave()).toBe(true);
    changeDocument(store, named('second'), 'Rename');
    await saving.flush();
    changeDocument(store, named('third'), 'Rename');
    await saving.flush();
    expect(told).toEqual(['failed']);
    expect(saving.leave()).toBe(false);
    await saving.flush();

    put.mockRestore();
    expect((await listSaves(database)).size).toBe(0);
    vi.advanceTimersByTime(8 * FIRST_RETRY);
    await saving.flush();
    expect(told).toEqual(['failed', 'kept again']);
    expect([...(await listSaves(database)).values()]).toMatchObject([{ name: 'third' }]);
    expect(saving.leave()).toBe(true);
  });

  it('leaves a guard also where the browser stores nothing at the last moment', async () => {
    standInStorage(true);
    const { store, saving } = failing([]);
    changeDocument(store, named('second'), 'Rename');
    expect(saving.leave()).toBe(false);
  });
});

describe('an edit made in the moment of leaving', () => {
  it('is kept although no writing ends any more, and taken up at the next start', async () => {
    const held = standInStorage();
    await writeSave(database, record('a', 1, 1, 'earlier'));
    const store = createDesignStore(named('earlier'));
    const options = { database, session: 'a', firstSequence: 2, adopted: null, write: writeDesign };
    const saving = startAutosave(store, { ...options, onFailure: () => undefined, onRecovery: () => undefined });
    running.push(saving);
    changeDocument(store, named('just now'), 'Rename');
    // the page is gone before its database answers
    const put = vi.spyOn(database, 'put').mockReturnValue(new Promise(() => undefined));
    expect(saving.leave()).toBe(true);
    put.mockRestore();
    expect(held.size).toBe(1);

    const other = await restoreWork(database, tab('b', 'a'), read);
    expect(other.work).toBeNull();
    expect(held.size).toBe(1);
    const restored = await restoreWork(database, tab('a'), read);
    expect(restored).toMatchObject({ work: { document: { name: 'just now' }, unsaved: true }, nextSequence: 3 });
    expect(held.size).toBe(0);
    expect([...(await listSaves(database)).values()]).toMatchObject([{ name: 'just now' }]);
  });

  it('is taken up where the database is full, and stays where it is', async () => {
    const held = standInStorage();
    held.set('legroom-last-moment/a', JSON.stringify(record('a', 1, 1, 'just now')));
    held.set('legroom-last-moment/b', 'torn');
    const put = vi.spyOn(database, 'put').mockRejectedValue(new DOMException('full', 'QuotaExceededError'));
    const restored = await restoreWork(database, tab('a'), read);
    put.mockRestore();
    expect(restored.work?.document.name).toBe('just now');
    expect([...held.keys()]).toEqual(['legroom-last-moment/a']);
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
