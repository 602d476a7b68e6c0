/** Runs every tests/bench/*.bench.ts in turn, each in a process of its own; with a name, only the files that contain it. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { PROJECT, run } from './stage.ts';

const wanted = process.argv[2] ?? '';
const all = readdirSync(join(PROJECT, 'tests/bench')).filter((file) => file.endsWith('.bench.ts'));
const chosen = all.filter((file) => file.includes(wanted)).sort();
if (chosen.length === 0) {
  console.error(`No benchmark is called "${wanted}". There are: ${all.join(', ') || 'none yet'}.`);
  process.exitCode = 2;
}
for (const file of chosen) {
  console.log(`\n== ${file.replace('.bench.ts', '')} ==`);
  const code = await run('node_modules/.bin/tsx', [join('tests/bench', file)]);
  if (code !== 0) process.exitCode = 1;
}
