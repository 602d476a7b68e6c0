import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

/** Longest main-thread task that a drag may hold [ms]: the browser's own bound for a "long task". */
const LONGEST_TASK = 50;

const DRAG_TIME = 5000;

declare global {
  interface Window {
    longTasks: { readonly start: number; readonly duration: number; readonly what: string }[];
    reachesSeen: Set<string>;
  }
}

test('five seconds of dragging hold no long task, and the reach follows', async ({ page }) => {
  await page.addInitScript(() => {
    window.longTasks = [];
    new PerformanceObserver((list) => {
      for (const { startTime: start, duration, name: what } of list.getEntries()) {
        window.longTasks.push({ start, duration, what });
      }
    }).observe({ type: 'longtask' });
  });
  const shape = new ShapePage(page);
  await shape.open();
  await shape.settled();

  const cell = shape.verdict.getByRole('button', { name: /^Reach, (home|present) orientation/ });
  await cell.evaluate((element) => {
    window.reachesSeen = new Set();
    const note = () => {
      const stated = /[\d.,\s]+cm³/.exec(element.textContent)?.[0];
      if (stated) window.reachesSeen.add(stated);
    };
    new MutationObserver(note).observe(element, { childList: true, subtree: true, characterData: true });
  });
  const pull = await shape.grab('Platform radius', 0.32);
  const began = Date.now();
  const start = await page.evaluate(() => performance.now());
  const framesBefore = await shape.framesDrawn();
  let moves = 0;
  while (Date.now() - began < DRAG_TIME) {
    await pull(0.32 + 0.12 * Math.sin((Date.now() - began) / 400));
    moves += 1;
  }
  const stop = await page.evaluate(() => performance.now());
  const framesAfter = await shape.framesDrawn();
  const whileDragging = await page.evaluate(() => window.reachesSeen.size);
  await page.mouse.up();

  const tasks = await page.evaluate(() => window.longTasks);
  const during = tasks.filter((task) => task.start + task.duration > start && task.start < stop);
  console.log(
    `${moves} moves, ${framesAfter - framesBefore} frames, ${whileDragging} reaches shown, long tasks: ${during.map(({ duration }) => duration.toFixed(0)).join(' ') || 'none'}`,
  );
  expect(moves).toBeGreaterThan(50);
  expect(framesAfter - framesBefore).toBeGreaterThan(20);
  expect(whileDragging).toBeGreaterThan(20);
  expect(during.filter(({ duration }) => duration > LONGEST_TASK)).toEqual([]);
  await expect(shape.undo).toHaveAccessibleName(/^Undo: Platform radius/);
});
