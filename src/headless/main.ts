import { readCapped, readFileCapped } from './input.ts';
import { unwritable } from './output-target.ts';
import { progressLine } from './progress.ts';
import { run } from './run.ts';
import { writeTaken } from './taken.ts';

/** What a shell reports of a program that SIGPIPE ended (128 + 13), which Node.js turns into an error. */
const READER_GONE = 141;

const progress = progressLine(process.stderr);

// without a reader there is nothing left to do; `head` that has seen enough is no fault that needs words
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(READER_GONE);
  progress.clear();
  process.stderr.write(`${unwritable('Standard output', error).message}\n`);
  process.exit(2);
});
// nowhere to say anything is nothing that could be said
process.stderr.on('error', () => undefined);

process.exitCode = await run(process.argv.slice(2), {
  readFile: readFileCapped,
  readStandardInput: () => readCapped(process.stdin),
  out: (text) => writeTaken(process.stdout, text),
  err(text) {
    progress.clear();
    process.stderr.write(text);
  },
  progress: progress.show,
});
progress.clear();
