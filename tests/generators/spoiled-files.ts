import { symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { Random } from './random.js';

/** Ways in which a file with a stitch file's name holds no design; each leaves one name that cannot be read. */
const WAYS: readonly ((path: string, random: Random) => void)[] = [
  (path) => writeFileSync(path, ''),
  (path) => writeFileSync(path, 'this is a letter, not a design\n'.repeat(40)),
  (path) => symlinkSync('nowhere', path),
  (path) => symlinkSync(path, path),
  (path) => writeFileSync(path.replace(/dst$/, 'csv'), 'x_mm,y_mm,kind\n1,2,"sti\n'),
  (path) => {
    writeFileSync(path, '');
    // Nothing but holes, and more than is read.
    truncateSync(path, 80_000_000);
  },
  // Without the two bits that mark a record.
  (path, random) =>
    writeFileSync(
      path,
      Uint8Array.from({ length: 700 }, () => random.int(0, 31) & ~3),
    ),
  (path) => writeFileSync(path, 'LA:cut short    \r'),
];

/** Makes one of them; `path` ends in `.dst`, and may come to end in `.csv`. */
export function spoiledFile(path: string, seed: number): void {
  WAYS[seed % WAYS.length](path, new Random(seed, 'spoiled'));
}
