import { existsSync, readFileSync } from 'node:fs';
import type { Browser } from '@playwright/test';

/**
 * Memory that the browser's page processes hold for themselves, workers included [bytes]: private pages as Linux counts them.
 * Null on a system that does not say.
 */
export async function pageMemory(browser: Browser): Promise<number | null> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  const files = processInfo
    .filter(({ type }) => type === 'renderer')
    .map(({ id }) => `/proc/${id}/smaps_rollup`)
    .filter(existsSync);
  if (files.length === 0) return null;
  return files.reduce((sum, file) => sum + privateBytes(readFileSync(file, 'utf8')), 0);
}

const privateBytes = (rollup: string): number =>
  [...rollup.matchAll(/^Private_(?:Clean|Dirty):\s+(\d+) kB/gm)].reduce((sum, [, kB]) => sum + 1024 * Number(kB), 0);
