import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { judgementInputs } from '../../src/document/judgement-inputs.ts';
import { readDesign } from '../../src/document/read-design.ts';
import { linkFragment, readLinkFragment } from '../../src/document/share-link.ts';
import { readSweep, STANDARD_SWEEP } from '../../src/document/sweep-file.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { writeDesign } from '../../src/document/write-design.ts';
import { mergeTables } from '../../src/headless/explore/table-merge.ts';
import { assessStiffness } from '../../src/kinematics/stiffness.ts';
import { FieldPoint, isSingularCondition, QUANTITY_INDEX } from '../../src/reach/field/field-point.ts';
import { readMesh } from '../../src/state/mesh/read-mesh.ts';
import { QUANTITIES, QUANTITY_NAMES } from '../../src/terms/quantities.ts';
import { anyDesign } from '../document/arbitrary-design.ts';
import { samples } from '../document/sample-files.ts';
import { command, DEMO } from '../headless/command.ts';
import { binaryStl, boxGltf, boxTriangles, glb, textGltf, textStl } from '../state/mesh/mesh-files.ts';

/** What must hold for a case; it throws where it does not. */
type Property = fc.IRawProperty<unknown, boolean>;

/** A subject, and what has to be put away after it. */
export interface Subject {
  readonly property: Property;
  readonly end: () => void;
}

const NOTHING = () => undefined;

function holds(sure: boolean, what: string): void {
  if (!sure) throw new Error(what);
}

/** Names and values in a fault are quoted; outside of quotes no number that is none may show. */
const NO_NUMBER = /NaN|Infinity|undefined/;
const unquoted = (text: string): string => text.replace(/"(?:[^"\\]|\\.)*"/g, '');

/** Bytes with some of them replaced, taken out or cut off. */
const mangled = (files: readonly Uint8Array[]) =>
  fc
    .record({
      file: fc.nat(files.length - 1),
      puts: fc.array(fc.record({ at: fc.nat(), bytes: fc.uint8Array({ maxLength: 6 }), drop: fc.nat(6) }), {
        maxLength: 4,
      }),
      cut: fc.option(fc.nat(), { freq: 5 }),
    })
    .map(({ file, puts, cut }) => {
      let bytes = Array.from(files[file]);
      for (const { at, bytes: put, drop } of puts) bytes.splice(at % (bytes.length + 1), drop, ...put);
      if (cut !== null) bytes = bytes.slice(0, cut % (bytes.length + 1));
      return Uint8Array.from(bytes);
    });

/** A mangled design is refused with a sentence, or reads the same again from what is written of it. */
function designs(): Property {
  const files = samples('valid').map(({ bytes }) => bytes);
  const input = fc.oneof(
    mangled(files),
    anyDesign.map((design) => new TextEncoder().encode(writeDesign(design))),
  );
  return fc.property(input, (bytes) => {
    const read = readDesign(bytes);
    if (!read.ok) {
      holds(read.fault.length > 0, 'refused without a fault');
      for (const { message } of read.fault) holds(/ is .+; it must be .+\. .+\.$/s.test(message), message);
      return;
    }
    const text = writeDesign(read.value);
    const again = readDesign(text);
    holds(again.ok && writeDesign(again.value) === text, 'does not read again as it was written');
  });
}

function links(): Property {
  const fragments = samples('valid').flatMap(({ bytes }) => {
    const read = readDesign(bytes);
    return read.ok ? [new TextEncoder().encode(linkFragment(read.value))] : [];
  });
  return fc.property(mangled(fragments), (bytes) => {
    const read = readLinkFragment(new TextDecoder('latin1').decode(bytes));
    if (!read.ok) holds(read.fault.length > 0, 'refused without a fault');
    else holds(readDesign(writeDesign(read.value)).ok, 'a link gave a design that does not read');
  });
}

function sweeps(): Property {
  const file = new TextEncoder().encode(JSON.stringify(STANDARD_SWEEP));
  return fc.property(mangled([file]), (bytes) => {
    const read = readSweep(bytes);
    if (!read.ok) for (const { message } of read.fault) holds(/ is .+; it must be .+\. .+\.$/s.test(message), message);
  });
}

function meshes(): Property {
  const box = boxTriangles([30, 20, 10]);
  const files = [binaryStl(box), textStl(box), glb(boxGltf([3, 2, 1])), textGltf(boxGltf([3, 2, 1]))];
  return fc.asyncProperty(mangled(files), async (bytes) => {
    const read = await readMesh('some.stl', bytes);
    if (!read.ok) holds(/^some\.stl is .+; it must be .+\. .+\.$/s.test(read.fault.message), read.fault.message);
    else holds(read.value.triangles.every(Number.isFinite), 'a corner is no number');
  });
}

/** Sweep tables that were mangled are refused or joined, and nothing throws. */
async function tables(): Promise<Subject> {
  const folder = mkdtempSync(join(tmpdir(), 'tables-'));
  const end = () => rmSync(folder, { recursive: true });
  const spec = join(folder, 'sweep.json');
  const variables = [{ name: 'baseGap_deg', from: 10, to: 40, count: 4 }];
  writeFileSync(spec, JSON.stringify({ ...STANDARD_SWEEP, variables }));
  const files: Uint8Array[] = [];
  for (const ending of ['ndjson', 'csv']) {
    const out = join(folder, `table.${ending}`);
    const { code, err } = await command(['explore', DEMO('even'), '--spec', spec, '--out', out]);
    holds(code === 0, err);
    files.push(readFileSync(out));
  }
  const input = fc.tuple(mangled(files), fc.constantFrom('ndjson' as const, 'csv' as const));
  const property = fc.asyncProperty(input, async ([bytes, kind]) => {
    const path = join(folder, `part.${kind}`);
    writeFileSync(path, bytes);
    const merged = await mergeTables([path], kind);
    if (!merged.ok) holds(merged.fault.message.length > 0, 'refused without a message');
  });
  return { property, end };
}

/** A verb of the command line on designs that are accepted: an exit code, JSON without NaN, no throw. */
const verb = (argv: readonly string[]): Property =>
  fc.asyncProperty(anyDesign, async (design) => {
    const { code, out, err } = await command(argv, writeDesign(design));
    // some floors need more than every design says: a refusal in words, and nothing printed
    holds(code !== 2 || (out === '' && /it must be .+/.test(err)), err);
    holds(code >= 0 && code <= 2, `exit ${code}`);
    holds(!NO_NUMBER.test(unquoted(`${out}${err}`)), `${out}${err}`.slice(0, 2000));
    if (out.startsWith('{')) JSON.parse(out);
  });

/**
 * Every quantity that a field shows, and stiffness with its natural frequencies, at the home pose of designs that are accepted: numbers,
 * unless the pose is singular.
 */
const field = (): Property =>
  fc.property(anyDesign, (design) => {
    const mechanism = mechanismFromDocument(design);
    const settings = judgementInputs(design, mechanism);
    const { stiffness, load } = settings;
    const wanted = QUANTITY_NAMES.filter((name) => stiffness !== null || QUANTITIES[name].needs !== 'stiffness');
    const point = FieldPoint.create(mechanism, mechanism.home.R_BP, settings, wanted);
    if (!point.ok) throw new Error(point.fault.message);
    point.value.judge(...mechanism.home.p_BoTo_B);
    const { values } = point.value;
    const singular = isSingularCondition(values[QUANTITY_INDEX.condition]);
    for (const name of wanted) holds(singular || !Number.isNaN(values[QUANTITY_INDEX[name]]), `${name} is no number`);
    if (!stiffness) return;
    const report = assessStiffness(mechanism, mechanism.home, stiffness, load);
    if (!report.ok) {
      holds(report.fault.kind === 'singular', report.fault.message);
      return;
    }
    const { modes, weakestTranslation } = report.value;
    holds(modes.frequencies.every(Number.isFinite), `frequencies ${modes.frequencies.join()}`);
    holds(weakestTranslation.stiffness > 0, `stiffness ${weakestTranslation.stiffness}`);
  });

const BOX = '5,5,5,1,1,1';

/** Everything that is fuzzed, by its name on the command line. */
export const SUBJECTS: Readonly<Record<string, () => Subject | Promise<Subject>>> = {
  designs: () => ({ property: designs(), end: NOTHING }),
  links: () => ({ property: links(), end: NOTHING }),
  sweeps: () => ({ property: sweeps(), end: NOTHING }),
  meshes: () => ({ property: meshes(), end: NOTHING }),
  tables,
  prove: () => ({ property: verb(['prove', '-', '--box', BOX, '--depth', '2']), end: NOTHING }),
  reach: () => ({ property: verb(['reach', '-', '--error', '0.2']), end: NOTHING }),
  field: () => ({ property: field(), end: NOTHING }),
};
