/** How long the whole command takes on one design, against starting Node alone. */
import { spawnSync } from 'node:child_process';
import type { BenchRow } from './row.js';

const RUNS = 15;

export function startUpRows(root: URL): BenchRow[] {
  const main = new URL('.build/cli/main.js', root).pathname;
  const crest = new URL('samples/crest.dst', root).pathname;
  const time = (args: string[]) => {
    const start = performance.now();
    const done = spawnSync(process.execPath, args, { stdio: 'ignore' });
    if (done.status === null || done.status > 1) throw new Error(`node ${args.join(' ')} failed`);
    return performance.now() - start;
  };
  let bare = Infinity;
  let vet = Infinity;
  for (let i = 0; i < RUNS; i++) {
    bare = Math.min(bare, time(['-e', '0']));
    vet = Math.min(vet, time([main, 'vet', crest]));
  }
  return [
    {
      name: 'lieflat vet of 12 k stitches / (2 × node -e 0 + 60 ms)',
      measured: vet / (2 * bare + 60),
      target: 1,
      unit: '×',
    },
  ];
}
