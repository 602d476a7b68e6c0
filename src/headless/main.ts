import { readCapped, readFileCapped } from './input.ts';
import { run } from './run.ts';

// a reader that stops early, such as `head`, is no fault of ours
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await run(process.argv.slice(2), {
  readFile: readFileCapped,
  readStandardInput: () => readCapped(process.stdin),
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
});
