/** The most memory that the heavier commands take on a jacket back, the largest design that a shop usually has. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as lib from '../../lib/index.js';
import { bigDesign } from './big-design.js';
import { runCommand } from './command.js';
import { type Figure, once } from './figure.js';

const SIZE = 60_000;
const ON_A_FABRIC = ['--fabric', 'twill'];
const MOST_MB = { card: 400, pucker: 300 };

export function jacketBackFigures(root: URL): Figure[] {
  const folder = once(async () => {
    const path = mkdtempSync(join(tmpdir(), 'lieflat-bench-'));
    process.on('exit', () => rmSync(path, { recursive: true, force: true }));
    writeFileSync(join(path, 'jacket-back.dst'), await bigDesign(lib, SIZE));
    return path;
  });
  const memory = async (command: string, out: (folder: string) => string[]): Promise<number> => {
    const path = await folder();
    return runCommand(root, [command, join(path, 'jacket-back.dst'), ...ON_A_FABRIC, ...out(path)]).mb;
  };
  return [
    {
      name: 'memory of card, jacket back',
      target: MOST_MB.card,
      unit: 'MB',
      measure: () => memory('card', (path) => ['--out', join(path, 'card.html')]),
    },
    {
      name: 'memory of pucker, jacket back',
      target: MOST_MB.pucker,
      unit: 'MB',
      measure: () => memory('pucker', () => []),
    },
  ];
}
