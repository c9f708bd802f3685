/** How long the page takes to its first verdict on a design that is dropped on it, against the same command at the terminal. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { launched } from '../browser/launched.js';
import { type Figure, once } from './figure.js';

const RUNS = 7;

/** Drops a design on the page; resolves to the milliseconds until its verdict is there. Source, as only the page knows these things. */
const DROPPED = `async (text) => {
  const moved = new DataTransfer();
  moved.items.add(new File([Uint8Array.from(text, (one) => one.charCodeAt(0))], 'crest.dst'));
  const there = () => document.querySelector('#check .verdict') !== null;
  const start = performance.now();
  document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: moved, bubbles: true, cancelable: true }));
  await new Promise((done) => {
    new MutationObserver(() => there() && done()).observe(document.body, { childList: true, subtree: true });
  });
  return performance.now() - start;
}`;

export function pageFigures(root: URL): Figure[] {
  const times = once(() => verdictTimes(root));
  return [
    {
      name: 'page: first verdict on 12 k stitches / lieflat vet of the same',
      target: 4,
      unit: '×',
      measure: async () => {
        const { first, command } = await times();
        return first / command;
      },
    },
    {
      name: 'page: first verdict on 12 k stitches after the drop',
      target: 1,
      unit: 's',
      measure: async () => (await times()).first / 1000,
    },
  ];
}

/** The page as a shop has it: from the drop to the verdict that stands on it. */
async function verdictTimes(root: URL): Promise<{ first: number; command: number }> {
  const at = (name: string): string => fileURLToPath(new URL(name, root));
  const crest = readFileSync(at('samples/crest.dst'), 'latin1');
  const browser = await launched();
  let [first, command] = [Infinity, Infinity];
  try {
    for (let i = 0; i < RUNS; i++) {
      const page = await browser.newPage();
      await page.goto(new URL('.build/cli/page.html', root).href);
      // Whoever drops a file has opened the page before.
      await page.waitForTimeout(500);
      first = Math.min(first, await page.evaluate<number>(`(${DROPPED})(${JSON.stringify(crest)})`));
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
  }
  return { first, command };
}
