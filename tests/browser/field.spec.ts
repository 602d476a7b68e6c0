import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { judgementInputs } from '../../src/document/judgement-inputs.ts';
import { readDesign } from '../../src/document/read-design.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { fieldJobs } from '../../src/jobs/field-jobs.ts';
import { reachJobs } from '../../src/jobs/reach-jobs.ts';
import { reachFromHome } from '../../src/reach/columns/reach-measure.ts';
import { againstReach } from '../../src/reach/columns/usable-share.ts';
import { expect, test } from './quiet-page.ts';
import { seriousFindings, sidewaysScroll, THEMES, takeTheme } from './serious-findings.ts';
import { ShapePage } from './shape-page.ts';

/** The usable volume of the steady demo without floors [mm^3]. */
function steadyUsable(): number {
  const design = readDesign(readFileSync(new URL('../../public/demos/steady.json', import.meta.url), 'utf8'));
  if (!design.ok) throw new Error(design.fault.map(({ message }) => message).join(' '));
  const mechanism = mechanismFromDocument(design.value);
  const settings = judgementInputs(design.value, mechanism);
  const question = { spec: mechanism.spec, R_BP: mechanism.home.R_BP };
  return againstReach(fieldJobs.usable({ ...question, settings }, []), reachFromHome(reachJobs.summary(question)))
    .usable;
}

const QUANTITIES = [
  ['condition', /\d/],
  ['toolError', /mm/],
  ['stiffness', /N\/mm/],
  ['legForce', /in N,/],
  ['leastPush', /in N,/],
  ['clearance', /mm/],
  ['shortMargin', /mm/],
  ['longMargin', /mm/],
  ['baseMargin', /deg/],
  ['platformMargin', /deg/],
] as const;

const colourBy = (page: Page) => page.getByRole('combobox', { name: 'Colour by' });
const cutSlider = (page: Page) => page.getByRole('slider', { name: 'Position of the cut' });
const usableCell = (shape: ShapePage) => shape.verdict.getByRole('button', { name: /^Usable/ });

async function openGroup(page: Page, name: RegExp): Promise<void> {
  const heading = page.getByRole('button', { name }).first();
  await heading.scrollIntoViewIfNeeded();
  if ((await heading.getAttribute('aria-expanded')) === 'false') await heading.click();
}

/** The usable volume that the strip states for the design as it is now [cm3]. */
async function usableNumber(shape: ShapePage): Promise<number> {
  const cell = usableCell(shape);
  await expect(cell).toHaveAttribute('data-stale', 'false');
  await expect(cell).toContainText('cm³');
  return Number(/([\d.]+) cm³/.exec((await cell.textContent()) ?? '')?.[1]);
}

test('each quantity colours the reach, with a scale in its unit', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.settled();
  const legend = page.getByRole('figure', { name: /^Colours of the reach/ });
  await colourBy(page).selectOption('stiffness');
  await expect(legend).toContainText('does not say how stiff its legs are');
  await openGroup(page, /^Stiffness/);
  await page.getByRole('button', { name: /^Start with 1000/ }).click();
  const pictures = new Set<string>();
  for (const [quantity, unit] of QUANTITIES) {
    await colourBy(page).selectOption(quantity);
    await expect(legend.getByRole('img', { name: unit })).toBeVisible();
    await expect(async () => {
      const picture = (await shape.canvas.screenshot()).toString('base64');
      expect(pictures.has(picture)).toBe(false);
      pictures.add(picture);
    }).toPass();
  }
});

test('a cut follows the keyboard and the mouse, and shows where legs change from push to pull', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await colourBy(page).selectOption('toolError');
  await page.getByRole('button', { name: 'Cut the reach open' }).click();
  const slider = cutSlider(page);
  await expect(slider).toHaveAttribute('aria-valuetext', 'y = 0.0 mm');
  await shape.settled();
  const atTool = await shape.canvas.screenshot();
  await slider.focus();
  await page.keyboard.press('PageUp');
  await page.keyboard.press('ArrowRight');
  const [, place] = /y = ([\d.]+) mm/.exec((await slider.getAttribute('aria-valuetext')) ?? '') ?? [];
  expect(Number(place)).toBeGreaterThan(1);
  await shape.settled();
  expect((await shape.canvas.screenshot()).equals(atTool)).toBe(false);
  await page.getByRole('button', { name: 'At the tool' }).click();
  await expect(slider).toHaveAttribute('aria-valuetext', 'y = 0.0 mm');

  // from above a cut across x has its arrow over the middle of its upper edge
  await page.getByRole('radio', { name: 'Square to x' }).check();
  await page.getByRole('button', { name: 'Top view' }).click();
  await shape.settled();
  const box = await shape.canvas.boundingBox();
  if (!box) throw new Error('no canvas');
  const arrow = await firstGrip(page, shape, box.x + box.width / 2 + 14, box.y + 60, box.y + box.height / 2 - 30);
  await page.mouse.down();
  await page.mouse.move(arrow.x + 40, arrow.y, { steps: 4 });
  await page.mouse.up();
  await expect(slider).toHaveAttribute('aria-valuetext', /^x = [1-9]/);
  await expect(page.getByRole('button', { name: 'At the tool' })).toHaveAttribute('aria-pressed', 'false');

  await openGroup(page, /^Load and forces/);
  await shape.enter('Outside force x', '6');
  await shape.settled();
  const before = await shape.canvas.screenshot();
  await page.getByRole('checkbox', { name: /^Show where a leg’s force changes sign/ }).check();
  await expect(page.getByText(/^It changes sign in the reach for legs/).first()).toBeVisible();
  await shape.settled();
  expect((await shape.canvas.screenshot()).equals(before)).toBe(false);
  await page.getByRole('combobox', { name: 'Zero force of' }).selectOption('1');
  await expect(page.getByText(/^The force of leg 1 keeps its sign/).first()).toBeVisible();
});

/** Goes down a line with the mouse until something can be grabbed there. */
async function firstGrip(page: Page, shape: ShapePage, x: number, from: number, to: number) {
  for (let y = from; y < to; y += 3) {
    await page.mouse.move(x, y);
    if ((await shape.canvas.evaluate((canvas) => canvas.style.cursor)) === 'move') return { x, y };
  }
  throw new Error('Nothing to grab there.');
}

test('floors change what is usable, and say when nothing is', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  const all = await usableNumber(shape);
  // what the worker of the built page found is what the same function finds here
  expect(all).toBe(Number((steadyUsable() / 1000).toPrecision(3)));
  expect(all / (await shape.reachNumber())).toBeGreaterThan(0.97);
  await openGroup(page, /^Floors/);
  await page.getByRole('combobox', { name: 'Floor to add' }).selectOption('toolError');
  await page.getByRole('button', { name: 'Add floor' }).click();
  await shape.enter('Floor, worst tool error at most', '0.18');
  await expect(usableCell(shape)).toContainText('1 floor');
  await expect(async () => expect(await usableNumber(shape)).toBeLessThan(0.95 * all)).toPass();
  await expect(page.getByText('Grey strokes: misses a floor.')).toBeVisible();
  await shape.enter('Floor, worst tool error at most', '0.01');
  await expect(usableCell(shape)).toContainText('Nothing is usable');
  await expect(usableCell(shape)).toContainText(/at most 0\.01 mm; the best found is 0\.12\d* mm/);
  await shape.undo.click();
  await expect(usableCell(shape)).not.toContainText('Nothing is usable');

  await page.getByRole('button', { name: 'Cut the reach open' }).click();
  await page.getByRole('button', { name: 'Where a leg’s force changes sign' }).click();
  await colourBy(page).selectOption('leastPush');
  await usableCell(shape).click();
  await shape.settled();
  for (const { theme, at } of THEMES) {
    await takeTheme(page, theme);
    expect(await seriousFindings(page, { at })).toEqual([]);
  }
});

test('the strip and the controls of a cut fit a phone @phone', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await page.getByRole('button', { name: 'Draw' }).click();
  await page.getByRole('button', { name: 'Cut the reach open' }).click();
  await page.keyboard.press('Escape');
  await expect(cutSlider(page)).toBeVisible();
  // one line stays in view, the others come when they are asked for
  await expect(shape.reachCell).toBeVisible();
  await expect(usableCell(shape)).toBeHidden();
  await page.getByRole('button', { name: 'All verdicts' }).click();
  await expect(usableCell(shape)).toBeVisible();
  expect(await sidewaysScroll(page)).toBeLessThanOrEqual(0);
});
