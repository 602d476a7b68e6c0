import type { Page } from '@playwright/test';
import { expect, test } from './quiet-page.ts';
import { seriousFindings, THEMES, takeTheme } from './serious-findings.ts';
import { ShapePage, withoutFileAccess } from './shape-page.ts';

/** What a link of a ring layout may take at most [characters]. */
const RING_LINK = 1200;

/** Opens the dialog with the link and gives it back. */
async function linkOf(page: Page): Promise<string> {
  await page.getByRole('button', { name: 'File' }).click();
  await page.getByRole('menuitem', { name: 'Copy link…' }).click();
  return page.getByRole('textbox', { name: /^Link/ }).inputValue();
}

test.beforeEach(({ page }) => withoutFileAccess(page));

test('a link opens the same design elsewhere, byte for byte', async ({ page, browser, baseURL }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.enter('Base radius', '97.125');
  await shape.designName.fill('Wave table, ünïcode "quoted"');
  await shape.designName.press('Enter');
  const link = await linkOf(page);
  expect(link.length).toBeLessThan(RING_LINK);
  await expect(shape.dialog).toContainText(`${link.length} characters`);
  await page.keyboard.press('Escape');
  const { text } = await shape.download();

  const context = await browser.newContext(baseURL ? { baseURL } : {});
  const other = await context.newPage();
  await withoutFileAccess(other);
  const theirs = new ShapePage(other);
  await other.goto(link);
  await expect(theirs.designName).toHaveValue('Wave table, ünïcode "quoted"');
  await expect(theirs.notices).toContainText('from a link');
  expect(new URL(other.url()).hash).toBe('');
  expect((await theirs.download()).text).toBe(text);
  await expect(theirs.undo).toHaveAccessibleName(/^Undo: Open .* from a link/);
  await theirs.undo.click();
  await expect(theirs.designName).toHaveValue('Wave table, steady');
  await context.close();
});

test('a reload after a link goes on with what was made of it', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await page.getByRole('button', { name: 'File' }).click();
  await page.getByRole('menuitem', { name: 'Roomy, nearly singular' }).click();
  const link = await linkOf(page);
  await page.keyboard.press('Escape');
  await shape.undo.click();
  await expect(shape.designName).toHaveValue('Wave table, steady');
  // an address typed into the open page: no load, only another fragment
  await page.evaluate((address) => window.location.assign(address), link);
  await expect(shape.designName).toHaveValue('Wave table, roomy');
  await shape.enter('Base radius', '103');
  await shape.kept(/"radius_mm":\s*103/);
  await page.reload();
  await expect(shape.field('Base radius')).toHaveValue('103.0');
  expect(new URL(page.url()).hash).toBe('');
});

test('a link never takes the place of unsaved work unasked', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  const link = await linkOf(page);
  await page.keyboard.press('Escape');
  await shape.enter('Base radius', '88');
  await shape.designName.fill('My own work');
  await shape.designName.press('Enter');
  await page.evaluate((address) => window.location.assign(address), link);
  await expect(shape.dialog).toContainText('Open the design from the link?');
  await shape.dialog.getByRole('button', { name: 'Stay with the open design' }).click();
  await expect(shape.designName).toHaveValue('My own work');
  expect(new URL(page.url()).hash).toBe('');

  await page.evaluate((address) => window.location.assign(address), link);
  await shape.dialog.getByRole('button', { name: 'Open the link' }).click();
  await expect(shape.designName).toHaveValue('Wave table, steady');
  await shape.kept(/Wave table, steady/);
  await page.reload();
  await expect(shape.designName).toHaveValue('Wave table, steady');
  // the history is gone, the work is not
  await page.getByRole('button', { name: 'File' }).click();
  await page.getByRole('menuitem', { name: /^My own work/ }).click();
  await expect(shape.designName).toHaveValue('My own work');
  await expect(shape.field('Base radius')).toHaveValue('88.0');
});

test('the link is copied, a broken one changes nothing, and a long one offers the file instead', async ({
  page,
  context,
}) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  const shape = new ShapePage(page);
  await shape.open();
  const link = await linkOf(page);
  await shape.dialog.getByRole('button', { name: 'Copy link' }).click();
  await expect(shape.dialog.getByRole('button', { name: 'Copied' })).toBeVisible();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(link);
  await expect(shape.dialog.getByRole('button', { name: 'Save the file…' })).toHaveCount(0);
  await page.keyboard.press('Escape');

  await shape.enter('Base radius', '92');
  for (const [broken, says] of [
    [link.slice(0, -40), 'cut short or altered'],
    [link.replace('#design=1.', '#design=7.'), 'newer Legroom'],
  ] as const) {
    await page.evaluate((address) => window.location.assign(address), broken);
    await expect(shape.dialog).toContainText('This link was not opened');
    await expect(shape.dialog).toContainText(says);
    await page.keyboard.press('Escape');
    await expect(shape.field('Base radius')).toHaveValue('92.0');
    expect(new URL(page.url()).hash).toBe('');
  }

  const design = JSON.parse((await shape.download()).text);
  const words = Array.from({ length: 900 }, (_, n) => ((n * 7919) % 65_521).toString(36));
  await shape.drop(['long.json', JSON.stringify({ ...design, note: words.join(' ') })]);
  await expect(shape.notices).toContainText('Opened long.json');
  const long = await linkOf(page);
  expect(long.length).toBeGreaterThan(2000);
  await expect(shape.dialog).toContainText('cut links of more than 2000 characters');
  const arriving = page.waitForEvent('download');
  await shape.dialog.getByRole('button', { name: 'Save the file…' }).click();
  expect((await arriving).suggestedFilename()).toBe('long.json');
  await page.keyboard.press('Escape');
  await page.evaluate((address) => window.location.assign(address), long);
  await expect(shape.notices).toContainText('the one that is open');
});

test('the dialogs about links have nothing that axe calls serious, light and dark @every-size', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  const link = await linkOf(page);
  const inBothThemes = async () => {
    for (const { theme, at } of THEMES) {
      await takeTheme(page, theme);
      expect(await seriousFindings(page, { at, within: ['[role="dialog"]'] }), theme).toEqual([]);
    }
  };
  await inBothThemes();
  await page.keyboard.press('Escape');
  await shape.enter('Base radius', '99');
  await page.evaluate((address) => window.location.assign(address), link);
  await expect(shape.dialog).toContainText('Open the design from the link?');
  await inBothThemes();
});
