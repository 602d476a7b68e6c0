import { defineConfig } from '@playwright/test';
import base from '../browser/playwright.config.ts';

/** Hours of use in minutes; run by itself, because it takes longer than all other browser tests. */
export default defineConfig(base, {
  testDir: '.',
  retries: 0,
  timeout: 90 * 60_000,
  globalTimeout: 120 * 60_000,
  reporter: 'list',
  expect: { timeout: 60_000 },
});
