import { readFileSync } from 'node:fs';
import type { Locator } from '@playwright/test';
import { readDesign } from '../../src/document/read-design.ts';
import { STANDARD_SWEEP, type SweepDocument, sweepAxes, sweepOptions } from '../../src/document/sweep-file.ts';
import { sweptDesign } from '../../src/document/swept-design.ts';
import { FIGURE_COUNT } from '../../src/explore/layout-figures.ts';
import { sweepRows } from '../../src/explore/sweep.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { FIGURE_NAMES } from '../../src/terms/figures.ts';
import { degrees } from '../../src/terms/units.ts';
import { ExplorePage } from './explore-page.ts';
import { timeFirstPicture } from './first-picture.ts';
import { mainThreadTasks } from './main-thread.ts';
import { expect, test } from './quiet-page.ts';
import { pageMemory } from './renderer-memory.ts';
import { seriousFindings, sidewaysScroll, THEMES, takeTheme } from './serious-findings.ts';
import { withoutFileAccess } from './shape-page.ts';

/** Longest main-thread task while a sweep runs [ms]: the browser's own bound for a "long task". */
const LONGEST_TASK = 50;

/** Most memory of the page with its workers, the program itself included [bytes]. */
const MOST_MEMORY = 400e6;

const THIN_SPACE = '\u2009';
const STANDARD = `216${THIN_SPACE}000`;

test('the standard sweep is run, brushed, loaded from, and found again after a reload', async ({ page, browser }) => {
  test.setTimeout(600_000);
  const explore = new ExplorePage(page);
  await explore.open();
  await expect(page.getByText(`${STANDARD} layouts`)).toBeVisible();
  await expect(page.getByText(/about .* on \d+ workers?/)).toBeVisible({ timeout: 60_000 });

  await timeFirstPicture(page);
  let memory: number | null = null;
  // looking for elements by their roles keeps the page's own thread busy: nothing of it while tasks are timed
  const start = await explore.start.elementHandle();
  const tasks = await mainThreadTasks(browser, page, async () => {
    await start?.click();
    const whole = () => document.querySelector('[data-status="done"]') !== null;
    await page.waitForFunction(whole, null, { polling: 250, timeout: 500_000 });
    memory = await pageMemory(browser);
  });
  await explore.finished(STANDARD);
  const picture = await page.evaluate(() => window.firstPicture);
  const processor = Math.max(...tasks.map((task) => task.processor));
  const clock = Math.max(...tasks.map((task) => task.clock));
  console.log(
    `whole picture after ${picture?.toFixed(0)} ms; ${tasks.length} tasks, longest ${processor.toFixed(0)} ms of processor, ${clock.toFixed(0)} ms by the clock; ${((memory ?? 0) / 1e6).toFixed(0)} MB`,
  );
  console.log(await page.getByText(/All .* layouts are known/).textContent());
  expect(picture).not.toBeNull();
  expect(processor).toBeLessThan(LONGEST_TASK);
  if (process.platform === 'linux') expect(memory).not.toBeNull();
  expect(memory ?? 0).toBeLessThan(MOST_MEMORY);

  await expect(explore.front.getByText(/% less reach buys/)).toBeVisible();
  await expect(explore.heat.getByText('singular at every pose')).toBeVisible();
  const all = await explore.passing();
  expect(all).toBeGreaterThan(100_000);

  // a rectangle on the heat map is a range on two dimensions, and filters the other pictures
  const dots = await frontDots(explore);
  await explore.brushHeat([0.1, 0.1], [0.4, 0.3]);
  await expect.poll(() => explore.passing()).toBeLessThan(all / 10);
  expect(await explore.passing()).toBeGreaterThan(0);
  await expect(page.getByRole('spinbutton', { name: 'Base gap, at least' })).not.toHaveValue('1');
  await expect.poll(() => frontDots(explore)).not.toBe(dots);

  // pointing shows numbers and a ghost; Enter loads what the cursor is on
  await page.mouse.move(...(await explore.onHeat(0.26, 0.2)));
  await expect(explore.readout).toContainText(/Layout \d+\/\d+/);
  await expect(page.getByText('Dashed: the layout pointed at')).toBeVisible();
  const map = explore.heat.getByRole('button', { name: /Arrow keys move/ });
  await map.focus();
  await page.keyboard.press('ArrowRight');
  const heading = explore.readout.getByRole('heading');
  await expect(heading).not.toContainText('not measured yet');
  const name = (await heading.textContent()) ?? '';
  await page.keyboard.press('Enter');
  await expect(explore.undo).toHaveAccessibleName(`Undo: ${name}`);
  await explore.undo.click();
  await expect(explore.undo).toHaveAttribute('aria-disabled', 'true');

  await page.reload();
  await explore.enter();
  await explore.finished(STANDARD);
  await expect(page.getByText(/measured in/)).toHaveCount(0);
  expect(await explore.passing()).toBe(all);
});

/** Where the front's layouts are drawn in the scatter. */
const frontDots = (explore: ExplorePage): Promise<string> =>
  explore.front
    .locator('svg path')
    .evaluateAll((paths) => paths.map((path) => path.getAttribute('d') ?? '').sort((a, b) => b.length - a.length)[0]);

test('set-up, table, pictures and ranges of small sweeps', async ({ page }) => {
  await withoutFileAccess(page);
  const explore = new ExplorePage(page);
  await explore.open();
  await test.step('bad ranges and sweeps that are too large are told at the field', () => tellsBadSetups(explore));

  await explore.counts(7, 6, 5);
  await explore.start.click();
  await explore.finished('210');
  // the button that had the focus is gone, and none of the fields around took it
  expect(await page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('status');
  for (const box of ['can be built', 'home can be reached', 'not singular everywhere'])
    await page.getByLabel(box).uncheck();
  await expect.poll(() => explore.passing()).toBe(210);
  await test.step('the workers find what this thread finds, and hand it over as a table', () =>
    handsOverTable(explore));
  await test.step('pictures are saved as SVG and PNG', () => savesPictures(explore));
  await page.getByLabel('not singular everywhere').check();
  await test.step('the ranges point, load, brush and clear', () => rangesPoint(explore));
  await test.step('a fourth variable gets a slider at the heat map', () => cutsFourVariables(explore));
});

async function tellsBadSetups(explore: ExplorePage): Promise<void> {
  const { page } = explore;
  await explore.set('Base gap from', '90');
  await explore.set('Base gap to', '20');
  await expect(page.getByText('“to” is 20; it must be 90 (from) or more. Exchange from and to.')).toBeVisible();
  await expect(explore.start).toBeDisabled();
  await explore.set('Base gap to', '90');
  await expect(page.getByText(/The range is empty/)).toBeVisible();
  await explore.set('Base gap to', '130');
  await expect(page.getByText('130 deg is above the limit of 120 deg.', { exact: false })).toBeVisible();
  await page.keyboard.press('Escape');
  await explore.set('Base gap to', '110');
  await expect(explore.start).toBeEnabled();
  await explore.counts(1000, 1000, 1000);
  await expect(page.getByText(/1\s000\s000\s000 layouts would take .* here and .* of memory/)).toBeVisible();
  await expect(explore.start).toBeDisabled();
  await explore.counts(200, 200, 100);
  await explore.start.click();
  await expect(page.getByText(/4\s000\s000 layouts take about .* of memory\./)).toBeVisible();
  await page.getByRole('button', { name: 'Back' }).click();
  await expect(explore.start).toBeEnabled();
  await page.getByRole('button', { name: 'Standard sweep' }).click();
  await expect(page.getByText(`${STANDARD} layouts`)).toBeVisible();
}

/** Figures that are nothing but rounding in a layout that is singular everywhere. */
const ROUNDING: ReadonlySet<string> = new Set([
  'homeFirmness',
  'homeCondition',
  'worstFirmness',
  'meanFirmness',
  'forceFactor',
]);

/** Rows of a small sweep about the steady demo, measured on this side. */
function rowsFoundHere(counts: readonly number[]): Float64Array {
  const sweep: SweepDocument = {
    ...STANDARD_SWEEP,
    variables: STANDARD_SWEEP.variables.map((variable, n) => ({ ...variable, count: counts[n] })),
  };
  const steady = readDesign(readFileSync(new URL('../../public/demos/steady.json', import.meta.url)));
  const design = steady.ok ? sweptDesign(steady.value) : steady;
  if (!design.ok) throw new Error('the demo is made of rings');
  const indices = Array.from({ length: counts.reduce((product, count) => product * count, 1) }, (_, n) => n);
  return sweepRows({ design: design.value, grid: sweepAxes(sweep), options: sweepOptions(sweep) }, indices, neverStop);
}

async function handsOverTable(explore: ExplorePage): Promise<void> {
  const save = () => explore.page.getByRole('button', { name: 'CSV of all that pass' }).click();
  const [head, ...lines] = (await explore.download(save)).toString('utf8').trimEnd().split('\n');
  expect(head).toBe(
    'layout,baseGap_deg,platformGap_deg,radiusRatio,reach_cm3,tiltReach_cm3,usableReach_cm3,homeFirmness,homeCondition,worstFirmness,meanFirmness,forceFactor,jointTilt_deg,spareStroke_mm,buildGap_mm,buildable,homeReachable,singularEverywhere',
  );
  expect(lines).toHaveLength(210);
  const rows = rowsFoundHere([7, 6, 5]);
  const scales = FIGURE_NAMES.map((figure) =>
    /[rR]each$/.test(figure) ? 1e-3 : figure === 'jointTilt' ? degrees(1) : 1,
  );
  lines.forEach((line, index) => {
    const [layout, , , , ...cells] = line.split(',');
    expect(layout).toBe(String(index));
    const singular = rows[index * FIGURE_COUNT + 11] === 1;
    cells.slice(0, 10).forEach((cell, figure) => {
      // what rounding leaves of nothing, and its inverse, differ from one machine code to the next
      if (singular && ROUNDING.has(FIGURE_NAMES[figure])) return;
      const expected = rows[index * FIGURE_COUNT + figure] * scales[figure];
      if (cell === '') expect(Number.isFinite(expected)).toBe(false);
      else expect(Math.abs(Number(cell) - expected)).toBeLessThanOrEqual(1e-9 * Math.abs(expected));
    });
    expect(cells[11]).toBe(singular ? 'true' : 'false');
  });
}

async function savesPictures(explore: ExplorePage): Promise<void> {
  const { page } = explore;
  for (const title of ['Heat map', 'Front', 'Ranges']) {
    const choose = (kind: string) => async () => {
      await page.getByRole('button', { name: `Save the picture “${title}”` }).click();
      await page.getByRole('menuitem', { name: `Save as ${kind}` }).click();
    };
    const svg = (await explore.download(choose('SVG'))).toString('utf8');
    expect(svg).toMatch(/^<svg /);
    expect(svg).not.toMatch(/class=/);
    if (title !== 'Ranges') expect(svg).toMatch(/preserveAspectRatio="none"[^>]* href="data:image\/png;base64,/);
    const png = await explore.download(choose('PNG'));
    expect(png.subarray(1, 4).toString('latin1')).toBe('PNG');
    expect(png.readUInt32BE(16)).toBeGreaterThan(400);
  }
}

async function rangesPoint(explore: ExplorePage): Promise<void> {
  const { page, ranges, readout } = explore;
  const plot = ranges.getByRole('button', { name: /Arrow keys go along the front/ });
  // the keyboard first: along the front, then none
  await plot.focus();
  await page.keyboard.press('ArrowUp');
  await expect(readout).toContainText(/Layout \d/);
  await expect(page.getByText('Dashed: the layout pointed at')).toBeVisible();
  const first = await readout.getByRole('heading').textContent();
  await page.keyboard.press('ArrowLeft');
  await expect(readout.getByRole('heading')).not.toHaveText(first ?? '');
  await page.keyboard.press('Escape');
  await expect(readout).toContainText('Point at a layout');

  const line = await lineUnder(explore, plot);
  await expect(readout.getByRole('heading')).not.toContainText('not measured yet');
  const name = (await readout.getByRole('heading').textContent()) ?? '';
  await page.mouse.click(...line);
  await expect(explore.undo).toHaveAccessibleName(`Undo: ${name}`);
  await explore.undo.click();

  // the upper half of the base gap, then all of it again
  const passing = await explore.passing();
  const box = await plot.boundingBox();
  if (!box) throw new Error('The ranges are not on screen.');
  const axis = box.x + box.width / (await columnsOf(ranges)) / 2;
  await page.mouse.move(axis, box.y + 0.3 * box.height);
  await page.mouse.down();
  await page.mouse.move(axis, box.y + 0.7 * box.height, { steps: 4 });
  await page.mouse.up();
  await expect.poll(() => explore.passing()).toBeLessThan(passing);
  await page.getByRole('button', { name: 'Clear ranges' }).click();
  await expect.poll(() => explore.passing()).toBe(passing);
}

const columnsOf = (ranges: Locator): Promise<number> => ranges.getByRole('spinbutton', { name: /, at most$/ }).count();

/** Moves the pointer down between the first two axes until it points at a layout; where that is. */
async function lineUnder({ page, ranges, readout }: ExplorePage, plot: Locator): Promise<readonly [number, number]> {
  const box = await plot.boundingBox();
  if (!box) throw new Error('The ranges are not on screen.');
  const x = box.x + box.width / (await columnsOf(ranges));
  for (let y = box.y + 32; y < box.y + box.height - 6; y += 6) {
    await page.mouse.move(x, y);
    if (/Layout \d/.test((await readout.textContent()) ?? '')) return [x, y];
  }
  throw new Error('No line between the first two axes.');
}

async function cutsFourVariables(explore: ExplorePage): Promise<void> {
  const { page } = explore;
  await explore.counts(4, 4, 3);
  await page.getByRole('button', { name: 'Add a variable' }).click();
  await explore.set('Turn, number of values', '3');
  await explore.start.click();
  await explore.finished('144');
  const cells = () =>
    explore.heat
      .locator('canvas')
      .evaluate((canvas) => (canvas instanceof HTMLCanvasElement ? canvas.toDataURL() : ''));
  for (const name of ['Radius ratio', 'Turn']) {
    const before = await cells();
    await page.getByRole('slider', { name: `${name} of the heat map, slider` }).press('End');
    await expect.poll(cells).not.toBe(before);
  }
}

test.describe('a sweep under way', () => {
  test.use({ expectedMessages: [/pulled the plug/] });

  test('is paused, left by a reload, resumed, survives a worker that dies, and is cancelled', async ({ page }) => {
    const explore = new ExplorePage(page);
    const bar = page.getByRole('progressbar', { name: 'Layouts measured' });
    const known = () => bar.evaluate((element) => (element instanceof HTMLProgressElement ? element.value : -1));
    await explore.open();
    await explore.counts(30, 30, 30);
    await explore.start.click();
    await expect(page.getByText(/\d measured, .* left/)).toBeVisible();
    await page.getByRole('button', { name: 'Pause' }).click();
    await expect(page.getByText(/^Paused at/)).toBeVisible();
    await page.waitForTimeout(1000);
    const before = await known();
    expect(before).toBeGreaterThan(0);
    expect(before).toBeLessThan(27_000);
    await page.reload();
    await explore.enter();
    await expect(page.getByText(/^Paused at/)).toBeVisible();
    await expect.poll(known).toBe(before);
    await page.getByRole('button', { name: 'Resume' }).click();
    await expect.poll(known).toBeGreaterThan(before);

    const worker = page.workers().find((candidate) => /explore\.worker/.test(candidate.url()));
    if (!worker) throw new Error('No worker measures.');
    await worker.evaluate(() => {
      setTimeout(() => {
        throw new Error('pulled the plug');
      });
    });
    await expect(explore.notices).toContainText('stopped unexpectedly and was started again');
    await explore.finished(`27${THIN_SPACE}000`);
    // what was kept before the reload was not measured again
    await expect(
      page.getByText(`${(27_000 - before).toLocaleString('en').replace(',', THIN_SPACE)} measured in`),
    ).toBeVisible();

    await explore.counts(60, 60, 60);
    await explore.start.click();
    await expect(page.getByText(/\d measured, .* left/)).toBeVisible();
    await page.getByRole('button', { name: 'Cancel' }).click();
    await expect(page.getByText(/^Partial: cancelled at/)).toBeVisible();
    await expect(page.getByRole('button', { name: 'Go on' })).toBeVisible();
  });
});

test('full storage is told and the sweep goes on; a design with free points is told why it cannot be swept', async ({
  page,
}) => {
  await page.addInitScript(() => {
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (value: unknown, key?: IDBValidKey) {
      if (value instanceof Float64Array) throw new DOMException('no room', 'QuotaExceededError');
      return put.call(this, value, key);
    };
  });
  const explore = new ExplorePage(page);
  await explore.open();
  await explore.counts(12, 12, 12);
  await explore.start.click();
  await expect(explore.notices).toContainText("The browser's storage is full.");
  await explore.finished('1728');
  await expect(page.getByText('Not kept: these results end with the page.')).toBeVisible();

  await page.getByRole('button', { name: 'Shape' }).click();
  await page.getByRole('radio', { name: 'Points' }).first().check({ force: true });
  await explore.enter();
  await expect(page.getByText(/This design cannot be swept\..*Give both plates as rings/)).toBeVisible();
  await expect(page.getByRole('button', { name: /^(Start the sweep|Sweep the present design)$/ })).toBeDisabled();
});

test('holes are listed, ranked, loaded and searched; the optimiser finds the known best condition', async ({
  page,
}) => {
  const explore = new ExplorePage(page);
  await explore.open();
  await test.step('holes', () => listsHoles(explore));
  await test.step('optimiser', () => findsBestCondition(explore));
});

test('the figures of a layout open how they are computed, with their own numbers', async ({ page }) => {
  const explore = new ExplorePage(page);
  await explore.open();
  await page.getByRole('button', { name: 'How the figures of a layout are computed' }).click();
  const how = page.getByRole('dialog', { name: 'How the figures of a layout are computed' });
  await expect(how).toContainText(/σ₆ of J .* characteristic length: 0\.681, and condition σ₁ \/ σ₆: 3\.30/);
  await expect(how).toContainText(/worst tilt of 10 deg: \d+ cm³/);
});

async function listsHoles(explore: ExplorePage): Promise<void> {
  const { page } = explore;
  await page.getByRole('tab', { name: 'Holes' }).click();
  const moves = page.getByRole('region', { name: 'Next best hole' });
  await expect(moves.getByRole('row')).toHaveCount(10);
  await page.getByRole('button', { name: 'List them all' }).click();
  await expect(page.getByText(/^(\S+) of \1 measured\.$/)).toBeVisible({ timeout: 60_000 });
  const list = page.getByRole('region', { name: 'Hole choices' });
  const first = list.getByRole('row').nth(1);
  await expect(first).toContainText('1');
  await first.getByRole('button').press('Enter');
  await expect(explore.undo).toHaveAccessibleName(/^Undo: Holes \d+(\.\d+)?\/\d+(\.\d+)? deg, turn/);
  await explore.undo.click();

  await moves.getByRole('button', { name: 'Load: Base pairs one hole out' }).click();
  await expect(explore.undo).toHaveAccessibleName('Undo: Base pairs one hole out');
  await explore.undo.click();

  await explore.set('Rounds of the search', '2');
  await page.getByRole('button', { name: 'Search', exact: true }).click();
  const found = page.getByRole('region', { name: 'Single holes found' });
  await expect(found.getByText('Holes of legs 1 to 6')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Search', exact: true })).toBeVisible({ timeout: 60_000 });
  await found.getByRole('button', { name: 'Load as free points' }).click();
  await expect(explore.undo).toHaveAccessibleName('Undo: Single holes');
  await explore.undo.click();
}

async function findsBestCondition(explore: ExplorePage): Promise<void> {
  const { page } = explore;
  await page.getByRole('tab', { name: 'Best layout' }).click();
  await page.getByLabel('Free a variable').selectOption({ label: 'Home height' });
  await explore.set('Home height from', '30');
  await explore.set('Home height to', '250');
  await page.getByLabel('Free a variable').selectOption({ label: 'Base radius' });
  await page.getByRole('button', { name: 'Remove Platform gap' }).click();
  await page.getByLabel('Goal', { exact: true }).selectOption({ label: 'Condition at home' });
  await page.getByRole('button', { name: 'Remove the bound of worst firmness' }).click();
  await explore.set('Rounds of the optimiser', '150');
  await page.getByRole('button', { name: 'Look for the best' }).click();
  const found = page.getByRole('region', { name: 'Best layout found' });
  await expect(found.getByText('best found')).toBeVisible({ timeout: 120_000 });
  // sqrt 2 (K. H. Pittens and R. P. Podhorodeski 1993: memory; derived), where R cos d = r and h = R sin d
  await expect(found.getByRole('row', { name: /^Condition at home/ })).toContainText('1.41');
  await expect(page.getByRole('img', { name: 'Best merit after each round' })).toBeVisible();
  await found.getByRole('button', { name: 'Load' }).click();
  await expect(explore.undo).toHaveAccessibleName(/^Undo: Layout/);

  await explore.set('Rounds of the optimiser', '2000');
  await explore.set('Seed of the optimiser', '7');
  await page.getByRole('button', { name: 'Look for the best' }).click();
  await page.getByRole('button', { name: 'Cancel' }).click();
  await expect(page.getByText(/cancelled after \d+ rounds/)).toBeVisible();
}

test('nothing that axe calls serious in any of the three tasks, light and dark, and no sideways scroll @every-size', async ({
  page,
}) => {
  const explore = new ExplorePage(page);
  await explore.open();
  await explore.counts(6, 6, 6);
  await explore.start.click();
  await explore.finished('216');
  for (const { theme, at } of THEMES) {
    await takeTheme(page, theme);
    for (const task of ['Sweep', 'Holes', 'Best layout']) {
      await page.getByRole('tab', { name: task }).click();
      // between the tasks only these two parts change
      const within = task === 'Sweep' ? [] : ['[aria-label="Set-up"]', '[aria-label="Pictures"]'];
      expect(await seriousFindings(page, { at, within }), `${task}, ${theme}`).toEqual([]);
      expect(await sidewaysScroll(page), task).toBeLessThanOrEqual(0);
    }
  }
});
