import { expect, test } from './quiet-page.ts';

test('the page loads and says what it is @every-size', async ({ page }) => {
  await page.goto('/');
  await expect(page).toHaveTitle(/Legroom/);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
});

test('the browser of these tests draws WebGL 2', async ({ page }) => {
  await page.goto('/');
  const version = await page.evaluate(() => {
    const context = document.createElement('canvas').getContext('webgl2');
    return context === null ? 'none' : String(context.getParameter(context.VERSION));
  });
  expect(version).toContain('WebGL 2.0');
});
