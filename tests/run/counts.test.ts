import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { faultOfCounts, readBrowserCounts, readUnitCounts } from './counts.ts';

const folder = mkdtempSync(join(tmpdir(), 'counts-'));
afterAll(() => rmSync(folder, { recursive: true }));

function reportOf(content: unknown): string {
  const file = join(folder, 'report.json');
  writeFileSync(file, JSON.stringify(content));
  return file;
}

describe('counting what a report says', () => {
  it('unit tests: skipped and postponed ones count as skipped, a file that does not load as failed', () => {
    const file = reportOf({
      numPassedTests: 7,
      numFailedTests: 1,
      numPendingTests: 2,
      numTodoTests: 3,
      testResults: [
        { status: 'passed', assertionResults: [{}] },
        { status: 'failed', assertionResults: [{}] },
        { status: 'failed', assertionResults: [] },
      ],
    });
    expect(readUnitCounts(file)).toEqual({ passed: 7, failed: 2, skipped: 5 });
  });

  it('browser tests: one that passed at its second try has passed, an error outside of any test counts as failed', () => {
    const file = reportOf({ stats: { expected: 5, unexpected: 1, flaky: 1, skipped: 2 }, errors: [{}] });
    expect(readBrowserCounts(file)).toEqual({ passed: 6, failed: 2, skipped: 2 });
  });

  it('a report that is missing or unreadable counts nothing, and says so', () => {
    const said = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    expect(readUnitCounts(join(folder, 'none.json'))).toEqual({ passed: 0, failed: 0, skipped: 0 });
    expect(readBrowserCounts(reportOf({ stats: 'many' }))).toEqual({ passed: 0, failed: 0, skipped: 0 });
    expect(said).toHaveBeenCalledTimes(2);
    said.mockRestore();
  });
});

describe('what is wrong with a stage', () => {
  it.each([
    [{ passed: 3, failed: 0, skipped: 0 }, undefined],
    [{ passed: 0, failed: 0, skipped: 0 }, 'no test ran'],
    [{ passed: 0, failed: 0, skipped: 4 }, 'no test ran'],
    [{ passed: 3, failed: 0, skipped: 1 }, '1 skipped: every test has to run'],
    [{ passed: 3, failed: 2, skipped: 0 }, '2 failed'],
  ])('%o: %s', (counts, fault) => expect(faultOfCounts(counts)).toBe(fault));
});
