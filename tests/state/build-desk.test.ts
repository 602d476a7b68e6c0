import { unzipSync } from 'fflate';
import { describe, expect, it, vi } from 'vitest';
import { DESIGN_IN_BUNDLE } from '../../src/build/bundle/bundle.ts';
import { DEMOS } from '../../src/document/demos.ts';
import { readDesign } from '../../src/document/read-design.ts';
import { previewJob, saveJob } from '../../src/jobs/build-jobs.ts';
import type { BuildService } from '../../src/jobs/build-workers.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { BuildDesk } from '../../src/state/build/build-desk.ts';
import { createDesignStore, openDocument } from '../../src/state/design/design-store.ts';
import { createSessionStore } from '../../src/state/session/session-store.ts';

const service = (): BuildService => ({
  preview: async (question) => ({ kind: 'done', value: previewJob(question) }),
  save: async (question) => ({ kind: 'done', value: await saveJob(question, neverStop) }),
  stopSaving: () => undefined,
});

function deskOf(parts: Partial<BuildService> = {}) {
  const design = createDesignStore(DEMOS.steady);
  const stores = { design, session: createSessionStore() };
  return { design, desk: new BuildDesk(stores, { ...service(), ...parts }, 'Legroom 0', () => '2026-01-31') };
}

describe('the desk of Build', () => {
  it('shows the sheets of the present design, and of the next one', async () => {
    const { design, desk } = deskOf();
    const end = desk.follow();
    await vi.waitFor(() => expect(desk.store.getState().preview?.sheets).toHaveLength(2));
    expect(desk.store.getState().preview?.sheets[0].warnings).toEqual([]);
    openDocument(design, DEMOS.even, 'Open', { fileName: null, saved: null });
    await vi.waitFor(() =>
      expect(desk.store.getState().preview?.sheets[0].warnings.join()).toContain('singular at every pose'),
    );
    end();
  });

  it('a choice is on the sheet at once, and both faces are two sheets more', async () => {
    const { desk } = deskOf();
    desk.choose({ hole: 8, faces: 'both' });
    await vi.waitFor(() => expect(desk.store.getState().preview?.sheets).toHaveLength(4));
    expect(desk.store.getState().preview?.sheets[0].warnings.join()).toContain('between indexed holes');
  });

  it('several formats are one zip with the design, which opens as the same design', async () => {
    const { desk } = deskOf();
    const file = await desk.write();
    expect(file?.name).toBe('Wave-table-steady.zip');
    const contents = unzipSync(file?.bytes ?? new Uint8Array());
    expect(readDesign(contents[DESIGN_IN_BUNDLE])).toEqual({ ok: true, value: DEMOS.steady });
    expect(Object.keys(contents)).toContain('Wave-table-steady-base.dxf');
    expect(desk.store.getState().saving).toMatchObject({ status: 'done', words: 'Wave-table-steady.zip' });
  });

  it('one file is saved as it is', async () => {
    const { desk } = deskOf();
    for (const id of ['dxf', 'pdf', 'csv'] as const) desk.tick(id, id === 'dxf');
    desk.setSides('platform');
    expect((await desk.write())?.name).toBe('Wave-table-steady-platform.dxf');
  });

  it('stopping leaves no file, and a failure says why', async () => {
    const stopped = deskOf({ save: async () => ({ kind: 'cancelled' }) }).desk;
    expect(await stopped.write()).toBeNull();
    expect(stopped.store.getState().saving?.status).toBe('cancelled');
    const failed = deskOf({ save: async () => ({ kind: 'failed', reason: 'No room.' }) }).desk;
    expect(await failed.write()).toBeNull();
    expect(failed.store.getState().saving).toMatchObject({ status: 'failed', words: 'No room.' });
  });
});
