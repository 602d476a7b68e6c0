/** Drives the production build in dist/ with Playwright; further arguments go to Playwright as they are. */
import { createServer } from 'node:net';
import { findChromium } from './chromium.ts';
import { run } from './stage.ts';

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => {
        if (address !== null && typeof address === 'object') resolve(address.port);
        else reject(new Error('The system gave no port.'));
      });
    });
  });
}

try {
  const environment = { CHROMIUM_PATH: findChromium(), LEGROOM_TEST_PORT: String(await freePort()) };
  const args = ['test', '--config', 'tests/browser/playwright.config.ts', ...process.argv.slice(2)];
  process.exitCode = await run('node_modules/.bin/playwright', args, environment);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
