import type { Locator } from '@playwright/test';
import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

/** A place of the canvas where the pointer could grab the handle on the platform, looking down its middle; page pixels. */
async function handlePlace(shape: ShapePage, canvas: Locator): Promise<{ readonly x: number; readonly y: number }> {
  const box = await canvas.boundingBox();
  if (!box) throw new Error('The canvas is not on screen.');
  const x = box.x + box.width / 2;
  for (let y = box.y + 60; y < box.y + 0.6 * box.height; y += 6) {
    await shape.page.mouse.move(x, y);
    const cursor = await canvas.evaluate((element) => getComputedStyle(element).cursor);
    if (cursor === 'move') return { x, y };
  }
  throw new Error('No handle in the middle of the view.');
}

test('the handle moves the platform, by whole millimetres with Shift', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await page.getByRole('button', { name: 'Front view' }).click();
  await shape.settled();
  const { x, y } = await handlePlace(shape, shape.canvas);
  await page.mouse.down();
  await page.mouse.move(x, y - 8, { steps: 3 });
  await page.mouse.move(x, y - 16, { steps: 3 });
  await page.mouse.up();
  const height = Number(await shape.field('Tool z').inputValue());
  expect(height).toBeGreaterThan(151);
  for (const name of ['Tool x', 'Tool y', 'Roll', 'Pitch', 'Yaw']) {
    expect(Number(await shape.field(name).inputValue())).toBeCloseTo(0, 6);
  }

  await page.keyboard.down('Shift');
  const again = await handlePlace(shape, shape.canvas);
  await page.mouse.down();
  await page.mouse.move(again.x, again.y + 7, { steps: 4 });
  await page.mouse.up();
  await page.keyboard.up('Shift');
  const snapped = Number(await shape.field('Tool z').inputValue());
  expect(snapped).toBeLessThan(height);
  expect(snapped).toBe(Math.round(snapped));
});

test('the tools change what is drawn, and words say so, at a leg with a broken limit as well', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.settled();
  const spoken = page.getByText(/Base plate A below/);
  await expect(spoken).toContainText('drawn as a shell, coloured by how firm');
  await page.getByRole('button', { name: 'Colour by the limit that binds' }).click();
  await expect(spoken).toContainText('coloured by the limit');
  await expect(page.getByRole('figure', { name: /limit that binds/ })).toContainText('platform joint');
  await page.getByRole('button', { name: 'Reach as a cloud' }).click();
  await expect(spoken).toContainText('drawn as a cloud');
  await shape.settled();
  expect(await shape.coloursInView()).toBeGreaterThan(50);
  await page.getByRole('button', { name: 'Reach as a cloud' }).click();
  await expect(spoken).toContainText('The reach is not drawn');

  // a broken limit is written beside its leg
  await shape.enter('Tool z', '225');
  // all six legs: sqrt(100^2 + 70^2 - 2 100 70 cos(40 deg) + 225^2) = 234.1
  await expect(shape.view.getByText('leg 3 too long 234.1 mm')).toBeVisible();
  await shape.enter('Tool z', '150');
  await expect(shape.view.getByText(/too long/).first()).toBeHidden();
});
