import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

test('dragging a slider changes the reach and is one undo step', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  const before = await shape.reachNumber();
  const start = (200 - 20) / (400 - 20);
  const pull = await shape.grab('Longest leg', start);
  for (let n = 1; n <= 12; n++) await pull(start + 0.01 * n);
  await page.mouse.up();
  await expect(shape.field('Longest leg')).not.toHaveValue('200.0');
  const longest = Number(await shape.field('Longest leg').inputValue());
  expect(longest).toBeGreaterThan(215);
  const after = await shape.reachNumber();
  expect(after).toBeGreaterThan(1.1 * before);
  await expect(shape.undo).toHaveAccessibleName(`Undo: Longest leg ${longest} mm`);

  await page.keyboard.press('ControlOrMeta+Z');
  await expect(shape.field('Longest leg')).toHaveValue('200.0');
  await expect(shape.undo).toHaveAttribute('aria-disabled', 'true');
  expect(await shape.reachNumber()).toBeCloseTo(before, 6);
  await page.keyboard.press('ControlOrMeta+Shift+Z');
  await expect(shape.field('Longest leg')).toHaveValue(longest.toFixed(1));
  expect(await shape.reachNumber()).toBeCloseTo(after, 6);
});

test('undo and redo walk through every change, named', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.enter('Base radius', '110');
  await shape.enter('Platform radius', '75');
  await page.getByRole('button', { name: 'File' }).click();
  await page.getByRole('menuitem', { name: 'Roomy, nearly singular' }).click();
  await expect(shape.designName).toHaveValue('Wave table, roomy');
  await expect(shape.verdict).toContainText('Nearly singular');
  await expect(shape.undo).toHaveAccessibleName('Undo: Start from Wave table, roomy');
  await shape.undo.click();
  await expect(shape.designName).toHaveValue('Wave table, steady');
  await expect(shape.undo).toHaveAccessibleName('Undo: Platform radius 75 mm');
  await shape.undo.click();
  await shape.undo.click();
  await expect(shape.field('Base radius')).toHaveValue('100.0');
  await expect(shape.redo).toHaveAccessibleName('Redo: Base radius 110 mm');
  for (let n = 0; n < 3; n++) await shape.redo.click();
  await expect(shape.designName).toHaveValue('Wave table, roomy');
  await expect(shape.redo).toHaveAttribute('aria-disabled', 'true');
});

test('limits, fields out of range and a design that is singular everywhere are called what they are', async ({
  page,
}) => {
  const shape = new ShapePage(page);
  await shape.open();
  // jogging into a limit names it at the leg and in the strip
  await expect(shape.legs.getByRole('row', { name: /within limits/ })).toHaveCount(6);
  await shape.enter('Tool z', '215');
  await expect(shape.legs).toContainText('too long');
  await expect(shape.verdict).toContainText(/\d broken.*too long \(.*limit 200\)/);
  await page.getByRole('button', { name: 'Return home' }).click();
  await expect(shape.legs.getByRole('row', { name: /within limits/ })).toHaveCount(6);
  await expect(shape.verdict).toContainText('None broken');

  // out-of-range input is shown as such and never silently changed
  await shape.enter('Base pair gap', '130');
  await expect(shape.field('Base pair gap')).toHaveAttribute('aria-invalid', 'true');
  await expect(shape.field('Base pair gap')).toHaveValue('130');
  await expect(shape.undo).toHaveAttribute('aria-disabled', 'true');
  await page.keyboard.press('Escape');

  await page.getByRole('button', { name: 'File' }).click();
  await page.getByRole('menuitem', { name: /^Evenly spaced/ }).click();
  await expect(shape.verdict).toContainText('Singular at every pose');
  await expect(shape.verdict).toContainText('120 deg');
});
