import type { PlateName } from '../../kinematics/layout.ts';
import { failed, ok } from '../../math/result.ts';
import { bracketKinds } from '../bracket-kinds.ts';
import { type BuildFile, CANCELLED, type Exporter, textFile } from '../exporter.ts';
import { fileStem } from '../file-name.ts';
import { type BuildParts, SIDE_WORDS } from '../parts.ts';
import { bracketShape } from './bracket-shape.ts';
import { plateShape } from './plate-solid.ts';
import { bracketStep, plateStep } from './step-shapes.ts';

/** What a solid says when a plate cannot be one. */
export const NO_SOLID = 'not made as a solid, because holes run into each other or over an edge';

export const step: Exporter = {
  words: 'STEP solids',
  says: 'Both plates and every distinct bracket with exact faces, for milling (application protocol 214, mm).',
  purpose: 'cut',
  ending: 'step',
  async write(parts, sides, work) {
    const files: BuildFile[] = [];
    for (const side of sides) {
      if (work.shouldStop()) return failed(CANCELLED);
      files.push(...sideSolids(parts, side));
    }
    return files.length > 0 ? ok(files) : failed({ kind: 'impossible', message: 'None of the solids can be made.' });
  },
};

function sideSolids(parts: BuildParts, side: PlateName): readonly BuildFile[] {
  const stem = fileStem(parts.name);
  const description = `Design ${parts.hash}, ${parts.date}. Check before cutting.`;
  const shape = plateShape(parts, side);
  const left: string[] = shape ? [] : [`${SIDE_WORDS[side]}: ${NO_SOLID}.`];
  const files: BuildFile[] = [];
  if (shape) {
    const text = plateStep(shape).finish(`${parts.name}, ${side}`, description, parts.date, parts.program);
    files.push(textFile(`${stem}-${side}.step`, side, text, parts.findings));
  }
  for (const [n, kind] of bracketKinds(parts, side).entries()) {
    const bracket = bracketShape(parts, side, kind);
    if (!bracket.shape) left.push(...bracket.warnings);
    else {
      const name = `${parts.name}, ${side} bracket ${n + 1}`;
      const text = bracketStep(bracket.shape).finish(name, description, parts.date, parts.program);
      files.push(textFile(`${stem}-${side}-bracket-${n + 1}.step`, side, text, bracket.warnings));
    }
  }
  // what could not be made is told with the files that were
  const [first, ...others] = files;
  return first ? [{ ...first, warnings: [...first.warnings, ...left] }, ...others] : [];
}
