/** How much faster two threads vet a batch than one, how much memory that takes, and that bad files do not stop it. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { mixedDesign } from '../generators/mixed-design.js';
import { Random } from '../generators/random.js';
import { spoiledFile } from '../generators/spoiled-files.js';
import type { BenchRow } from './row.js';

/** Designs that are laid; larger batches hold copies of them. */
const DESIGNS = 60;
const RUNS = 2;
/** An archive, a quarter of it, and what is spoiled besides. */
const FILES = 2000;
const FEW = 500;
const BAD = 1000;
/** Samples of a usual size, which are vetted on fabric too. */
const ON_FABRIC = ['cap-front', 'crest', 'incoming', 'name-drop', 'towel-monogram'];
const ON_A_FABRIC = ['--fabric', 'performance-knit'];
/** Prints the largest memory that the whole process, threads and all, had resident, kB, on a stream of its own. */
const TELL_MEMORY = `data:text/javascript,${encodeURIComponent(
  'import { writeSync } from "node:fs"; import { isMainThread } from "node:worker_threads"; if (isMainThread) process.on("exit", () => writeSync(3, String(process.resourceUsage().maxRSS)));',
)}`;

export function batchRows(root: URL): BenchRow[] {
  if (availableParallelism() < 2) return [];
  const folder = mkdtempSync(join(tmpdir(), 'lieflat-bench-'));
  const main = new URL('.build/cli/main.js', root).pathname;
  const vet = (batch: string, workers: number, more: readonly string[] = []) => {
    const args = ['--import', TELL_MEMORY, main, 'vet', join(folder, batch), '--format', 'jsonl', '--quiet'];
    const start = performance.now();
    const done = spawnSync(
      process.execPath,
      [
        ...args,
        ...more,
        '--fail-on',
        'never',
        '--workers',
        String(workers),
        '--out',
        join(folder, 'out.jsonl'),
        '--force',
      ],
      { stdio: ['ignore', 'ignore', 'pipe', 'pipe'], encoding: 'utf8', maxBuffer: 1 << 28 },
    );
    return {
      ms: performance.now() - start,
      mb: Number(done.output[3]) / 1024,
      code: done.status,
      errors: done.stderr.split('\n').filter((line) => line.startsWith('lieflat: ')),
    };
  };
  try {
    const designs = Array.from({ length: DESIGNS }, (_, seed) =>
      encodeDst(mixedDesign(seed, new Random(seed, 'size').range(2_000, 20_000))),
    );
    const fill = (batch: string, files: number) => {
      mkdirSync(join(folder, batch));
      for (let n = 0; n < files; n++)
        writeFileSync(join(folder, batch, `d${n}.dst`), designs[n % designs.length]);
    };
    fill('few', FEW);
    fill('many', FILES);
    mkdirSync(join(folder, 'on-fabric'));
    for (const name of ON_FABRIC)
      copyFileSync(new URL(`samples/${name}.dst`, root), join(folder, 'on-fabric', `${name}.dst`));
    let [one, two] = [Infinity, Infinity];
    let [fewMb, manyMb] = [0, 0];
    for (let run = 0; run < RUNS; run++) {
      one = Math.min(one, vet('many', 1).ms);
      const { ms, mb } = vet('many', 2);
      two = Math.min(two, ms);
      manyMb = Math.max(manyMb, mb);
      fewMb = Math.max(fewMb, vet('few', 2).mb);
    }
    const onFabric = vet('on-fabric', 2, ON_A_FABRIC);
    const rows: BenchRow[] = [
      // 1.7 times the throughput.
      { name: `vet of ${FILES} files, two workers / one`, measured: two / one, target: 0.59, unit: '×' },
      { name: `memory of two workers, ${FEW} files`, measured: fewMb, target: 300, unit: 'MB' },
      { name: `memory of two workers, ${FILES} files`, measured: manyMb, target: 300, unit: 'MB' },
    ];
    rows.push({
      name: `a sample with plans on ${ON_A_FABRIC[1]} / one of ${FILES} files, two workers`,
      measured: onFabric.ms / ON_FABRIC.length / (two / FILES),
      target: null,
      unit: '×',
    });
    for (let n = 0; n < BAD; n++) spoiledFile(join(folder, 'many', `bad-${n}.dst`), n);
    const { errors, code } = vet('many', 2);
    const reported = readFileSync(join(folder, 'out.jsonl'), 'utf8').split('\n').length - 1;
    const named = new Set(errors.flatMap((line) => /bad-\d+\./.exec(line)?.[0] ?? []));
    const wrong =
      Math.abs(errors.length - BAD) + (BAD - named.size) + Math.abs(FILES - reported) + (code === 2 ? 0 : 1);
    rows.push({
      name: `${BAD} bad files among ${FILES}: files not reported, or not named once`,
      measured: wrong,
      target: 0,
      unit: 'files',
    });
    return rows;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
