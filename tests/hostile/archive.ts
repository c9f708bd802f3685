/** A folder as the worst archive has it: good files, hostile ones among them, and three that no budget can hold. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { encodeStitchTable } from '../../lib/format/stitch-table.js';
import { raw, rawFile, rawHeader } from '../format/raw-file.js';
import { mixedDesign } from '../generators/mixed-design.js';
import { Random } from '../generators/random.js';
import { type Hostile, hostileFile } from './hostile-files.js';

/** What a file may take: many times what a good one does, and less than the three do. */
export const MEGABYTES = 300;

export interface Archive {
  folder: string;
  /** What a file may take: many times what a good one does, and less than the long one does; null where no file is held to a time. */
  seconds: number | null;
  good: readonly string[];
  hostile: readonly Hostile[];
  /** Each with the option that its line has to name. */
  over: readonly { path: string; option: '--max-seconds' | '--max-memory' }[];
}

export interface Sizes {
  good: number;
  hostile: number;
  /** Stitches of the largest good one. */
  most: number;
  /** Null lays no file that is long: how long one takes hangs on the machine and on what else it does. */
  seconds: number | null;
  seed: number;
}

/** Makes it in an empty folder; a pure function of the sizes. */
export function layArchive(folder: string, { good, hostile, most, seconds, seed }: Sizes): Archive {
  const random = new Random(seed, 'archive');
  const lie = (name: string, bytes: Uint8Array): string => {
    const path = `${folder}/${name}`;
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, bytes);
    return path;
  };
  return {
    folder,
    seconds,
    good: Array.from({ length: good }, (_, n) => {
      const design = mixedDesign(random.int(0, 1e6), random.int(60, most));
      const name = `${n % 5 === 3 ? `year-${n % 9}/customer/` : ''}g${n}`;
      if (n % 7 === 2) return lie(`${name}.csv`, encodeStitchTable(design));
      return lie(`${name}.${n % 11 ? 'dst' : 'DST'}`, encodeDst(design));
    }),
    hostile: Array.from({ length: hostile }, (_, n) => hostileFile(folder, n, random)),
    over: [
      ...(seconds === null
        ? []
        : [{ path: lie('m-long.dst', manyStitches(seed)), option: '--max-seconds' } as const]),
      { path: lie('a-many-pieces.dst', manyPieces(600_000)), option: '--max-memory' },
      { path: lie('x-long-in-many-pieces.dst', manyPieces(1_200_000)), option: '--max-memory' },
    ],
  };
}

/** So many stitches that they fit the memory and take long. */
function manyStitches(seed: number): Uint8Array {
  const file = encodeDst(mixedDesign(seed, 30_000));
  const records = file.subarray(512, 512 + 3 * 30_000);
  return Buffer.concat([
    file.subarray(0, 512),
    ...Array.from({ length: 60 }, () => records),
    file.subarray(-3),
  ]);
}

/** A cut thread at every other record. */
function manyPieces(records: number): Uint8Array {
  const pair = Buffer.from([...raw(3, 1), ...raw(0, 0, 'pause')]);
  return Buffer.concat([
    Buffer.from(rawHeader([])),
    Buffer.alloc(3 * records, pair),
    rawFile([]).subarray(-3),
  ]);
}
