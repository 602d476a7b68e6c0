import { fileURLToPath } from 'node:url';
import { defineConfig } from '@playwright/test';

const project = fileURLToPath(new URL('../..', import.meta.url));
const { CHROMIUM_PATH = '/usr/bin/chromium', LEGROOM_TEST_PORT = '4317' } = process.env;
const address = `http://127.0.0.1:${LEGROOM_TEST_PORT}`;

/**
 * The production build, served as a static host would, in Chromium with WebGL 2 drawn in software.
 * Tests run on a desk-size screen; a title with @phone or @large runs on that screen instead, with @every-size on all three.
 */
export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.ts',
  outputDir: `${project}/test-results/browser`,
  reporter: [['list'], ['json', { outputFile: `${project}/test-results/browser.json` }]],
  forbidOnly: true,
  // A busy machine can be slow enough for a wait to run out; a test that needed its second try is reported as flaky.
  retries: 1,
  // Software drawing takes a whole core; more than one page at a time would only make the timings unsteady.
  workers: 1,
  timeout: 240_000,
  globalTimeout: 60 * 60_000,
  expect: { timeout: 20_000 },
  use: {
    baseURL: address,
    // The cache of an earlier build must not stand in for this one; the offline test allows it for itself.
    serviceWorkers: 'block',
    locale: 'en-GB',
    timezoneId: 'UTC',
    colorScheme: 'light',
    screenshot: 'only-on-failure',
    launchOptions: {
      executablePath: CHROMIUM_PATH,
      args: [
        '--no-sandbox',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
        '--use-angle=swiftshader',
        '--enable-unsafe-swiftshader',
        // The 3D view goes through WebGL all the same; putting the page together needs half of the time without it.
        '--disable-gpu-compositing',
      ],
    },
  },
  projects: [
    { name: 'desk', grepInvert: /@phone|@large/, use: { viewport: { width: 1366, height: 768 } } },
    { name: 'large', grep: /@large|@every-size/, use: { viewport: { width: 1920, height: 1080 } } },
    {
      name: 'phone',
      grep: /@phone|@every-size/,
      use: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 },
    },
  ],
  webServer: {
    command: `npx vite preview --host 127.0.0.1 --port ${LEGROOM_TEST_PORT} --strictPort`,
    cwd: project,
    url: address,
    reuseExistingServer: false,
    timeout: 60_000,
  },
});
