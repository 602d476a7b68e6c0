import type { Page } from '@playwright/test';
import { expect, test } from './quiet-page.ts';
import { seriousFindings } from './serious-findings.ts';
import { ShapePage } from './shape-page.ts';

/** Opens the group of the proof. */
async function openProof(page: Page): Promise<void> {
  const group = page.getByRole('button', { name: /^Prove a box/ });
  await group.scrollIntoViewIfNeeded();
  await group.click();
}

const prove = (page: Page) => page.getByRole('button', { name: 'Prove', exact: true });

test('a box is proven, refuted with a pose to go to, cancelled, and stale after a change', async ({ page }, info) => {
  const shape = new ShapePage(page);
  await shape.open();
  await openProof(page);
  await expect(page.getByText('Dashed box: positions of the tool point in the box to prove')).toBeVisible();

  // the usual box about the steady demo's home: 10 mm and 5 deg either way
  await prove(page).click();
  await expect(page.getByText(/^Decided in/)).toBeVisible();
  for (const claim of ['Reachable', 'Free of singular poses', 'Clear'])
    await expect(page.getByRole('heading', { name: new RegExp(`^${claim}.*proven$`) })).toBeVisible();
  await page.screenshot({ path: info.outputPath('proven.png') });
  await page.getByRole('button', { name: 'How the proof was made' }).click();
  await expect(page.getByRole('dialog', { name: 'How the proof was made' })).toContainText(/\d+ parts were looked at/);
  await page.keyboard.press('Escape');

  // a box too large: refuted by a pose that breaks a limit, and the platform goes there
  await shape.enter('Half range of x', '60');
  await expect(page.getByText(/numbers above have changed/)).toBeVisible();
  await prove(page).click();
  await expect(page.getByRole('heading', { name: /^Reachable.*refuted$/ })).toBeVisible();
  await page.getByRole('button', { name: 'Go to this pose' }).first().click();
  await expect(shape.verdict.getByRole('button', { name: /^Limits/ })).toContainText('broken');
  expect(await seriousFindings(page)).toEqual([]);

  // a box that takes hundreds of thousands of parts is cancelled on the way
  await page.getByRole('radio', { name: 'Home' }).check();
  await shape.enter('Half range of x', '30');
  await shape.enter('Half range of y', '30');
  await shape.enter('Half range of z', '30');
  for (const angle of ['roll', 'pitch', 'yaw']) await shape.enter(`Half range of ${angle}`, '25');
  await page.getByRole('checkbox', { name: 'reachable' }).uncheck();
  await page.getByRole('checkbox', { name: /^clear/ }).uncheck();
  await shape.enter('Depth of the proof, halvings', '40');
  await prove(page).click();
  await page.getByRole('button', { name: 'Cancel' }).click();
  await expect(page.getByText(/^Cancelled after .* nothing is proven/)).toBeVisible();

  await shape.enter('Base radius', '105');
  await expect(page.getByText(/design has changed since/)).toBeVisible();
});

test('what a box asks of the parts stands beside the limits, and leads to the pose that asks it', async ({
  page,
}, info) => {
  const shape = new ShapePage(page);
  await shape.open();
  await openProof(page);
  const table = page.getByRole('table', { name: 'What the box asks of the parts' });
  await expect(page.getByText(/^Corners and mid-points of the box, sampled \(729 poses\)/)).toBeVisible();
  const longest = table.getByRole('row', { name: /^Longest leg/ });
  await expect(longest).toContainText('✓ yes');

  await shape.enter('Half range of x', '60');
  await expect(longest).toContainText('✗ no');
  await page.screenshot({ path: info.outputPath('asked.png') });
  const where = table.getByRole('button', { name: /^Leg \d, .* mm past it, at x −?60, / }).first();
  await where.focus();
  await page.keyboard.press('Enter');
  await expect(shape.verdict.getByRole('button', { name: /^Limits/ })).toContainText('broken');
  expect(await seriousFindings(page)).toEqual([]);

  // a box that moves with the platform leads nowhere: there it would be another box
  await page.getByRole('radio', { name: 'Present pose' }).check();
  await expect(table.getByRole('button')).toHaveCount(0);
});

test('what a box asks of the parts fits a phone @phone', async ({ page }, info) => {
  const shape = new ShapePage(page);
  await shape.open();
  await page.getByRole('tab', { name: 'Judge' }).click();
  await openProof(page);
  const table = page.getByRole('table', { name: 'What the box asks of the parts' });
  await shape.enter('Half range of x', '60');
  await table.scrollIntoViewIfNeeded();
  await page.screenshot({ path: info.outputPath('asked.png') });
  const { left, right, screen } = await table.evaluate((own) => {
    const box = own.getBoundingClientRect();
    return { left: box.left, right: box.right, screen: document.documentElement.clientWidth };
  });
  expect(left).toBeGreaterThanOrEqual(0);
  expect(right).toBeLessThanOrEqual(screen);
  expect(await seriousFindings(page)).toEqual([]);
});

test('what helps: bars, a ghost of the step, and one undo step for it', async ({ page }, info) => {
  const shape = new ShapePage(page);
  await shape.open();
  await page.getByRole('tab', { name: 'What helps' }).click();
  const longest = page.getByRole('button', { name: /^longest leg/i });
  await expect(longest).toContainText(/\+[\d.]+ cm³\/mm/);
  // aimed joints at both ends tilt alike: more room in one of them alone gains nothing, less costs
  await expect(page.getByRole('button', { name: /^base joint tilt/i })).toContainText(/less: −[\d.]+ cm³\/deg/);
  await expect(page.getByRole('list', { name: /^Effect of one more/ }).getByRole('listitem')).toHaveCount(11);
  await shape.settled();

  const before = await shape.canvas.screenshot();
  const radius = page.getByRole('button', { name: /^base radius/i });
  await radius.focus();
  await page.keyboard.press('Enter');
  await expect(radius).toHaveAttribute('aria-pressed', 'true');
  await expect(page.getByText('Dashed: the layout pointed at')).toBeVisible();
  await expect(async () => expect((await shape.canvas.screenshot()).equals(before)).toBe(false)).toPass();
  await page.screenshot({ path: info.outputPath('what-helps.png') });

  const reach = await shape.reachNumber();
  await longest.click();
  await page.getByRole('button', { name: 'Apply this step' }).click();
  await expect(shape.field('Longest leg')).toHaveAttribute('aria-valuenow', '205');
  await expect(shape.undo).toHaveAccessibleName(/^Undo: Longest leg \+5 mm/);
  await expect(async () => expect(await shape.reachNumber()).toBeGreaterThan(reach + 50)).toPass();
  await shape.undo.click();
  await expect(shape.field('Longest leg')).toHaveAttribute('aria-valuenow', '200');

  await page.getByRole('radio', { name: 'Worst error' }).check();
  await expect(page.getByRole('button', { name: /^base pair gap/i })).toContainText('µm/deg');
  await page.getByRole('button', { name: 'How the table is computed' }).click();
  await expect(page.getByRole('dialog', { name: 'How the table is computed' })).toContainText(/2 % of a length/);
  await page.keyboard.press('Escape');
  expect(await seriousFindings(page)).toEqual([]);
});
