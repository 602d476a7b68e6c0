import { expect, test } from './quiet-page.ts';
import { ShapePage, withoutFileAccess } from './shape-page.ts';

/** More steps than the page has controls. */
const MOST_STEPS = 400;

test('Tab reaches every control', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.settled();
  for (let n = 0; n < MOST_STEPS; n++) {
    await page.keyboard.press('Tab');
    const again = await page.evaluate(() => {
      const focused = document.activeElement;
      if (!(focused instanceof HTMLElement) && !(focused instanceof SVGElement)) return true;
      if (focused === document.body) return false;
      if (focused.dataset['reached']) return true;
      focused.dataset['reached'] = 'yes';
      return false;
    });
    if (again) break;
  }
  const missed = await page.evaluate(() => {
    const controls = document.querySelectorAll<HTMLElement>(
      'a[href], button, input, select, textarea, canvas, [tabindex="0"]',
    );
    return (
      [...controls]
        .filter((control) => control.checkVisibility({ visibilityProperty: true }) && !control.matches(':disabled'))
        .filter((control) => !control.dataset['reached'])
        // one of a group takes the focus, arrow keys go on from it
        // a slider and its field are one stop: the field, which takes the same keys
        .filter(
          (control) =>
            !control.matches(
              '[type="range"][tabindex="-1"], [type="radio"], [role="radio"], [role="tab"], [role="tablist"]',
            ),
        )
        .map((control) => control.getAttribute('aria-label') ?? control.textContent ?? control.tagName)
    );
  });
  expect(missed).toEqual([]);
});

test('a design is changed, jogged, played, undone and saved by keyboard alone', async ({ page }) => {
  await withoutFileAccess(page);
  const shape = new ShapePage(page);
  await shape.open();
  const before = await shape.reachNumber();

  await page.keyboard.press('Tab');
  await expect(page.getByRole('link', { name: 'Skip to the design' })).toBeFocused();
  await page.keyboard.press('Enter');
  await shape.tabTo(shape.field('Base radius'));
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('ArrowUp');
  await expect(shape.field('Base radius')).toHaveValue('102.0');
  await page.keyboard.press('PageUp');
  await expect(shape.field('Base radius')).toHaveValue('112.0');
  expect(await shape.reachNumber()).not.toBe(before);

  await page.keyboard.press('ControlOrMeta+A');
  await page.keyboard.type('50*2 + 4');
  await page.keyboard.press('Enter');
  await expect(shape.field('Base radius')).toHaveValue('104.0');
  await page.keyboard.press('ControlOrMeta+Z');
  await expect(shape.field('Base radius')).toHaveValue('112.0');

  await shape.tabTo(shape.field('Tool z'));
  for (let n = 0; n < 7; n++) await page.keyboard.press('PageUp');
  await expect(shape.legs).toContainText('too long');

  await shape.tabTo(page.getByRole('button', { name: 'Play', exact: true }));
  await page.keyboard.press('Space');
  await expect(page.getByRole('button', { name: 'Pause', exact: true })).toBeFocused();
  await page.keyboard.press('Space');

  const { text } = await shape.download();
  expect(JSON.parse(text)).toMatchObject({ base: { ring: { radius_mm: 112 } } });
});

test('the focus stays near when what had it goes or is disabled, and comes back from a dialog of the menu', async ({
  page,
}) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.settled();
  const lost = () => page.evaluate(() => document.activeElement === null || document.activeElement === document.body);

  await page.getByRole('button', { name: 'Pin this layout' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Unpin' })).toBeVisible();
  await expect.poll(lost).toBe(false);

  await page.getByRole('button', { name: 'Keep', exact: true }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: /^Remove Snapshot/ }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: /^Remove Snapshot/ })).toHaveCount(0);
  await expect.poll(lost).toBe(false);

  const file = page.getByRole('button', { name: 'File' });
  await file.focus();
  await page.keyboard.press('Enter');
  await page.getByRole('menuitem', { name: /Copy link/ }).press('Enter');
  await expect(page.getByRole('dialog')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await expect(file).toBeFocused();
});

test('the 3D view obeys its keys while it has the focus, and only then', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.enter('Tool x', '12');
  await shape.settled();
  const still = await shape.framesDrawn();
  // elsewhere a letter is a letter
  await shape.designName.focus();
  await page.keyboard.type('fh2');
  await page.waitForTimeout(500);
  await page.keyboard.press('Escape');
  await expect(shape.field('Tool x')).toHaveValue('12.0');
  expect(await shape.framesDrawn()).toBe(still);

  const drawn = async (key: string) => {
    const before = await shape.framesDrawn();
    await page.keyboard.press(key);
    await expect.poll(() => shape.framesDrawn()).toBeGreaterThan(before);
    await shape.settled();
  };
  await shape.canvas.focus();
  for (const key of ['ArrowLeft', 'Shift+ArrowUp', '+', '2', 'f', '1', 'h']) await drawn(key);
  await expect(shape.field('Tool x')).toHaveValue('0.0');
  await page.keyboard.press('?');
  await expect(shape.dialog).toContainText('Fit everything');
  await page.keyboard.press('Escape');
  await expect(shape.canvas).toBeFocused();
});
