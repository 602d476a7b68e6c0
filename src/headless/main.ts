import { readCapped, readFileCapped } from './input.ts';
import { run } from './run.ts';

process.exitCode = await run(process.argv.slice(2), {
  readFile: readFileCapped,
  readStandardInput: () => readCapped(process.stdin),
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
});
