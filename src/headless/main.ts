import { readCapped, readFileCapped } from './input.ts';
import { progressLine } from './progress.ts';
import { run } from './run.ts';

// a reader that stops early, such as `head`, is no fault of ours
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

const progress = progressLine(process.stderr);

process.exitCode = await run(process.argv.slice(2), {
  readFile: readFileCapped,
  readStandardInput: () => readCapped(process.stdin),
  out: (text) => new Promise((resolve) => process.stdout.write(text, () => resolve())),
  err(text) {
    progress.clear();
    process.stderr.write(text);
  },
  progress: progress.show,
});
progress.clear();
