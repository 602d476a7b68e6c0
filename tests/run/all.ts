/**
 * Everything that holds the project, one stage after the other: the browser of the tests, lint, types, import rules, unit
 * and published checks, production build and the size of its first load, browser tests on that build, a short run of it in
 * Firefox where that is installed. Every stage runs even if an earlier one failed, except that there is nothing to drive
 * in a browser without a build or a browser. Exit code 0 only if all passed.
 */
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { type Counts, faultOfCounts, readBrowserCounts, readUnitCounts } from './counts.ts';
import { findFirefox, NO_FIREFOX } from './firefox.ts';
import { faultOfInitialLoad } from './initial-load.ts';
import { PROJECT, runStage, type StageResult } from './stage.ts';

const reports = join(PROJECT, 'test-results');
const unitFile = join(reports, 'unit.json');
const browserFile = join(reports, 'browser.json');
const firefoxFile = join(reports, 'firefox.json');

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
if (build.passed) {
  const remark = faultOfInitialLoad(join(PROJECT, 'dist'));
  stages.push({ name: 'first load', passed: remark === undefined, seconds: 0, ...(remark && { remark }) });
}

let firefox: Counts = { passed: 0, failed: 0, skipped: 0 };
const hasFirefox = findFirefox() !== null;
let browser: Counts = { passed: 0, failed: 0, skipped: 0 };
if (build.passed && found.passed) {
  stages.push(
    await runStage('browser tests', ['browser:built'], () => {
      browser = readBrowserCounts(browserFile);
      return faultOfCounts(browser);
    }),
  );
  if (hasFirefox) {
    const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${firefoxFile}`];
    stages.push(
      await runStage('second browser', ['firefox:built', '--', ...reporters], () => {
        firefox = readUnitCounts(firefoxFile);
        return faultOfCounts(firefox);
      }),
    );
  }
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
const passed = unit.passed + browser.passed + firefox.passed;
const failed = unit.failed + browser.failed + firefox.failed;
if (!hasFirefox) console.log(NO_FIREFOX);
process.exitCode = stages.every((stage) => stage.passed) ? 0 : 1;
console.log(`Tests: ${passed} passed, ${failed} failed`);
