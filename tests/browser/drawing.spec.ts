import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

test('two idle seconds draw no frame; the loosest motion plays, pauses, and leaves the pose as it was', async ({
  page,
}) => {
  const shape = new ShapePage(page);
  await shape.open();
  const version = await page.evaluate(() => {
    const context = document.createElement('canvas').getContext('webgl2');
    return context === null ? 'none' : String(context.getParameter(context.VERSION));
  });
  expect(version).toContain('WebGL 2.0');
  await shape.settled();
  const idle = await shape.framesDrawn();
  expect(idle).toBeGreaterThan(0);
  await page.waitForTimeout(2000);
  expect(await shape.framesDrawn()).toBe(idle);
  await shape.enter('Tool x', '5');
  await expect.poll(() => shape.framesDrawn()).toBeGreaterThan(idle);
  await page.getByRole('button', { name: 'Return home' }).click();
  await shape.settled();

  const player = page.getByRole('slider', { name: 'Place in the loosest motion' });
  await page.getByRole('button', { name: 'Play', exact: true }).click();
  await expect.poll(async () => Number(await player.inputValue())).toBeGreaterThan(0.1);
  const before = await shape.framesDrawn();
  await expect.poll(() => shape.framesDrawn()).toBeGreaterThan(before + 3);
  await page.getByRole('button', { name: 'Pause', exact: true }).click();
  await shape.settled();
  const paused = await shape.framesDrawn();
  await page.waitForTimeout(1000);
  expect(await shape.framesDrawn()).toBe(paused);
  await player.fill('0.5');
  await expect.poll(() => shape.framesDrawn()).toBeGreaterThan(paused);
  await page.getByRole('button', { name: 'Put the platform back' }).click();
  await expect(shape.field('Tool z')).toHaveValue('150.0');
  await expect(shape.legs.getByRole('row', { name: /within limits/ })).toHaveCount(6);
});

test.describe('with reduced motion', () => {
  test.use({ contextOptions: { reducedMotion: 'reduce' } });

  test('the loosest motion is two still ghosts', async ({ page }) => {
    const shape = new ShapePage(page);
    await shape.open();
    await shape.settled();
    await page.getByRole('button', { name: 'Show its two ends' }).click();
    await shape.settled();
    const before = await shape.framesDrawn();
    await page.waitForTimeout(1000);
    expect(await shape.framesDrawn()).toBe(before);
    await expect(page.getByRole('button', { name: 'Hide the two ends' })).toBeVisible();
  });
});

test.describe('a lost drawing context', () => {
  test.use({ expectedMessages: [/THREE.WebGLRenderer: Context (Lost|Restored)/] });

  test('is said, bridged and rebuilt, and no number changes', async ({ page }) => {
    const shape = new ShapePage(page);
    await shape.open();
    await shape.enter('Base radius', '108');
    await shape.settled();
    const reach = await shape.reachNumber();
    const lost = await shape.canvas.evaluateHandle((canvas) => {
      if (!(canvas instanceof HTMLCanvasElement)) throw new Error('not a canvas');
      const control = canvas.getContext('webgl2')?.getExtension('WEBGL_lose_context');
      control?.loseContext();
      return control;
    });
    await expect(shape.view).toContainText('The 3D drawing was lost');
    await shape.enter('Base radius', '104');
    const changed = await shape.reachNumber();
    expect(changed).not.toBeCloseTo(reach, 6);
    await lost.evaluate((control) => control?.restoreContext());
    await expect(shape.view).not.toContainText('The 3D drawing was lost');
    await shape.settled();
    expect(await shape.reachNumber()).toBe(changed);
    expect(await shape.coloursInView()).toBeGreaterThan(50);
  });
});

test('without WebGL there is a plan and an elevation, and everything else works', async ({ page }) => {
  await page.addInitScript(() => {
    const original = HTMLCanvasElement.prototype.getContext;
    HTMLCanvasElement.prototype.getContext = function (this: HTMLCanvasElement, ...wanted: [string, ...unknown[]]) {
      return wanted[0].startsWith('webgl') ? null : Reflect.apply(original, this, wanted);
    };
  });
  const shape = new ShapePage(page);
  await shape.open();
  await expect(shape.view.locator('canvas')).toHaveCount(0);
  await expect(shape.view.locator('svg').first()).toBeVisible();
  const before = await shape.reachNumber();
  await shape.enter('Longest leg', '230');
  expect(await shape.reachNumber()).toBeGreaterThan(before);
});
