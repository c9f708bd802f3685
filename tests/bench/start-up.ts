/** How long the whole command takes on one design, against starting Node alone, for each version of Node that users have. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nodeVersions } from '../matrix/node-versions.js';
import type { BenchRow } from './row.js';

const RUNS = 15;
/** What is granted beyond twice the start of Node alone, ms: less where Node keeps what it compiled. */
const GRANTED = { '20': 200, '22': 120, '24': 120 };

export function startUpRows(root: URL): BenchRow[] {
  const main = new URL('.build/cli/main.js', root).pathname;
  const crest = new URL('samples/crest.dst', root).pathname;
  const cache = mkdtempSync(join(tmpdir(), 'lieflat-bench-cache-'));
  const time = (program: string, args: string[]) => {
    const start = performance.now();
    const done = spawnSync(program, args, {
      stdio: 'ignore',
      env: { ...process.env, XDG_CACHE_HOME: cache },
    });
    if (done.status === null || done.status > 1) throw new Error(`${program} ${args.join(' ')} failed`);
    return performance.now() - start;
  };
  try {
    const nodes = nodeVersions(new URL('.cache/nodes/', root).pathname, Object.keys(GRANTED));
    return nodes.map(({ version, program }) => {
      const granted = GRANTED[version.split('.')[0] as keyof typeof GRANTED];
      const vetting = [main, 'vet', crest];
      // The first start finds nothing kept.
      time(program, vetting);
      let [bare, vet] = [Infinity, Infinity];
      for (let i = 0; i < RUNS; i++) {
        bare = Math.min(bare, time(program, ['-e', '0']));
        vet = Math.min(vet, time(program, vetting));
      }
      return {
        name: `Node ${version}: lieflat vet of 12 k stitches / (2 × node -e 0 + ${granted} ms)`,
        measured: vet / (2 * bare + granted),
        target: 1,
        unit: '×',
      };
    });
  } finally {
    rmSync(cache, { recursive: true, force: true });
  }
}
