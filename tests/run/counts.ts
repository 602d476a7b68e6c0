import { readFileSync } from 'node:fs';
import { z } from 'zod';

/** How many tests a stage ran, as its own report says. */
export interface Counts {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}

const NONE: Counts = { passed: 0, failed: 0, skipped: 0 };
const count = z.number().int().nonnegative();

/** The part of vitest's JSON report that is read here. */
const unitReport = z
  .object({
    numPassedTests: count,
    numFailedTests: count,
    numPendingTests: count,
    numTodoTests: count,
    testResults: z.array(z.object({ status: z.string(), assertionResults: z.array(z.unknown()) })),
  })
  .transform((report): Counts => {
    // A file that does not even load has no tests to fail, and still is a failure.
    const unloadable = report.testResults.filter(
      ({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0,
    );
    return {
      passed: report.numPassedTests,
      failed: report.numFailedTests + unloadable.length,
      skipped: report.numPendingTests + report.numTodoTests,
    };
  });

/** The part of Playwright's JSON report that is read here. A test that passed at its second try has passed; the report names it. */
const browserReport = z
  .object({
    stats: z.object({ expected: count, unexpected: count, flaky: count, skipped: count }),
    errors: z.array(z.unknown()),
  })
  .transform(
    ({ stats, errors }): Counts => ({
      passed: stats.expected + stats.flaky,
      failed: stats.unexpected + errors.length,
      skipped: stats.skipped,
    }),
  );

function read(file: string, report: z.ZodType<Counts>): Counts {
  try {
    return report.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch (error) {
    console.error(`${file}: no readable report (${error instanceof Error ? error.message : String(error)})`);
    return NONE;
  }
}

export const readUnitCounts = (file: string): Counts => read(file, unitReport);
export const readBrowserCounts = (file: string): Counts => read(file, browserReport);

/** What is wrong with a stage's counts even when its command was content: nothing ran, or something was left out. */
export function faultOfCounts({ passed, failed, skipped }: Counts): string | undefined {
  if (passed + failed === 0) return 'no test ran';
  if (skipped > 0) return `${skipped} skipped: every test has to run`;
  if (failed > 0) return `${failed} failed`;
  return undefined;
}
