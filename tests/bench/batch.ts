/** How much faster two threads work on a batch than one, how much memory that takes, and how right the time left is that the bar says. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { mixedDesign } from '../generators/mixed-design.js';
import { Random } from '../generators/random.js';
import { type CommandRun, runCommand } from './command.js';
import { type Figure, once } from './figure.js';

/** Designs that are laid; larger batches hold copies of them. */
const DESIGNS = 60;
const FILES = 500;
/** Times that a batch is vetted by each number of workers, in turn; the best counts. */
const ROUNDS = 2;
/** 1.7 times the throughput. */
const TWO_OVER_ONE = 0.59;
/** Advice on each file takes seconds: so many small ones are what the time of a bench is enough for. */
const ON_FABRIC = 12;
/** Large ones, for what memory they take: as many as are under way at once. */
const LARGE_ON_FABRIC = 2;
const ON_A_FABRIC = ['--fabric', 'performance-knit'];

export function batchFigures(root: URL): Figure[] {
  if (availableParallelism() < 2) return [];
  const folder = once(() => {
    const path = mkdtempSync(join(tmpdir(), 'lieflat-bench-'));
    process.on('exit', () => rmSync(path, { recursive: true, force: true }));
    return path;
  });
  const vet = (batch: string, workers: number, more: readonly string[] = [], seen?: 'bar') => {
    const report = ['--format', 'jsonl', '--out', join(folder(), 'out.jsonl'), '--force'];
    const how = ['--quiet', '--fail-on', 'never', '--workers', String(workers)];
    return runCommand(root, ['vet', batch, ...report, ...how, ...more], 0, seen);
  };
  const batchOf = (name: string, files: number, [least, most]: readonly [number, number]) =>
    once(() => {
      const batch = join(folder(), name);
      mkdirSync(batch);
      const designs = Array.from({ length: Math.min(DESIGNS, files) }, (_, seed) =>
        encodeDst(mixedDesign(seed, new Random(seed, 'size').range(least, most))),
      );
      for (let n = 0; n < files; n++) writeFileSync(join(batch, `d${n}.dst`), designs[n % designs.length]);
      return batch;
    });
  const many = batchOf('many', FILES, [2_000, 20_000]);
  const small = batchOf('on-fabric', ON_FABRIC, [300, 800]);
  const large = batchOf('large-on-fabric', LARGE_ON_FABRIC, [6_000, 12_000]);
  const both = once(() => {
    const best = { two: Infinity, one: Infinity };
    for (let round = 0; round < ROUNDS; round++) {
      best.two = Math.min(best.two, vet(many(), 2).ms);
      best.one = Math.min(best.one, vet(many(), 1).ms);
    }
    return best;
  });
  const seen = once(() => vet(many(), 2, [], 'bar'));
  return [
    {
      name: 'this machine: so much bare work twice, on two threads / on one',
      target: null,
      unit: '×',
      measure: bareTwoOverOne,
    },
    {
      name: `vet of ${FILES} files, two workers / one`,
      target: TWO_OVER_ONE,
      unit: '×',
      measure: () => both().two / both().one,
    },
    {
      name: `memory of vet, two workers, ${FILES} files`,
      target: 300,
      unit: 'MB',
      measure: () => seen().mb,
    },
    {
      name: `vet, two workers, ${FILES} files: time left that the bar says after a tenth, off by`,
      target: 0.25,
      unit: '×',
      measure: () => offBy(seen(), FILES / 10),
    },
    {
      name: `vet --fabric of ${ON_FABRIC} small files, two workers / one`,
      target: TWO_OVER_ONE,
      unit: '×',
      measure: () => vet(small(), 2, ON_A_FABRIC).ms / vet(small(), 1, ON_A_FABRIC).ms,
    },
    {
      name: `memory of vet --fabric, two workers, ${LARGE_ON_FABRIC} large files`,
      target: 600,
      unit: 'MB',
      measure: () => vet(large(), 2, ON_A_FABRIC).mb,
    },
  ];
}

/** By what part of the time that was truly left the bar was wrong when so many files were done. */
function offBy({ bars, ms }: CommandRun, files: number): number {
  const bar = bars.find((one) => one.files >= files);
  if (!bar) throw new Error('no bar was drawn');
  return Math.abs(bar.leftMs / (ms - bar.ms) - 1);
}

/** Arithmetic alone: no work of ours comes nearer to a half than this. */
const BARE_WORK =
  'let sum = 0; for (let k = 0; k < 3e8; k++) sum = (sum + k * k) | 0; process.exitCode = sum === 1 ? 1 : 0;';

async function bareTwoOverOne(): Promise<number> {
  const bare = () =>
    new Promise<void>((resolve, reject) => {
      new Worker(BARE_WORK, { eval: true }).once('error', reject).once('exit', () => resolve());
    });
  const start = performance.now();
  await bare();
  await bare();
  const one = performance.now() - start;
  await Promise.all([bare(), bare()]);
  return (performance.now() - start - one) / one;
}
