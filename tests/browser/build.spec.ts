import { readFile } from 'node:fs/promises';
import { unzipSync } from 'fflate';
import { expect, test } from './quiet-page.ts';
import { seriousFindings } from './serious-findings.ts';

test('Build: the real sheet, a warning on it, and everything in one zip', async ({ page }) => {
  await page.goto('/');
  await page.getByRole('button', { name: 'Build', exact: true }).click();
  const sheet = page.getByRole('img', { name: /^Base plate, seen from above, sheet of 420 × 297 mm/ });
  await expect(sheet).toBeVisible();
  // the picture is the file: its own size in mm at 96 pixels an inch
  expect(await sheet.evaluate((image) => (image instanceof HTMLImageElement ? image.naturalWidth : 0))).toBeCloseTo(
    (420 / 25.4) * 96,
    -1,
  );
  await page.getByRole('spinbutton', { name: 'Drill diameter' }).fill('8');
  await page.keyboard.press('Enter');
  await expect(page.getByText(/mm between indexed holes, less than/)).toBeVisible();
  expect(await seriousFindings(page)).toEqual([]);
  await page.getByRole('spinbutton', { name: 'Drill diameter' }).fill('3.3');
  await page.keyboard.press('Enter');
  for (const box of await page.getByRole('checkbox').all()) await box.check();
  const download = page.waitForEvent('download', { timeout: 90_000 });
  await page.getByRole('button', { name: /^Save \d+ formats/ }).click();
  const saved = await download;
  expect(saved.suggestedFilename()).toBe('Wave-table-steady.zip');
  const names = Object.keys(unzipSync(new Uint8Array(await readFile(await saved.path()))));
  for (const ending of ['.dxf', '.pdf', '.svg', '.step', '.stl', '.3mf', '.csv', '.mjcf.xml', '-report.html'])
    expect(names.some((name) => name.endsWith(ending))).toBe(true);
  await expect(page.getByText('Written: Wave-table-steady.zip.')).toBeVisible();
});
