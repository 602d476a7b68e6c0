import { ExplorePage } from '../browser/explore-page.ts';
import { expect, test } from '../browser/quiet-page.ts';
import { ShapePage, withoutFileAccess } from '../browser/shape-page.ts';
import { countWebGl, type Held, held } from './held.ts';

/** Rounds, and what is done in each: in all 200 drags, 50 sweeps, 100 files, 20 lost contexts, 100 changes of place. */
const ROUNDS = 10;
const EACH = { drags: 20, sweeps: 5, files: 10, losses: 2, places: 10 } as const;

/** How far the heap may move over the second half of the rounds. */
const HEAP_ROOM = 0.1;

test.use({ expectedMessages: [/THREE.WebGLRenderer: Context (Lost|Restored)/] });

test('hours of use leave the page as large as it was', async ({ page }) => {
  await countWebGl(page);
  await withoutFileAccess(page);
  const shape = new ShapePage(page);
  const explore = new ExplorePage(page);
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  await shape.open();
  const { text } = await shape.download();

  const drag = async (n: number) => {
    const pull = await shape.grab('Base radius', 0.45);
    for (let step = 1; step <= 6; step++) await pull(0.45 + (0.02 + 0.002 * (n % 10)) * step);
    await page.mouse.up();
  };
  const sweep = async (n: number) => {
    // never the same sweep twice, so that each is measured
    const [base, platform, ratio] = [5 + (n % 7), 5 + (Math.floor(n / 7) % 8), 2];
    await explore.counts(base, platform, ratio);
    await page.getByRole('button', { name: /^(Start|Continue|Go on with) the sweep$/ }).click();
    await expect(page.getByText(`All ${base * platform * ratio} layouts are known`)).toBeVisible();
  };
  const openFile = async (n: number) => {
    await shape.drop(['design.json', text.replace('Wave table, steady', `Design ${n}`)]);
    await expect(shape.designName).toHaveValue(`Design ${n}`);
  };
  const loseContext = async () => {
    const loss = await shape.canvas.evaluateHandle((canvas) =>
      canvas instanceof HTMLCanvasElement ? canvas.getContext('webgl2')?.getExtension('WEBGL_lose_context') : null,
    );
    await loss.evaluate((extension) => extension?.loseContext());
    await expect(shape.view).toContainText('The 3D drawing was lost');
    await loss.evaluate((extension) => extension?.restoreContext());
    await expect(shape.view).not.toContainText('The 3D drawing was lost');
    await loss.dispose();
  };

  const samples: Held[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    for (let n = 0; n < EACH.drags; n++) await drag(n);
    for (let n = 0; n < EACH.files; n++) await openFile(EACH.files * round + n);
    for (let n = 0; n < EACH.losses; n++) await loseContext();
    for (let n = 0; n < EACH.places; n += 2) {
      await explore.enter();
      await page.getByRole('button', { name: 'Shape', exact: true }).click();
      await expect(shape.slider('Base radius')).toBeVisible();
    }
    await explore.enter();
    for (let n = 0; n < EACH.sweeps; n++) await sweep(EACH.sweeps * round + n);
    await page.getByRole('button', { name: 'Shape', exact: true }).click();
    await shape.settled();
    // notices leave by themselves, and what is computed late comes in
    await expect(shape.notices.getByText('Opened design.json')).toHaveCount(0, { timeout: 30_000 });
    const now = await held(page, session);
    samples.push(now);
    console.log(
      `round ${round + 1}: heap ${(now.heap / 2 ** 20).toFixed(2)} MiB, ${now.listeners} listeners, ${now.nodes} nodes, ${now.webgl} WebGL objects`,
    );
  }

  const half = samples.slice(ROUNDS / 2);
  const heaps = half.map(({ heap }) => heap);
  expect(Math.max(...heaps) / Math.min(...heaps)).toBeLessThan(1 + HEAP_ROOM);
  expect(new Set(half.map(({ listeners }) => listeners)).size, 'different numbers of listeners').toBe(1);
  expect(new Set(half.map(({ webgl }) => webgl)).size, 'different numbers of WebGL objects').toBe(1);
});
