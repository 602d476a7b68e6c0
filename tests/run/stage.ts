import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The folder of package.json: every command runs there. */
export const PROJECT = fileURLToPath(new URL('../..', import.meta.url));

export interface StageResult {
  readonly name: string;
  readonly passed: boolean;
  readonly seconds: number;
  /** One line about what was wrong, when more is to be said than the stage's own output says. */
  readonly remark?: string;
}

/** Runs a command with its output shown as it comes. Resolves with the exit code; a command that cannot start has code 127. */
export function run(command: string, args: readonly string[], environment: NodeJS.ProcessEnv = {}): Promise<number> {
  return new Promise((resolve) => {
    const child = spawn(command, args, { cwd: PROJECT, stdio: 'inherit', env: { ...process.env, ...environment } });
    child.once('error', (error) => {
      console.error(`${command} could not be started: ${error.message}`);
      resolve(127);
    });
    child.once('exit', (code) => resolve(code ?? 1));
  });
}

/** Runs one npm script as a stage. `verdict` may find fault with a stage whose command succeeded. */
export async function runStage(
  name: string,
  script: readonly string[],
  verdict: () => string | undefined = () => undefined,
): Promise<StageResult> {
  console.log(`\n== ${name} ==`);
  const start = performance.now();
  const code = await run('npm', ['run', '--silent', ...script]);
  const remark = verdict();
  const seconds = (performance.now() - start) / 1000;
  const passed = code === 0 && remark === undefined;
  console.log(`${name}: ${passed ? 'passed' : 'FAILED'} in ${seconds.toFixed(1)} s${remark ? ` (${remark})` : ''}`);
  return { name, passed, seconds, ...(remark === undefined ? {} : { remark }) };
}
