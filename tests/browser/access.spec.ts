import { expect, test } from './quiet-page.ts';
import { downwardScroll, seriousFindings, sidewaysScroll, THEMES, takeTheme } from './serious-findings.ts';
import { ShapePage } from './shape-page.ts';

test('the page says what it is, has nothing that axe calls serious, and does not scroll sideways @every-size', async ({
  page,
}) => {
  const shape = new ShapePage(page);
  await shape.open();
  await expect(page).toHaveTitle(/Legroom/);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  for (const { theme, at } of THEMES) {
    await takeTheme(page, theme);
    expect(await seriousFindings(page, { at }), theme).toEqual([]);
    expect(await sidewaysScroll(page)).toBeLessThanOrEqual(0);
  }
});

test('the page stands still: only its parts scroll, also when all is open or skipped to @large', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  for (const group of ['Accuracy', 'Stiffness', 'Clearance', 'Prove a box']) {
    await page
      .getByRole('button', { name: new RegExp(`^${group}`) })
      .first()
      .click();
  }
  await page.keyboard.press('Home');
  await page.mouse.move(700, 80);
  await page.mouse.wheel(0, 600);
  expect(await downwardScroll(page)).toBe(0);
  for (const place of await page.getByRole('navigation', { name: 'Places' }).getByRole('button').all()) {
    await place.click();
    const skip = page.getByRole('link', { name: /^Skip to/ });
    const target = await skip.getAttribute('href');
    await page.locator(target ?? 'none').waitFor();
    await skip.focus();
    await page.keyboard.press('Enter');
    await expect(page.locator(target ?? 'none')).toBeFocused();
    expect(await downwardScroll(page)).toBe(0);
  }
});

test('dialogs and menus have nothing serious; a dialog gives the focus back; a chosen theme is remembered', async ({
  page,
}) => {
  const shape = new ShapePage(page);
  await shape.open();
  const button = page.getByRole('button', { name: 'Cautions' });
  for (const { theme, at } of THEMES) {
    await takeTheme(page, theme);
    await button.focus();
    await page.keyboard.press('Enter');
    await expect(shape.dialog.getByRole('button', { name: 'Close' })).toBeFocused();
    await expect(shape.dialog).toContainText('ISO 13850');
    expect(await seriousFindings(page, { at, within: ['[role="dialog"]'] }), theme).toEqual([]);
    await page.keyboard.press('Escape');
    await expect(button).toBeFocused();
    await page.keyboard.press('?');
    await expect(shape.dialog).toContainText('Undo');
    expect(await seriousFindings(page, { at, within: ['[role="dialog"]'] }), theme).toEqual([]);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'File' }).click();
    expect(await seriousFindings(page, { at, within: ['[role="menu"]'] }), theme).toEqual([]);
    await page.keyboard.press('Escape');
  }

  await takeTheme(page, 'light');
  await page.getByRole('button', { name: 'Theme' }).click();
  await page.getByRole('menuitemradio', { name: 'Dark' }).click();
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark');
  await page.reload();
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark');
});
