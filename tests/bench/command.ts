/** The whole command as a user has it: how long it takes, and the most memory that it had. */
import '../nothing-kept.js';
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const preload = (script: string): string => `data:text/javascript,${encodeURIComponent(script)}`;

/**
 * Prints the largest memory that the whole process, threads and all, had resident, kB, on a stream of its own. Where the system tells it by
 * itself, not by `resourceUsage`: what that tells begins with the memory of the process that started this one, which is the bench.
 */
const TELL_MEMORY = preload(
  'import { readFileSync, writeSync } from "node:fs"; import { isMainThread } from "node:worker_threads"; const most = () => { try { return /VmHWM:\\s*(\\d+)/.exec(readFileSync("/proc/self/status", "utf8"))[1]; } catch { return process.resourceUsage().maxRSS; } }; if (isMainThread) process.on("exit", () => writeSync(3, String(most())));',
);
/** Has the bar drawn as on a terminal, each time behind the ms since the start. */
const TELL_BAR = preload(
  'import { isMainThread } from "node:worker_threads"; if (isMainThread) { const { stderr } = process; const write = stderr.write.bind(stderr); stderr.isTTY = true; stderr.write = (text, ...more) => write(performance.now() + text, ...more); }',
);

export interface CommandRun {
  ms: number;
  mb: number;
  /** Each time that the bar was drawn, where it was asked for. */
  bars: Bar[];
}

/** What a bar said. */
export interface Bar {
  ms: number;
  files: number;
  leftMs: number;
}

/**
 * Runs `lieflat` once; what it prints goes nowhere.
 *
 * @param root the folder of the project, which has been built
 * @param seen `bar` tells the command that it writes to a terminal
 * @throws Error where it ends otherwise than by an exit code, or by one over `worst`
 */
export function runCommand(root: URL, args: readonly string[], worst = 1, seen?: 'bar'): CommandRun {
  const main = fileURLToPath(new URL('.build/cli/main.js', root));
  const before = [TELL_MEMORY, ...(seen ? [TELL_BAR] : [])].flatMap((one) => ['--import', one]);
  const start = performance.now();
  const done = spawnSync(process.execPath, [...before, main, ...args], {
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
    bars: [...done.stderr.matchAll(BAR)].map(([, at, files, left, unit]) => ({
      ms: Number(at),
      files: Number(files.replaceAll(',', '')),
      leftMs: Number(left) * MS[unit as keyof typeof MS],
    })),
  };
}

const BAR = /([\d.]+)\r\[[#.]+\] ([\d,]+) of [\d,]+ files, about ([\d.]+) (s|min|h) left/g;
const MS = { s: 1000, min: 60_000, h: 3_600_000 };
