/** The whole command as a user has it: how long it takes, and the most memory that it had. */
import '../nothing-kept.js';
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Prints the largest memory that the whole process, threads and all, had resident, kB, on a stream of its own. */
const TELL_MEMORY = `data:text/javascript,${encodeURIComponent(
  'import { writeSync } from "node:fs"; import { isMainThread } from "node:worker_threads"; if (isMainThread) process.on("exit", () => writeSync(3, String(process.resourceUsage().maxRSS)));',
)}`;

export interface CommandRun {
  ms: number;
  mb: number;
  code: number;
  /** Lines in which the command names what it could not do. */
  errors: string[];
}

/**
 * Runs `lieflat` once; what it prints goes nowhere.
 *
 * @param root the folder of the project, which has been built
 * @throws Error where it ends otherwise than by an exit code, or by one over `worst`
 */
export function runCommand(root: URL, args: readonly string[], worst = 1): CommandRun {
  const main = fileURLToPath(new URL('.build/cli/main.js', root));
  const start = performance.now();
  const done = spawnSync(process.execPath, ['--import', TELL_MEMORY, main, ...args], {
    stdio: ['ignore', 'ignore', 'pipe', 'pipe'],
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  const ms = performance.now() - start;
  if (done.status === null || done.status > worst)
    throw new Error(`lieflat ${args[0]} failed: ${done.stderr.split('\n')[0]}`);
  return {
    ms,
    mb: Number(done.output[3]) / 1024,
    code: done.status,
    errors: done.stderr.split('\n').filter((line) => line.startsWith('lieflat: ')),
  };
}
