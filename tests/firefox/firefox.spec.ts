import { afterAll, beforeAll, expect, it } from 'vitest';
import { FirefoxPage } from './firefox-page.ts';

const { FIREFOX_PATH = '/usr/bin/firefox-esr' } = process.env;

let firefox: FirefoxPage;

beforeAll(async () => {
  firefox = await FirefoxPage.open(FIREFOX_PATH);
});

afterAll(async () => {
  await firefox?.close();
});

const legs = () => firefox.text('section[aria-label="Legs"]');
const verdict = () => firefox.text('section[aria-label="Verdict"]');

it('the first view has its numbers and a drawing', async () => {
  await firefox.becomes(verdict, /721 cm³/);
  expect(await firefox.page.title()).toBe('Wave table, steady – Legroom');
  await firefox.page.waitForSelector('main[aria-label="Platform"] :is(canvas, svg)');
  await firefox.becomes(legs, /163\.3/);
});

it('a slider is moved by keys and by the pointer', async () => {
  const selector = 'input[aria-label="Base radius, slider"]';
  await firefox.page.focus(selector);
  await firefox.page.keyboard.press('ArrowRight');
  await firefox.becomes(() => firefox.value('Base radius'), '101.0');
  const slider = await firefox.page.waitForSelector(selector);
  const box = await slider?.boundingBox();
  if (!box) throw new Error('The slider is not on screen.');
  const { mouse } = firefox.page;
  const y = box.y + box.height / 2;
  await mouse.move(box.x + 0.5 * box.width, y);
  await mouse.down();
  await mouse.move(box.x + 0.7 * box.width, y, { steps: 8 });
  await mouse.up();
  const dragged = Number(await firefox.value('Base radius'));
  expect(dragged).toBeGreaterThan(110);
  await firefox.becomes(verdict, /cm³/);
});

it('keys: undo step by step, the list of keys and back', async () => {
  await firefox.chord('Control', 'z');
  await firefox.becomes(() => firefox.value('Base radius'), '101.0');
  await firefox.chord('Control', 'z');
  await firefox.becomes(() => firefox.value('Base radius'), '100.0');
  await firefox.page.keyboard.press('?');
  await firefox.becomes(() => firefox.text('[role="dialog"]'), /Undo/);
  await firefox.page.keyboard.press('Escape');
  await firefox.page.waitForSelector('[role="dialog"]', { hidden: true });
});

it('a sum with units is worked out, and a jog runs into a limit', async () => {
  await firefox.enter('Tool z', '10 cm + 95 mm');
  await firefox.becomes(() => firefox.value('Tool z'), '195.0');
  await firefox.becomes(legs, /too long/);
  await firefox.click('Return home');
  await firefox.becomes(legs, /within limits/);
});

it('a sweep is measured to its end', async () => {
  await firefox.click('Explore');
  for (const name of ['Base gap', 'Platform gap', 'Radius ratio']) {
    await firefox.page.waitForSelector(`input[aria-label="${name}, number of values"]`);
    await firefox.enter(`${name}, number of values`, '6');
  }
  await firefox.click('Start the sweep');
  await firefox.becomes(() => firefox.text('body'), /All 216 layouts are known/);
  await firefox.click('Shape');
});

it('a design is saved, opened again and there after a reload', async () => {
  await firefox.enter('Base radius', '111');
  await firefox.page.keyboard.press('Tab');
  await firefox.chord('Control', 's');
  const text = await firefox.saved();
  expect(JSON.parse(text)).toMatchObject({ base: { ring: { radius_mm: 111 } } });
  await firefox.drop('chosen.json', text.replace('Wave table, steady', 'Chosen'));
  await firefox.becomes(() => firefox.value('Name of the design'), 'Chosen');
  await firefox.enter('Base radius', '112');
  await firefox.page.reload();
  await firefox.becomes(() => firefox.value('Base radius'), '112.0');
  expect(await firefox.value('Name of the design')).toBe('Chosen');
});

it('nothing was said on the console', () => expect(firefox.heard).toEqual([]));
