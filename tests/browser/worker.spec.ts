import { readFileSync } from 'node:fs';
import { readDesign } from '../../src/document/read-design.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { reachJobs } from '../../src/jobs/reach-jobs.ts';
import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

function steadyDemo() {
  const design = readDesign(readFileSync(new URL('../../public/demos/steady.json', import.meta.url), 'utf8'));
  if (!design.ok) throw new Error(design.fault.map(({ message }) => message).join(' '));
  return design.value;
}

/*
 * The worker's file of the production build is run twice in the browser: as a worker, and imported by the page itself, where
 * it answers the same messages on the main thread. Both must give the same numbers, bit for bit.
 */
test('a worker computes what the main thread computes', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  const url = page.workers()[0]?.url();
  if (!url) throw new Error('The page has no worker.');
  const { spec, home } = mechanismFromDocument(steadyDemo());
  const plain = (value: unknown): unknown =>
    JSON.parse(
      JSON.stringify(value, (_, part) =>
        ArrayBuffer.isView(part) ? { floats: [...new Float64Array(part.buffer)] } : part,
      ),
    );
  const asked = plain({ spec, R_BP: home.R_BP });

  const compare = async ({ url, asked }: { url: string; asked: unknown }) => {
    const revive = (value: unknown): unknown => {
      if (typeof value !== 'object' || value === null) return value;
      if (Array.isArray(value)) return value.map(revive);
      if ('floats' in value && Array.isArray(value.floats)) return Float64Array.from(value.floats);
      return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, revive(part)]));
    };
    const question = revive(asked);
    interface Line {
      listen(heard: (data: unknown) => void): void;
      send(message: unknown): void;
    }
    const call = (line: Line, job: string, extra: unknown[]) =>
      new Promise<unknown>((answer, fail) => {
        const id = `${job} ${Math.random()}`;
        line.listen((data) => {
          if (typeof data !== 'object' || data === null || !('id' in data) || data.id !== id) return;
          if ('type' in data && data.type === 'RAW' && 'value' in data) answer(data.value);
          else if (!('path' in data)) fail(new Error(JSON.stringify(data)));
        });
        const argumentList = [question, ...extra].map((value) => ({ type: 'RAW', value }));
        line.send({ id, type: 'APPLY', path: [job], argumentList });
      });
    const worker = new Worker(url, { type: 'module' });
    const apart: Line = {
      listen: (heard) => worker.addEventListener('message', ({ data }) => heard(data)),
      send: (message) => worker.postMessage(message),
    };
    await import(url);
    const here: Line = {
      listen: (heard) => window.addEventListener('message', ({ data }) => heard(data)),
      send: (message) => window.postMessage(message, '*'),
    };
    const text = (value: unknown) =>
      JSON.stringify(value, (_, part) => (ArrayBuffer.isView(part) ? Array.from(new Uint8Array(part.buffer)) : part));
    const results: { job: string; equal: boolean; size: number; volume: unknown }[] = [];
    for (const [job, extra] of [
      ['summary', []],
      ['picture', ['coarse']],
      ['picture', ['fine']],
      ['tilted', [{ tilt: 0.15, yaw: 0.1 }]],
    ] as const) {
      const [one, other] = [await call(apart, job, [...extra]), await call(here, job, [...extra])];
      const volume = typeof one === 'object' && one !== null && 'volume' in one ? one.volume : null;
      results.push({ job, equal: text(one) === text(other), size: text(one).length, volume });
    }
    worker.terminate();
    return results;
  };
  const results = await page.evaluate(compare, { url, asked });
  expect(results.map(({ job, equal }) => ({ job, equal }))).toEqual([
    { job: 'summary', equal: true },
    { job: 'picture', equal: true },
    { job: 'picture', equal: true },
    { job: 'tilted', equal: true },
  ]);
  for (const { size } of results) expect(size).toBeGreaterThan(300);

  // and the same source run outside of the browser agrees but for the last bits of its sines
  const outside = reachJobs.summary({ spec, R_BP: home.R_BP }).volume;
  expect(Number(results[0].volume) / outside).toBeCloseTo(1, 9);
});

test.describe('a worker that dies', () => {
  test('is replaced, and the page says so', async ({ page }) => {
    const shape = new ShapePage(page);
    await shape.open();
    await shape.settled();
    const before = await shape.reachNumber();
    for (const worker of page.workers()) {
      await worker.evaluate(() => {
        setTimeout(() => {
          throw new Error('dies on purpose');
        });
      });
    }
    await expect(shape.notices).toContainText('was started again');
    await shape.enter('Longest leg', '230');
    expect(await shape.reachNumber()).toBeGreaterThan(before);
  });
});
