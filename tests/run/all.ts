/**
 * Everything that holds the project, one stage after the other: the browser of the tests, lint, types, import rules, unit and published checks,
 * production build, browser tests on that build. Every stage runs even if an earlier one failed, except that there
 * is nothing to drive in a browser without a build or a browser. Exit code 0 only if all passed.
 */
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { type Counts, faultOfCounts, readBrowserCounts, readUnitCounts } from './counts.ts';
import { PROJECT, runStage, type StageResult } from './stage.ts';

const reports = join(PROJECT, 'test-results');
const unitFile = join(reports, 'unit.json');
const browserFile = join(reports, 'browser.json');

// An old report must never be taken for a new one.
rmSync(reports, { recursive: true, force: true });
mkdirSync(reports);

// first, because it says what it installs
const found = await runStage('browser of the tests', ['browser:find']);
const stages: StageResult[] = [
  found,
  await runStage('lint', ['lint']),
  await runStage('types', ['types']),
  await runStage('import rules', ['imports']),
];

let unit: Counts = { passed: 0, failed: 0, skipped: 0 };
const unitReporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${unitFile}`];
stages.push(
  await runStage('unit and published checks', ['unit', '--', ...unitReporters], () => {
    unit = readUnitCounts(unitFile);
    return faultOfCounts(unit);
  }),
);

const build = await runStage('production build', ['build']);
stages.push(build);

let browser: Counts = { passed: 0, failed: 0, skipped: 0 };
if (build.passed && found.passed) {
  stages.push(
    await runStage('browser tests', ['browser:built'], () => {
      browser = readBrowserCounts(browserFile);
      return faultOfCounts(browser);
    }),
  );
} else {
  stages.push({
    name: 'browser tests',
    passed: false,
    seconds: 0,
    remark: `not run: ${found.passed ? 'no build to drive' : 'no browser'}`,
  });
}

console.log('\n== result ==');
for (const { name, passed, seconds, remark } of stages) {
  const line = `${name.padEnd(28)}${passed ? 'passed' : 'FAILED'}${seconds.toFixed(1).padStart(8)} s`;
  console.log(remark === undefined ? line : `${line}   ${remark}`);
}
const passed = unit.passed + browser.passed;
const failed = unit.failed + browser.failed;
process.exitCode = stages.every((stage) => stage.passed) ? 0 : 1;
console.log(`Tests: ${passed} passed, ${failed} failed`);
