/**
 * Every file that leaves the program, of many designs, opened by readers that have nothing of this project. Exit code 0 only if every file that
 * could be read was read without a complaint; readers that are not here are named at the end, never passed over.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { EXPORTERS } from '../../src/build/exporters.ts';
import { type BuildParts, SIDES } from '../../src/build/parts.ts';
import { drilledPlate } from '../../src/build/plate-holes.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { namesOf } from '../../src/math/record.ts';
import { CASES, partsFrom } from '../build/build-cases.ts';
import { READERS } from '../outside/readers.ts';

const folder = mkdtempSync(join(tmpdir(), 'legroom-outside-'));
const read = new Map(READERS.map(({ name }) => [name, 0]));
const missing = new Map(READERS.map(({ name, missing: lacks }) => [name, lacks()]));
const faults: string[] = [];
const unread = new Set<string>();
let files = 0;

for (const [title, design] of Object.entries(CASES)) {
  const parts = partsFrom(design());
  for (const id of namesOf(EXPORTERS)) {
    const made = await EXPORTERS[id].write(parts, SIDES, neverStop);
    if (!made.ok) {
      faults.push(`${title}, ${id}: ${made.fault.message}`);
      continue;
    }
    for (const { name, bytes } of made.value) {
      files += 1;
      const path = join(folder, name);
      writeFileSync(path, bytes);
      const readers = READERS.filter(({ endings }) => endings.some((ending) => name.endsWith(`.${ending}`)));
      if (readers.length === 0) unread.add(id);
      for (const reader of readers) {
        if (missing.get(reader.name) !== null) continue;
        read.set(reader.name, (read.get(reader.name) ?? 0) + 1);
        const complaints = await reader.read({ path, bytes, volume: plateVolume(parts, name) });
        faults.push(...complaints.map((complaint) => `${title}, ${name}, ${reader.name}: ${complaint}`));
      }
    }
  }
  console.log(`${title}: written and read`);
}
rmSync(folder, { recursive: true });

/** Volume of a round plate with round holes, by its closed form [mm^3]. */
function plateVolume(parts: BuildParts, name: string): number | null {
  const side = SIDES.find((one) => name.endsWith(`-${one}.step`));
  if (!side) return null;
  const { outline, opening, thickness } = parts.plates[side];
  if (outline.kind !== 'disc') return null;
  const holes = drilledPlate(parts, side).holes.reduce((sum, { radius }) => sum + radius ** 2, opening ** 2);
  return Math.PI * (outline.radius ** 2 - holes) * thickness;
}

console.log('\n== outside readers ==');
for (const [name, count] of read) console.log(`${name.padEnd(32)}${String(count).padStart(5)} files`);
for (const fault of faults) console.log(`FAULT ${fault}`);
for (const id of unread) console.log(`FAULT no reader for ${id}`);
const lacking = [...missing].filter(([, lacks]) => lacks !== null);
console.log(`${files} files of ${Object.keys(CASES).length} designs, ${faults.length} faults.`);
console.log(
  lacking.length === 0
    ? 'All readers are here.'
    : `${lacking.length} readers are missing: ${lacking.map(([name, lacks]) => `${name} (${lacks})`).join(', ')}`,
);
process.exitCode = faults.length === 0 && unread.size === 0 ? 0 : 1;
