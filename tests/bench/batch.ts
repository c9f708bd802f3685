/** How much faster two threads work on a batch than one, how much memory that takes, and that bad files do not stop it. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { mixedDesign } from '../generators/mixed-design.js';
import { Random } from '../generators/random.js';
import { spoiledFile } from '../generators/spoiled-files.js';
import { type CommandRun, runCommand } from './command.js';
import { type Figure, once } from './figure.js';

/** Designs that are laid; larger batches hold copies of them. */
const DESIGNS = 60;
/** An archive, a quarter of it, and what is spoiled besides. */
const FILES = 2000;
const FEW = 500;
const BAD = 1000;
/** 1.7 times the throughput. */
const TWO_OVER_ONE = 0.59;
/** Advice on each file takes seconds: so many small ones are what the time of a bench is enough for. */
const ON_FABRIC = 12;
const ON_A_FABRIC = ['--fabric', 'performance-knit'];

export function batchFigures(root: URL): Figure[] {
  if (availableParallelism() < 2) return [];
  const folder = once(() => {
    const path = mkdtempSync(join(tmpdir(), 'lieflat-bench-'));
    process.on('exit', () => rmSync(path, { recursive: true, force: true }));
    return path;
  });
  const vet = (batch: string, workers: number, more: readonly string[] = [], worst = 0, seen?: 'bar') => {
    const report = ['--format', 'jsonl', '--out', join(folder(), 'out.jsonl'), '--force'];
    const how = ['--quiet', '--fail-on', 'never', '--workers', String(workers)];
    return runCommand(root, ['vet', batch, ...report, ...how, ...more], worst, seen);
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
  const few = batchOf('few', FEW, [2_000, 20_000]);
  const many = batchOf('many', FILES, [2_000, 20_000]);
  const small = batchOf('on-fabric', ON_FABRIC, [300, 3_000]);
  const one = once(() => vet(many(), 1));
  const two = once(() => vet(many(), 2));
  const twoOnFabric = once(() => vet(small(), 2, ON_A_FABRIC));
  const seen = once(() => vet(few(), 2, [], 0, 'bar'));
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
      measure: () => two().ms / one().ms,
    },
    {
      name: `memory of vet, two workers, ${FEW} files`,
      target: 300,
      unit: 'MB',
      measure: () => vet(few(), 2).mb,
    },
    {
      name: `vet, two workers, ${FEW} files: time left that the bar says after a tenth, off by`,
      target: 0.25,
      unit: '×',
      measure: () => offBy(seen(), FEW / 10),
    },
    {
      name: `memory of vet, two workers, ${FILES} files`,
      target: 300,
      unit: 'MB',
      measure: () => two().mb,
    },
    {
      name: `vet --fabric of ${ON_FABRIC} small files, two workers / one`,
      target: TWO_OVER_ONE,
      unit: '×',
      measure: () => twoOnFabric().ms / vet(small(), 1, ON_A_FABRIC).ms,
    },
    {
      name: `memory of vet --fabric, two workers, ${ON_FABRIC} small files`,
      target: 600,
      unit: 'MB',
      measure: () => twoOnFabric().mb,
    },
    {
      name: `vet --fabric of a small file / vet of one of ${FILES}, two workers`,
      target: null,
      unit: '×',
      measure: () => twoOnFabric().ms / ON_FABRIC / (two().ms / FILES),
    },
    {
      name: `${BAD} bad files among ${FILES}: files not reported, or not named once`,
      target: 0,
      unit: 'files',
      measure: () => {
        two();
        for (let n = 0; n < BAD; n++) spoiledFile(join(many(), `bad-${n}.dst`), n);
        const { errors, code } = vet(many(), 2, [], 2);
        const reported = readFileSync(join(folder(), 'out.jsonl'), 'utf8').split('\n').length - 1;
        const named = new Set(errors.flatMap((line) => /bad-\d+\./.exec(line)?.[0] ?? []));
        const wrong = Math.abs(errors.length - BAD) + (BAD - named.size) + Math.abs(FILES - reported);
        return wrong + (code === 2 ? 0 : 1);
      },
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
  'let sum = 0; for (let k = 0; k < 1e9; k++) sum = (sum + k * k) | 0; process.exitCode = sum === 1 ? 1 : 0;';

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
