/** How long the whole command takes on one design, against starting Node alone, for each version of Node that users have. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nodeVersions } from '../matrix/node-versions.js';
import { type Figure, once } from './figure.js';

const RUNS = 15;
/** What is granted beyond twice the start of Node alone, ms: less where Node keeps what it compiled. */
const GRANTED = { '20': 200, '22': 120, '24': 120 };

export function startUpFigures(root: URL): Figure[] {
  const nodes = once(() => nodeVersions(new URL('.cache/nodes/', root).pathname, Object.keys(GRANTED)));
  return Object.entries(GRANTED).map(([major, granted]) => ({
    name: `start: vet of 12 k stitches, Node ${major} / (2 × node -e 0 + ${granted} ms)`,
    target: 1,
    unit: '×',
    measure: () => {
      const node = nodes().find(({ version }) => version.startsWith(`${major}.`));
      if (!node) throw new Error(`no Node ${major} here`);
      return { value: startUp(root, node.program, granted), on: node.version };
    },
  }));
}

function startUp(root: URL, node: string, granted: number): number {
  const main = new URL('.build/cli/main.js', root).pathname;
  const crest = new URL('samples/crest.dst', root).pathname;
  const cache = mkdtempSync(join(tmpdir(), 'lieflat-bench-cache-'));
  const time = (args: string[]) => {
    const start = performance.now();
    const done = spawnSync(node, args, {
      stdio: 'ignore',
      env: { ...process.env, XDG_CACHE_HOME: cache },
    });
    if (done.status === null || done.status > 1) throw new Error(`${node} ${args.join(' ')} failed`);
    return performance.now() - start;
  };
  try {
    const vetting = [main, 'vet', crest];
    // The first start finds nothing kept.
    time(vetting);
    let [bare, vet] = [Infinity, Infinity];
    for (let i = 0; i < RUNS; i++) {
      bare = Math.min(bare, time(['-e', '0']));
      vet = Math.min(vet, time(vetting));
    }
    return vet / (2 * bare + granted);
  } finally {
    rmSync(cache, { recursive: true, force: true });
  }
}
