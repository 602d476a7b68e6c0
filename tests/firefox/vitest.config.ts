import { defineConfig } from 'vitest/config';

/** One browser, one page, one test after the other. */
export default defineConfig({
  test: {
    include: ['tests/firefox/**/*.spec.ts'],
    environment: 'node',
    allowOnly: false,
    passWithNoTests: false,
    fileParallelism: false,
    // a busy machine draws and starts slowly; this is for what hangs
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
