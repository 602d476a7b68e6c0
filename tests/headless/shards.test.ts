import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import type { SweepDocument } from '../../src/document/sweep-file.ts';
import { command, DEMO, designFile } from './command.ts';

const SWEEP: SweepDocument = {
  format: 'legroom-sweep',
  version: 1,
  variables: [
    { name: 'baseGap_deg', from: 10, to: 100, count: 7 },
    { name: 'platformGap_deg', from: 10, to: 100, count: 7 },
  ],
  tilt_deg: 6,
  firmnessFloor: 0.25,
  deadLength_mm: 0,
};

/** What GNU parallel does with the arguments of the example, one after the other: `parallel --jobs 1 COMMAND ::: VALUES`. */
const STAND_IN = `#!/usr/bin/env bash
shift 2
words=()
while [ "$1" != ":::" ]; do words+=("$1"); shift; done
shift
for value; do "\${words[@]//\\{\\}/$value}" || exit 1; done
`;

const folder = mkdtempSync(join(tmpdir(), 'legroom-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (...names: string[]): string => join(folder, ...names);

const run = (text: string, cwd: string): void => {
  const { status, stdout, stderr } = spawnSync('bash', ['-c', text], {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, PATH: `${at('programs')}:${process.env['PATH'] ?? ''}` },
  });
  expect([status, stdout], stderr).toEqual([0, '']);
};

const program = (name: string, text: string): void => {
  mkdirSync(at('programs'), { recursive: true });
  writeFileSync(at('programs', name), text);
  chmodSync(at('programs', name), 0o755);
};

it('the example of README.md, two machines played by two folders, gives the table of one run', async () => {
  const example = /```sh\n# first machine\n(.*)\n# second machine\n(.*)\n# where all parts are\n(.*)\n```/.exec(
    readFileSync(designFile('README.md'), 'utf8'),
  );
  if (!example) throw new Error('README.md has no such example');
  // six shards instead of sixty-four: what is tried is how they are given out and joined
  const [first, second, join_] = example
    .slice(1)
    .map((line) => line.replaceAll('64', '6').replace('seq 1 32', 'seq 1 3').replace('seq 33 6', 'seq 4 6'));
  // GNU parallel itself where it is installed
  if (spawnSync('parallel', ['--version']).status !== 0) program('parallel', STAND_IN);
  const npm = spawnSync('bash', ['-c', 'command -v npm'], { encoding: 'utf8' }).stdout.trim();
  // the example stands in a checkout; these folders do not
  program('npm', `#!/usr/bin/env bash\nexec "${npm}" --prefix "${designFile('.')}" "$@"\n`);
  for (const machine of ['first', 'second', 'whole']) {
    mkdirSync(at(machine));
    cpSync(DEMO('steady'), at(machine, 'design.json'));
    writeFileSync(at(machine, 'sweep.json'), JSON.stringify(SWEEP));
  }
  run(first, at('first'));
  // one shard was killed half way through, and all are given out again
  const part = at('first', 'part-2.ndjson');
  writeFileSync(part, readFileSync(part).subarray(0, 900));
  run(first, at('first'));
  run(second, at('second'));
  expect(readdirSync(at('second')).filter((name) => name.startsWith('part-'))).toHaveLength(3);
  for (const name of readdirSync(at('second'))) cpSync(at('second', name), at('first', name));
  run(join_, at('first'));
  const whole = await command(['explore', at('whole', 'design.json'), '--spec', at('whole', 'sweep.json')]);
  expect(readFileSync(at('first', 'table.ndjson'), 'utf8')).toBe(whole.out);
});
