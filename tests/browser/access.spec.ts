import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

/** What axe calls serious or critical, each with where it is. */
async function seriousFindings(page: Page): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')} ${failureSummary}`),
    );
}

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`the ${colorScheme} theme`, () => {
    test.use({ colorScheme });

    test(`has nothing that axe calls serious @every-size`, async ({ page }) => {
      const shape = new ShapePage(page);
      await shape.open();
      await expect(page.locator('html')).toHaveAttribute('data-theme', colorScheme);
      expect(await seriousFindings(page)).toEqual([]);
    });

    test('has nothing serious in its dialogs and menus', async ({ page }) => {
      const shape = new ShapePage(page);
      await shape.open();
      await page.getByRole('button', { name: 'Cautions' }).click();
      await expect(shape.dialog).toContainText('ISO 13850');
      expect(await seriousFindings(page)).toEqual([]);
      await page.keyboard.press('Escape');
      await page.keyboard.press('?');
      await expect(shape.dialog).toContainText('Undo');
      expect(await seriousFindings(page)).toEqual([]);
      await page.keyboard.press('Escape');
      await page.getByRole('button', { name: 'File' }).click();
      expect(await seriousFindings(page)).toEqual([]);
    });
  });
}

test('the theme can be chosen and is remembered', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await page.getByRole('button', { name: 'Theme' }).click();
  await page.getByRole('menuitemradio', { name: 'Dark' }).click();
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark');
  await page.reload();
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark');
});

test('a dialog takes the focus and gives it back', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  const button = page.getByRole('button', { name: 'Cautions' });
  await button.focus();
  await page.keyboard.press('Enter');
  await expect(shape.dialog.getByRole('button', { name: 'Close' })).toBeFocused();
  await page.keyboard.press('Escape');
  await expect(button).toBeFocused();
});

test('no page scrolls sideways @every-size', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  const { wide, room } = await page.evaluate(() => ({
    wide: document.documentElement.scrollWidth,
    room: document.documentElement.clientWidth,
  }));
  expect(wide).toBeLessThanOrEqual(room);
});
