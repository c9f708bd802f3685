/**
 * Gives lieflat spoiled and random input, to its decoders and to every command, and holds it to what must be true of any.
 *
 *     npm run fuzz [-- --count 200000 --each 5000 --seed 1 --only decoders,dst,csv,profile,vet,… --processes 2]
 *     npm run fuzz -- --replay .cache/fuzz/card-1234.json
 *
 * Input number N is made of seed + N alone. One that fails is made smaller and kept as a case to replay; `tests/regressions` holds those
 * that failed once. Inputs are worked on by processes of their own: one that takes too long or too much memory is ended and named by
 * its seed, as one that fails is.
 */
import { fork } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';
import { holdTrial } from './commands/hold-trial.js';
import type { Trial } from './commands/trial.js';
import { DECODERS, type Failure, isTarget, TARGETS } from './targets.js';
import type { Chunk, Told } from './worker.js';

const FOLDER = '.cache/fuzz';
/** Inputs given to a process at a time. */
const CHUNK = 50;
/** How many chunks it takes until a long run says how far it is. */
const TELL_EVERY = 20;
/** What no input needs on any machine that runs this, and a hang passes. */
const LONGEST_SECONDS = 180;
const MOST_FAILURES = 30;

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '200000' },
    each: { type: 'string', default: '5000' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
    processes: { type: 'string', default: String(Math.min(2, availableParallelism())) },
    replay: { type: 'string' },
  },
});

async function replay(path: string): Promise<number> {
  const trial = JSON.parse(readFileSync(path, 'utf8')) as Trial;
  const { code, out, err } = await holdTrial(trial);
  console.log(`${JSON.stringify(trial.argv)}: exit code ${code}\n${err}${out.slice(0, 2000)}`);
  return 0;
}

/** How the inputs of one target ended. */
class Tally {
  done = 0;
  failed = 0;
  /** Seconds that processes were at work on it. */
  seconds = 0;
  slowest = { seconds: 0, seed: 0 };
  readonly outcomes: Record<string, number> = {};
}

async function fuzz(): Promise<number> {
  const [count, each, first, processes] = [values.count, values.each, values.seed, values.processes].map(
    Number,
  );
  const targets = values.only?.split(',') ?? TARGETS;
  const unknown = targets.find((name) => !isTarget(name));
  if (unknown !== undefined)
    throw new Error(`nothing is called ${unknown}; choose from ${TARGETS.join(', ')}`);
  const chunks = targets.flatMap((target) => {
    const inputs = TARGETS.includes(target) && target !== DECODERS ? each : count;
    return Array.from(
      { length: Math.ceil(inputs / CHUNK) },
      (_, k): Chunk => ({
        target,
        from: first + k * CHUNK,
        to: first + Math.min(inputs, (k + 1) * CHUNK),
      }),
    );
  });
  const tallies = new Map(targets.map((target) => [target, new Tally()]));
  const left = new Map(targets.map((target) => [target, chunks.filter((c) => c.target === target).length]));
  const started = performance.now();
  let failures = 0;
  const failed = (target: string, seed: number, { what, trial }: Failure): void => {
    failures++;
    tallies.get(target)!.failed++;
    mkdirSync(FOLDER, { recursive: true });
    const path = `${FOLDER}/${target}-${seed}.json`;
    writeFileSync(path, `${JSON.stringify({ wentWrong: what.split('\n', 1)[0], ...trial }, null, 2)}\n`);
    console.error(`${target}, seed ${seed}: ${what}\nagain: npm run fuzz -- --replay ${path}\n`);
  };
  const next = (): Chunk | undefined => (failures < MOST_FAILURES ? chunks.shift() : undefined);
  const finished = (target: string): void => {
    left.set(target, left.get(target)! - 1);
    const chunksLeft = left.get(target)!;
    if (chunksLeft === 0 || chunksLeft % TELL_EVERY === 0)
      console.log(`${chunksLeft === 0 ? '' : 'so far '}${line(target, tallies.get(target)!)}`);
  };
  await Promise.all(Array.from({ length: processes }, () => work(next, { tallies, failed, finished })));
  const all = [...tallies.values()].reduce((sum, { done }) => sum + done, 0);
  const seconds = (performance.now() - started) / 1000;
  console.log(
    `${all} inputs from seed ${first} in ${seconds.toFixed(0)} s (${processes} processes): ${failures} failed`,
  );
  return failures > 0 ? 1 : 0;
}

function line(target: string, { done, failed, seconds, slowest, outcomes }: Tally): string {
  const rate = (done / seconds).toFixed(seconds > done ? 2 : 1);
  return `${target}: ${done} inputs, ${failed} failed, ${JSON.stringify(outcomes)}; ${rate} a second and process, slowest ${slowest.seconds.toFixed(1)} s (seed ${slowest.seed})`;
}

interface Book {
  tallies: ReadonlyMap<string, Tally>;
  failed: (target: string, seed: number, failure: Failure) => void;
  finished: (target: string) => void;
}

/** Keeps one process at work until nothing is left; another takes its place where it ends. */
async function work(next: () => Chunk | undefined, book: Book): Promise<void> {
  let chunk = next();
  while (chunk !== undefined) chunk = await workOn(chunk, next, book);
}

/** @returns what is left of the chunk that the process ended in */
function workOn(
  first: Chunk,
  next: () => Chunk | undefined,
  { tallies, failed, finished }: Book,
): Promise<Chunk | undefined> {
  return new Promise((resolve) => {
    const child = fork(new URL('./worker.ts', import.meta.url), [], {
      execArgv: ['--max-old-space-size=3000', '--import', 'tsx'],
    });
    let chunk: Chunk = first;
    let at = chunk.from;
    let since = performance.now();
    let ended: string | null = null;
    let last: Chunk | undefined;
    const watchdog = setInterval(() => {
      if (performance.now() - since < LONGEST_SECONDS * 1000) return;
      ended = `it takes more than ${LONGEST_SECONDS} s`;
      child.kill('SIGKILL');
    }, 1000);
    const begin = (): void => {
      at = chunk.from;
      since = performance.now();
      child.send(chunk);
    };
    const passed = (): void => {
      const tally = tallies.get(chunk.target)!;
      const seconds = (performance.now() - since) / 1000;
      tally.done++;
      tally.seconds += seconds;
      if (seconds > tally.slowest.seconds) tally.slowest = { seconds, seed: at };
      at++;
      since = performance.now();
    };
    child.on('message', (told: Told) => {
      if ('outcome' in told) {
        const { outcomes } = tallies.get(chunk.target)!;
        outcomes[told.outcome] = (outcomes[told.outcome] ?? 0) + 1;
      } else failed(chunk.target, at, told.failure);
      passed();
      if (at < chunk.to) return;
      finished(chunk.target);
      const following = next();
      if (following === undefined) child.disconnect();
      else {
        chunk = following;
        begin();
      }
    });
    child.on('exit', (code, signal) => {
      clearInterval(watchdog);
      if (at < chunk.to) {
        const what = ended ?? `the process ended (${signal ?? `exit code ${code}`})`;
        failed(chunk.target, at, { what, trial: { argv: [chunk.target, `--seed=${at}`], files: {} } });
        passed();
        if (at < chunk.to) last = { ...chunk, from: at };
        else {
          finished(chunk.target);
          last = next();
        }
      }
      resolve(last);
    });
    begin();
  });
}

process.exitCode = values.replay === undefined ? await fuzz() : await replay(values.replay);
