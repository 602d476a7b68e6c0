import type { Page } from '@playwright/test';
import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

/** Longest main-thread task that a drag may hold [ms]: the browser's own bound for a "long task". */
const LONGEST_TASK = 50;

/** [ms] */
const DRAG_TIME = 5000;

/** Longest time to the first view [ms]. */
const FIRST_VIEW = 2000;

/** Other programs on the machine stretch whatever runs beside them; the best of this many tries is what the page itself takes. */
const TRIES = 3;

declare global {
  interface Window {
    longTasks: { readonly start: number; readonly duration: number }[];
    reachesSeen: Set<string>;
  }
}

interface Drag {
  readonly moves: number;
  readonly frames: number;
  readonly reaches: number;
  readonly longTasks: readonly number[];
}

/** Watches for long tasks from the start, and for every reach that the verdict strip states. */
async function watch(shape: ShapePage): Promise<void> {
  await shape.page.evaluate(() => {
    window.longTasks = [];
    window.reachesSeen = new Set();
    new PerformanceObserver((list) => {
      for (const { startTime: start, duration } of list.getEntries()) window.longTasks.push({ start, duration });
    }).observe({ type: 'longtask' });
  });
  await shape.reachCell.evaluate((element) => {
    const note = () => {
      const stated = /[\d.,\s]+cm³/.exec(element.textContent)?.[0];
      if (stated) window.reachesSeen.add(stated);
    };
    new MutationObserver(note).observe(element, { childList: true, subtree: true, characterData: true });
  });
}

/** Drags the platform radius to and fro for {@link DRAG_TIME}. */
async function drag(shape: ShapePage): Promise<Drag> {
  const { page } = shape;
  const pull = await shape.grab('Platform radius', 0.32);
  const frames = await shape.framesDrawn();
  const start = await page.evaluate(() => {
    window.reachesSeen.clear();
    return performance.now();
  });
  const began = Date.now();
  let moves = 0;
  for (; Date.now() - began < DRAG_TIME; moves++) await pull(0.32 + 0.12 * Math.sin((Date.now() - began) / 400));
  const { stop, reaches, tasks } = await page.evaluate(() => ({
    stop: performance.now(),
    reaches: window.reachesSeen.size,
    tasks: window.longTasks,
  }));
  const drawn = (await shape.framesDrawn()) - frames;
  await page.mouse.up();
  const during = tasks.filter((task) => task.start + task.duration > start && task.start < stop);
  return { moves, frames: drawn, reaches, longTasks: during.map(({ duration }) => duration) };
}

const isSmooth = ({ longTasks }: Drag): boolean => longTasks.every((duration) => duration <= LONGEST_TASK);

test('five seconds of dragging hold no long task, and reach and drawing follow', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.settled();
  await watch(shape);
  const drags: Drag[] = [];
  while (drags.length < TRIES && !drags.some(isSmooth)) {
    const done = await drag(shape);
    drags.push(done);
    const { moves, frames, reaches, longTasks } = done;
    const long = longTasks.map((duration) => duration.toFixed(0)).join(' ');
    console.log(`${moves} moves, ${frames} frames, ${reaches} reaches shown, long tasks [ms]: ${long || 'none'}`);
    await expect(shape.undo).toHaveAccessibleName(/^Undo: Platform radius/);
    await shape.settled();
  }
  const best = drags.find(isSmooth) ?? drags[0];
  expect(best.longTasks).toEqual([]);
  // drawn in software a frame takes a while; what counts is that every one shows the newest state
  expect(best.moves).toBeGreaterThan(25);
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

test('the first view shows the steady demo with its reach within two seconds', async ({ page, browser, baseURL }) => {
  await wakeDrawing(page);
  const times: number[] = [];
  while (times.length < TRIES && !times.some((time) => time < FIRST_VIEW)) {
    // nothing cached, nothing kept: a first visit
    const context = await browser.newContext({ ...(baseURL ? { baseURL } : {}), serviceWorkers: 'block' });
    const visit = await context.newPage();
    times.push(await timeToFirstView(visit));
    console.log(`first view after ${times.at(-1)?.toFixed(0)} ms`);
    await expect(new ShapePage(visit).designName).toHaveValue('Wave table, steady');
    await context.close();
  }
  expect(Math.min(...times)).toBeLessThan(FIRST_VIEW);
});
