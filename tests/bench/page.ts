/** How long the page takes to its first verdict on a design that is dropped on it, against the same command at the terminal. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { launched } from '../browser/launched.js';
import type { BenchRow } from './row.js';

const RUNS = 7;

/** The page as it is built with the engine alone, whose worker starts with it. */
export async function pageRows(root: URL): Promise<BenchRow[]> {
  const at = (name: string): string => fileURLToPath(new URL(name, root));
  const folder = mkdtempSync(join(tmpdir(), 'bench-page-'));
  const file = join(folder, 'page.html');
  const made = spawnSync(process.execPath, [at('.config/page.mjs'), file, 'tests/browser/bare-page']);
  if (made.status !== 0) throw new Error(String(made.stderr));
  const crest = readFileSync(at('samples/crest.dst'), 'latin1');
  const browser = await launched();
  let [first, command] = [Infinity, Infinity];
  try {
    for (let i = 0; i < RUNS; i++) {
      const page = await browser.newPage();
      await page.goto(`file://${file}`);
      // Whoever drops a file has opened the page before.
      await page.waitForTimeout(500);
      const ms = await page.evaluate(async (text) => {
        const { bare } = globalThis as unknown as {
          bare: import('../browser/bare-page/bare-page.js').BarePage;
        };
        const start = performance.now();
        bare.give([['crest.dst', text]]);
        const { stdout } = await bare.run({ command: 'vet', options: {}, words: ['crest.dst'] });
        return stdout.includes('crest.dst') ? performance.now() - start : Number.NaN;
      }, crest);
      first = Math.min(first, ms);
      await page.close();
      const start = performance.now();
      const { status } = spawnSync(process.execPath, [
        at('.build/cli/main.js'),
        'vet',
        at('samples/crest.dst'),
      ]);
      if (status === null || status > 1) throw new Error('lieflat vet failed');
      command = Math.min(command, performance.now() - start);
    }
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
  return [
    {
      name: 'page: first verdict on 12 k stitches / lieflat vet of the same',
      measured: first / command,
      target: 4,
      unit: '×',
    },
    {
      name: 'page: first verdict on 12 k stitches after the drop',
      measured: first / 1000,
      target: 1,
      unit: 's',
    },
  ];
}
