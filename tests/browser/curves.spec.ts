import { expect, test } from './quiet-page.ts';
import { seriousFindings, sidewaysScroll, takeTheme } from './serious-findings.ts';
import { ShapePage } from './shape-page.ts';

/** Number in a text such as "yaw −40.5 deg". */
const numberIn = (text: string, pattern: RegExp): number => {
  const found = pattern.exec(text)?.[1];
  if (found === undefined) throw new Error(`No number in "${text}".`);
  return Number(found.replace('−', '-'));
};

test('a curve is followed by pointer and keys: the ghost moves, the walls are there, a click goes there', async ({
  page,
}, info) => {
  const shape = new ShapePage(page);
  await shape.open();
  await page.getByRole('tab', { name: 'Curves' }).click();
  const yaw = page.getByRole('slider', { name: /along yaw$/ });
  await expect(yaw).toBeVisible();
  await expect(page.getByRole('slider', { name: /along/ })).toHaveCount(6);
  await shape.settled();

  // the steady demo: joints of 25 deg stop the yaw at 40.49 deg; legs of two rings are singular at 90 (cos yaw in det J)
  await expect(yaw).toHaveAttribute('aria-description', /^Usable yaw: −40\.5 \(platform joint of .*\) to 40\.5/);
  await expect(yaw.locator('line[data-kind="singular"]')).toHaveText([
    'singular pose at −90.0 deg',
    'singular pose at 90.0 deg',
  ]);
  await expect(yaw.locator('line[data-kind="joint"][data-ends="true"]')).toHaveText([
    'joint at its limit at −40.5 deg',
    'joint at its limit at 40.5 deg',
  ]);

  // pointing: the ghost is drawn and says which pose it is
  const before = await shape.canvas.screenshot();
  const box = await yaw.boundingBox();
  if (!box) throw new Error('The curve is not on screen.');
  await page.mouse.move(box.x + 0.6 * box.width, box.y + box.height / 2);
  const caption = page.getByText(/^Dashed: the pose pointed at/);
  await expect(caption).toBeVisible();
  const first = numberIn((await caption.textContent()) ?? '', /yaw ([−\d.]+) deg/);
  await expect(async () => expect((await shape.canvas.screenshot()).equals(before)).toBe(false)).toPass();
  await expect(page.getByRole('region', { name: 'Curves' })).toContainText(/condition [\d.]+.*clearance [\d.]+ mm/);
  await page.mouse.move(box.x + 0.75 * box.width, box.y + box.height / 2);
  await expect(async () => {
    const second = numberIn((await caption.textContent()) ?? '', /yaw ([−\d.]+) deg/);
    expect(second).toBeGreaterThan(first + 5);
  }).toPass();
  await page.screenshot({ path: info.outputPath('curves.png') });

  // the pointer gone, the ghost is gone
  await page.mouse.move(box.x, box.y - 300);
  await expect(caption).toHaveCount(0);

  // keys do the same
  await yaw.focus();
  await page.keyboard.press('PageUp');
  await expect(caption).toBeVisible();
  await expect(yaw).toHaveAttribute('aria-valuetext', /^yaw [\d.]+ deg: .*, usable$/);
  await page.keyboard.press('End');
  await expect(yaw).toHaveAttribute('aria-valuetext', /, not usable$/);
  await page.keyboard.press('Escape');
  await expect(caption).toHaveCount(0);
  await page.keyboard.press('PageUp');
  const at = Number(await yaw.getAttribute('aria-valuenow'));
  await page.keyboard.press('Enter');
  await expect(shape.field('Yaw')).toHaveAttribute('aria-valuenow', new RegExp(`^${at.toFixed(4).slice(0, -1)}`));

  // and a click
  await expect(async () => expect(Number(await yaw.getAttribute('aria-valuenow'))).toBeCloseTo(at, 6)).toPass();
  const roll = page.getByRole('slider', { name: /along roll$/ });
  const place = await roll.boundingBox();
  if (!place) throw new Error('The curve is not on screen.');
  await page.mouse.click(place.x + 0.55 * place.width, place.y + place.height / 2);
  await expect(async () =>
    expect(Math.abs(Number(await shape.field('Roll').getAttribute('aria-valuenow')))).toBeGreaterThan(0.5),
  ).toPass();

  await page.getByRole('combobox', { name: 'Quantity drawn' }).selectOption('legForce');
  await expect(page.getByRole('slider', { name: 'Largest leg force, N along x' })).toBeVisible();
  await page.getByRole('button', { name: 'How the curves are computed' }).click();
  await expect(page.getByRole('dialog', { name: 'How the curves are computed' })).toContainText(/97 samples/);
  await page.keyboard.press('Escape');
  expect(await seriousFindings(page)).toEqual([]);
  await takeTheme(page, 'dark');
  expect(await seriousFindings(page, { at: 'colours' })).toEqual([]);
});

test('has its own sheet on a small screen @phone', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await page.getByRole('tab', { name: 'Curves' }).click();
  await expect(page.getByRole('slider', { name: /along/ })).toHaveCount(6);
  const yaw = page.getByRole('slider', { name: /along yaw$/ });
  await yaw.focus();
  await page.keyboard.press('PageUp');
  await expect(page.getByText(/^Dashed: the pose pointed at/)).toBeVisible();
  await page.getByRole('tab', { name: 'What helps' }).click();
  await expect(page.getByRole('button', { name: /^base joint tilt/i })).toBeVisible();
  expect(await sidewaysScroll(page)).toBe(0);
});
