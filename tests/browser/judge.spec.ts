import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

const GROUPS = [/^Accuracy/, /^Load and forces/, /^Stiffness/, /^Clearance/];

async function openAll(page: Page): Promise<void> {
  for (const name of GROUPS) {
    const heading = page.getByRole('button', { name }).first();
    await heading.scrollIntoViewIfNeeded();
    if ((await heading.getAttribute('aria-expanded')) === 'false') await heading.click();
  }
}

/** Nothing in the panel is wider than its column. */
async function widest(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}

test('a payload, an outside force and a keep-out change what is said, each as one undo step', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await openAll(page);
  await shape.enter('Payload mass', '2');
  const forces = page.getByRole('table', { name: 'Force in each leg' });
  await expect(forces).toContainText(/Leg 1\s*[\d.]+ N push/);
  await shape.enter('Outside force x', '60');
  await expect(forces).toContainText('pull');
  await expect(shape.undo).toHaveAccessibleName(/^Undo: Outside force x/);
  await shape.undo.click();
  await expect(forces).not.toContainText('pull');

  await page.getByRole('button', { name: /^Start with 1000/ }).click();
  await expect(page.getByRole('button', { name: /^First natural frequency/ })).toContainText('Hz');
  await page.getByRole('button', { name: 'Add a box' }).click();
  await shape.enter('Keep-out 1 middle x', '100');
  await shape.enter('Keep-out 1 size x', '80');
  await expect(page.getByRole('button', { name: /to box 1 .*they meet/ })).toBeVisible();
});

test('every result opens how it was computed', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await openAll(page);
  await page.getByRole('button', { name: /^Start with 1000/ }).click();
  for (const button of await page.getByTitle('How computed').all()) {
    await button.click();
    await expect(button).toHaveAttribute('aria-expanded', 'true');
    const id = await button.getAttribute('aria-controls');
    await expect(page.locator(`[id="${id}"]`)).toHaveText(/\d/);
  }
});

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`the ${colorScheme} theme`, () => {
    test.use({ colorScheme });

    test('has nothing serious in the open groups and no sideways scroll', async ({ page }, info) => {
      const shape = new ShapePage(page);
      await shape.open();
      await openAll(page);
      await page.getByRole('button', { name: /^Start with 1000/ }).click();
      await page.getByRole('button', { name: 'Add a cylinder' }).click();
      expect(await widest(page)).toBeLessThanOrEqual(0);
      const { violations } = await new AxeBuilder({ page }).analyze();
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
      expect(
        serious.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`),
      ).toEqual([]);
      await page
        .getByRole('button', { name: /^Accuracy/ })
        .first()
        .scrollIntoViewIfNeeded();
      await page.screenshot({ path: info.outputPath(`judge-${colorScheme}.png`) });
    });
  });
}

test('has its own sheet on a small screen @phone', async ({ page }, info) => {
  const shape = new ShapePage(page);
  await shape.open();
  await page.getByRole('tab', { name: 'Judge' }).click();
  await openAll(page);
  await expect(page.getByRole('table', { name: 'Force in each leg' })).toBeAttached();
  expect(await widest(page)).toBeLessThanOrEqual(0);
  await page.screenshot({ path: info.outputPath('judge-phone.png') });
});
