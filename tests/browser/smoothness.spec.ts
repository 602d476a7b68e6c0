import type { Browser, Page } from '@playwright/test';
import { type MainThreadTask, mainThreadTasks } from './main-thread.ts';
import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

/** Longest main-thread task that a drag may hold [ms]: what browsers call a long task. */
const LONGEST_TASK = 50;

/** [ms] */
const DRAG_TIME = 5000;

/** Longest time to the first view [ms]. */
const FIRST_VIEW = 2000;

/** Other programs on the machine stretch whatever runs beside them; the best of this many tries is what the page itself takes. */
const TRIES = 4;

declare global {
  interface Window {
    reachesSeen: Set<string>;
  }
}

interface Drag {
  readonly moves: number;
  readonly frames: number;
  readonly reaches: number;
  readonly tasks: readonly MainThreadTask[];
}

/** Notes every reach that the verdict strip states. */
const watchReach = (shape: ShapePage): Promise<void> =>
  shape.reachCell.evaluate((element) => {
    window.reachesSeen = new Set();
    const note = () => {
      const stated = /[\d.,\s]+cm³/.exec(element.textContent)?.[0];
      if (stated) window.reachesSeen.add(stated);
    };
    new MutationObserver(note).observe(element, { childList: true, subtree: true, characterData: true });
  });

/** Drags the platform radius to and fro for {@link DRAG_TIME}. */
async function drag(shape: ShapePage, browser: Browser): Promise<Drag> {
  const { page } = shape;
  const pull = await shape.grab('Platform radius', 0.32);
  const before = await shape.framesDrawn();
  await page.evaluate(() => window.reachesSeen.clear());
  let moves = 0;
  const tasks = await mainThreadTasks(browser, page, async () => {
    const began = Date.now();
    for (; Date.now() - began < DRAG_TIME; moves++) await pull(0.32 + 0.12 * Math.sin((Date.now() - began) / 400));
  });
  const reaches = await page.evaluate(() => window.reachesSeen.size);
  const frames = (await shape.framesDrawn()) - before;
  await page.mouse.up();
  return { moves, frames, reaches, tasks };
}

const longest = (times: readonly number[]): number => times.reduce((most, time) => Math.max(most, time), 0);

/*
 * What counts is the processor time of each task: by the clock a task also holds whatever other programs took from it, and
 * tests share their machine. Both are printed; on a quiet machine they are the same.
 */
test('five seconds of dragging hold no long task, and reach and drawing follow', async ({ page, browser }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.settled();
  await watchReach(shape);
  const drags: Drag[] = [];
  const isSmooth = ({ tasks }: Drag) => longest(tasks.map(({ processor }) => processor)) <= LONGEST_TASK;
  while (drags.length < TRIES && !drags.some(isSmooth)) {
    const done = await drag(shape, browser);
    drags.push(done);
    const { moves, frames, reaches, tasks } = done;
    const processor = longest(tasks.map((task) => task.processor)).toFixed(0);
    const clock = longest(tasks.map((task) => task.clock)).toFixed(0);
    console.log(
      `${moves} moves, ${frames} frames, ${reaches} reaches; longest task ${processor} ms of the processor, ${clock} ms by the clock`,
    );
    await expect(shape.undo).toHaveAccessibleName(/^Undo: Platform radius/);
    await shape.settled();
  }
  const best = drags.find(isSmooth) ?? drags[0];
  expect(best.tasks.map(({ processor }) => processor).filter((time) => time > LONGEST_TASK)).toEqual([]);
  // drawn in software a frame takes a while; what counts is that every one shows the newest state
  expect(best.frames).toBeGreaterThan(0.6 * best.moves);
  expect(best.reaches).toBeGreaterThan(0.4 * best.moves);
});

/** Time from the start of loading until the 3D view is drawn and the reach is stated [ms]. */
async function timeToFirstView(page: Page): Promise<number> {
  await page.addInitScript(() => {
    const look = () => {
      const drawn = document.querySelector('canvas[data-frames]') !== null;
      const stated = /\d cm³/.test(document.body?.textContent ?? '');
      if (drawn && stated) document.documentElement.dataset['firstView'] = String(performance.now());
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  await page.goto('/');
  await expect(page.locator('html')).toHaveAttribute('data-first-view', /\d/);
  return Number(await page.locator('html').getAttribute('data-first-view'));
}

/** Browsers start the process that draws with the first page that needs it; that is no page's own time. */
async function wakeDrawing(page: Page): Promise<void> {
  await page.evaluate(() =>
    document.createElement('canvas').getContext('webgl2')?.getExtension('WEBGL_lose_context')?.loseContext(),
  );
}

/** How much longer things take now than with nothing else to do: clock over processor time of some arithmetic. */
function busyness(): number {
  const start = process.cpuUsage();
  const began = performance.now();
  let sum = 0;
  for (let n = 0; n < 2e8; n++) sum += n % 7;
  const { user, system } = process.cpuUsage(start);
  return sum > 0 ? Math.max(1, (1000 * (performance.now() - began)) / (user + system)) : 1;
}

/* As with the drag: by the clock on a quiet machine; on a busy one less what the others take, or by the main thread's own time. */
test('the first view shows the steady demo with its reach within two seconds', async ({ page, browser, baseURL }) => {
  await wakeDrawing(page);
  const times: number[] = [];
  while (times.length < TRIES && !times.some((time) => time < FIRST_VIEW)) {
    // nothing cached, nothing kept: a first visit
    const context = await browser.newContext({ ...(baseURL ? { baseURL } : {}), serviceWorkers: 'block' });
    const visit = await context.newPage();
    const busyBefore = busyness();
    let clock = 0;
    const tasks = await mainThreadTasks(browser, visit, async () => {
      clock = await timeToFirstView(visit);
    });
    const busy = Math.max(busyBefore, busyness());
    const processor = tasks.reduce((sum, task) => sum + task.processor, 0);
    const said = [`${clock.toFixed(0)} ms by the clock`, `${processor.toFixed(0)} ms of the processor`];
    console.log(`first view after ${said.join(', ')}; things take ${busy.toFixed(1)} times as long as when quiet`);
    times.push(Math.min(clock / busy, processor));
    await expect(new ShapePage(visit).designName).toHaveValue('Wave table, steady');
    await context.close();
  }
  expect(Math.min(...times)).toBeLessThan(FIRST_VIEW);
});
