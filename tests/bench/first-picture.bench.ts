import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from '@playwright/test';
import { preview } from 'vite';
import { ExplorePage } from '../browser/explore-page.ts';
import { timeFirstPicture } from '../browser/first-picture.ts';
import { findChromium } from '../run/chromium.ts';

/**
 * Time from pressing Start to a whole heat map of the standard sweep of 216,000 layouts, noted by the page itself, each time on a
 * fresh page; and the time that the whole sweep takes the page. Needs the production build. Run: npx tsx tests/bench/first-picture.bench.ts [runs]
 */
const RUNS = Number(process.argv[2] ?? 5);

/** Quiet time after the place was entered, in which a person would look at the set-up [ms]. */
const LOOKING_TIME = 3000;

/** The longest a whole sweep may take [ms]. */
const LONGEST_SWEEP = 300_000;

const spread = (values: readonly number[], digits: number): string => {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.round((sorted.length - 1) * share)].toFixed(digits);
  return `min ${at(0)}  median ${at(0.5)}  max ${at(1)}  (n ${sorted.length})`;
};

if (!existsSync(fileURLToPath(new URL('../../dist/index.html', import.meta.url))))
  throw new Error('Build first: npm run build');
const server = await preview({ preview: { host: '127.0.0.1', port: 0 }, logLevel: 'warn' });
const address = server.resolvedUrls?.local[0];
if (!address) throw new Error('The server has no address.');
const browser = await chromium.launch({
  executablePath: findChromium(),
  args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--disable-gpu-compositing'],
});
const pictures: number[] = [];
const sweeps: number[] = [];
try {
  for (let run = 0; run < RUNS; run++) {
    const context = await browser.newContext({ baseURL: address, serviceWorkers: 'block', locale: 'en-GB' });
    const page = await context.newPage();
    // the runner of this file marks functions by their names, those for the page as well
    await page.addInitScript('globalThis.__name = (named) => named');
    const explore = new ExplorePage(page);
    await explore.open();
    await page.waitForTimeout(LOOKING_TIME);
    await timeFirstPicture(page);
    const start = performance.now();
    await explore.start.click();
    await page.waitForFunction(() => window.firstPicture !== null, null, { polling: 100 });
    pictures.push((await page.evaluate(() => window.firstPicture)) ?? Number.NaN);
    // text alone is looked at, and seldom: the test tool's own search for elements takes seconds of the page's time
    await page.waitForFunction(() => /All 216\s000 layouts are known/.test(document.body.textContent ?? ''), null, {
      polling: 200,
      timeout: LONGEST_SWEEP,
    });
    sweeps.push((performance.now() - start) / 1000);
    await context.close();
  }
} finally {
  await browser.close();
  await server.close();
}
console.log(pictures.map((ms) => ms.toFixed(0)).join(' '));
console.log(`first whole picture [ms]: ${spread(pictures, 0)}`);
console.log(`whole standard sweep in the page, pictures included [s]: ${spread(sweeps, 1)}`);
