/** Finds or installs the browser of the tests, as the first stage of `npm test`: whatever it has to say comes first. */
import { findChromium } from './chromium.ts';

try {
  console.log(`Chromium: ${findChromium()}`);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
