import type { DesignDocument } from '../document/design.ts';
import type { DesignFault } from '../document/faults.ts';
import { readDesign } from '../document/read-design.ts';
import { failed, type Result } from '../math/result.ts';
import { type Io, STANDARD_INPUT } from './io.ts';
import type { Option } from './option.ts';
import { type FileArguments, type Outcome, refused, type Verb, type VerbRequest } from './verb.ts';

/** One design file. */
export const ONE_DESIGN: FileArguments = {
  name: 'FILE',
  limit: 'a design file, or - for standard input',
  least: 1,
  most: 1,
};

/** A verb about one design, which is read before it runs. */
export interface DesignVerb {
  readonly options: readonly Option<unknown>[];
  readonly asksForce?: true;
  run(document: DesignDocument, request: VerbRequest, io: Io): Outcome | Promise<Outcome>;
}

export const designVerb = ({ run, ...rest }: DesignVerb): Verb => ({
  ...rest,
  files: ONE_DESIGN,
  async run(request, io) {
    const design = await readDesignFile(request.files[0], io);
    return design.ok ? run(design.value, request, io) : refused(design.fault);
  },
});

/** Reads a design from a file, or from standard input for `-`. */
export async function readDesignFile(path: string, io: Io): Promise<Result<DesignDocument, readonly DesignFault[]>> {
  const bytes = await (path === STANDARD_INPUT ? io.readStandardInput() : io.readFile(path));
  return bytes.ok ? readDesign(bytes.value) : failed([bytes.fault]);
}
