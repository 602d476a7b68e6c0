import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { zipSync } from 'fflate';
import type { BuildFile } from '../exporter.ts';
import { fileStem } from '../file-name.ts';
import type { BuildParts } from '../parts.ts';

const encoder = new TextEncoder();

/** The earliest day a zip can state, by the clock of wherever this runs: the same files then give the same bytes. */
const NO_DAY = new Date(1980, 0, 1);

/** What is packed with the files of any bundle: the design, a README that says what is what, and a hash of every file. */
export const DESIGN_IN_BUNDLE = 'design.legroom.json';
const READ_ME = 'README.txt';
const HASHES = 'SHA256SUMS';

/** Files as one zip, with the design, a README and a manifest of hashes; the same design, choices and day give the same bytes. */
export function bundle(parts: BuildParts, files: readonly BuildFile[]): BuildFile {
  const contents = new Map<string, Uint8Array>([[DESIGN_IN_BUNDLE, encoder.encode(parts.designFile)]]);
  for (const { name, bytes } of files) contents.set(name, bytes);
  contents.set(READ_ME, encoder.encode(readMe(parts, files)));
  const sums = [...contents].map(([name, bytes]) => `${bytesToHex(sha256(bytes))}  ${name}\n`).join('');
  contents.set(HASHES, encoder.encode(sums));
  return {
    name: `${fileStem(parts.name)}.zip`,
    side: null,
    bytes: zipSync(Object.fromEntries(contents), { level: 6, mtime: NO_DAY }),
    warnings: warningsOf(parts, files),
  };
}

/** Every warning once. */
export const warningsOf = (parts: BuildParts, files: readonly BuildFile[]): readonly string[] => [
  ...new Set([...parts.findings, ...files.flatMap(({ warnings }) => warnings)]),
];

function readMe(parts: BuildParts, files: readonly BuildFile[]): string {
  const warnings = warningsOf(parts, files);
  return `${parts.name}
Design hash ${parts.hash}. Written ${parts.date} by ${parts.program}.

What is in here
${DESIGN_IN_BUNDLE.padEnd(44)} the design itself: opens in the program
${files.map(({ name, bytes }) => `${name.padEnd(44)} ${bytes.length} bytes`).join('\n')}
${HASHES.padEnd(44)} check with: sha256sum -c ${HASHES}

Lengths are in mm, angles in deg unless a format or a name says otherwise (robot models and glTF: metres, radians).
Plates are drawn in their own frame, seen from above, +X to the right; files called "mirrored" are seen from below.
Print drawings at 100 % and measure both 100 mm rules before cutting.

${warnings.length > 0 ? `Warnings\n${warnings.map((warning) => `! ${warning}`).join('\n')}` : 'No warnings.'}

Cautions
Everything here follows from the numbers of the design. It does not know your parts, your load or your room.
Keep hands out of the space between plates and legs. Give every leg an end switch. Support the platform before power goes off.
Nothing here makes a platform fit to carry people. Local codes and a licensed engineer decide.
`;
}
