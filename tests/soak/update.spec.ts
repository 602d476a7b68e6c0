import { appendFileSync, cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { preview } from 'vite';
import { ShapePage } from '../browser/shape-page.ts';

test.use({ serviceWorkers: 'allow' });

test('a new version is taken in the middle of unsaved work, and nothing is lost', async ({ page }) => {
  const folder = mkdtempSync(join(tmpdir(), 'legroom-update-'));
  cpSync(join(import.meta.dirname, '../../dist'), folder, { recursive: true });
  const server = await preview({
    build: { outDir: folder },
    preview: { host: '127.0.0.1', port: 0 },
    logLevel: 'silent',
  });
  const questions: string[] = [];
  page.on('dialog', (dialog) => {
    questions.push(dialog.type());
    void dialog.accept();
  });
  try {
    const shape = new ShapePage(page);
    await page.goto(server.resolvedUrls?.local[0] ?? '');
    await shape.reachNumber();
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true);
    await shape.enter('Base radius', '93');
    appendFileSync(join(folder, 'sw.js'), '\n// a newer version\n');
    await page.evaluate(() =>
      navigator.serviceWorker.ready.then((registration) => registration.update()).then(() => undefined),
    );
    const use = shape.notices.getByRole('button', { name: 'Use it now' });
    await expect(use).toBeVisible();
    const loaded = page.waitForEvent('load');
    await shape.enter('Base radius', '94');
    await use.click();
    await loaded;
    await expect(shape.field('Base radius')).toHaveValue('94.0');
    await expect(page).toHaveTitle(/^● /);
    expect(questions).toEqual([]);
  } finally {
    await server.close();
    rmSync(folder, { recursive: true });
  }
});
