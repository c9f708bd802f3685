/** Files that do a batch harm, each in a way of its own, and what may come of each. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { encodeStitchTable } from '../../lib/format/stitch-table.js';
import { textOfName } from '../../lib/io/name-bytes.js';
import { designFile } from '../fuzz/commands/designs.js';
import { inputOf } from '../fuzz/inputs.js';
import { mixedDesign } from '../generators/mixed-design.js';
import type { Random } from '../generators/random.js';
import { spoiledFile } from '../generators/spoiled-files.js';

/** What comes of a file: one report, one line on standard error, or not a word. */
export type Outcome = 'report' | 'line' | 'nothing';

export interface Hostile {
  path: string;
  /** What may come of it where it is found in a folder. */
  found: readonly Outcome[];
  /** And where it is named outright. */
  named: readonly Outcome[];
}

const REPORT: readonly Outcome[] = ['report'];
const LINE: readonly Outcome[] = ['line'];
const NOTHING: readonly Outcome[] = ['nothing'];
/** A damaged design may still be one. */
const EITHER: readonly Outcome[] = ['report', 'line'];
/** A table whose first line names other columns lies beside designs and is passed over; who can say of one that is damaged? */
const ANY: readonly Outcome[] = ['report', 'line', 'nothing'];

/** A place to make one in, and what its name may begin with. */
interface Place {
  folder: string;
  stem: string;
  random: Random;
  /** Which of a list it is to be. */
  number: number;
}

const HEADER = 512;
const soundDst = (random: Random): Uint8Array => encodeDst(mixedDesign(random.int(0, 1e6), 60));
const soundTable = (random: Random): Uint8Array => encodeStitchTable(mixedDesign(random.int(0, 1e6), 60));
const bytesOf = (text: string, encoding: BufferEncoding = 'utf8'): Uint8Array => Buffer.from(text, encoding);

const HIDDEN = '..';
/** A sound file under a name that does harm; not every byte of a name is a letter. */
const NAMES: readonly (string | Uint8Array)[] = [
  "it's",
  'say "crest"',
  'two\nlines',
  'tab\tand\rreturn',
  '\u001b[31mred\u001b[0m',
  '\u0007bell\u0001',
  '\u202egnp.',
  '\u05e9\u05dc\u05d5\u05dd',
  'e\u0301 \u00e9 \u{1f9f5}',
  '[a-c]',
  '*',
  '{x,y}?',
  '$(id) `id` ;|&',
  HIDDEN,
  '-o',
  '--workers=9',
  '%41%00',
  '=1+1',
  '<b>&amp;',
  'back\\slash',
  ' blank ',
  'lieflat: no.dst: wrong; nothing',
  'n'.repeat(200),
  Uint8Array.from([0xff, 0xfe]),
  Uint8Array.from([0x63, 0xe9, 0x20, 0xfc]),
  Uint8Array.from([0xed, 0xa0, 0x80, 0xf0, 0x9f]),
  Uint8Array.from([0xc3]),
];

/** Content of other kinds, under a stitch file's name. */
const OTHERS: readonly ((random: Random) => Uint8Array)[] = [
  () => bytesOf('%PDF-1.7\n%\u00e2\u00e3\n1 0 obj <</Type/Catalog>> endobj\ntrailer <<>>\n%%EOF\n', 'latin1'),
  () => bytesOf('PK\u0003\u0004\u0014\u0000\u0000\u0000', 'latin1'),
  () => bytesOf('\u0089PNG\r\n\u001a\n\u0000\u0000\u0000\rIHDR', 'latin1'),
  () => bytesOf('<!doctype html><title>404 Not Found</title><p>Not found.\n'),
  () => bytesOf('{"schema":"lieflat/vet@1","objects":[]}\n'),
  () => bytesOf('LA:crest\rST:      9\rCO:  0\r', 'utf16le'),
  () => new Uint8Array(4096),
  () => new Uint8Array(70_000).fill(0x20),
  (random) => inputOf(random.int(0, 1e9), 'profile').bytes,
];

/** Tables that are damaged, but say in their first line that they are stitch tables. */
const TABLES: readonly ((random: Random) => Uint8Array)[] = [
  () => bytesOf(`x_mm,y_mm,kind\n1,2,"${'stitch'.repeat(40_000)}\n`),
  () => bytesOf(`x_mm,y_mm,kind${',more'.repeat(20_000)}\n1,2,stitch\n`),
  () => bytesOf('x_mm,y_mm,kind\n1e400,2,stitch\n'),
  () => bytesOf('x_mm,y_mm,kind\n1,2,stitch\n\u0000\u0000\u0000'),
  () => bytesOf('x_mm,y_mm,kind\n1,2,weld\n'),
  () => bytesOf('x_mm,y_mm,kind\n'),
  () => bytesOf('x_mm,y_mm,kind\r1,2\r3\r'),
  (random) => soundTable(random).subarray(0, random.int(20, 60)),
];

function written(path: string, bytes: Uint8Array, named: readonly Outcome[], found = named): Hostile {
  writeFileSync(path, bytes);
  return { path, found, named };
}

/** Changes in the bytes of a sound file that leave its header alone, or do not. */
function damaged(random: Random): Uint8Array {
  const file = Uint8Array.from(soundDst(random));
  const from = random.int(random.chance(0.3) ? 0 : HEADER, file.length - 1);
  const to = Math.min(file.length, from + random.pick([1, 3, 40, 700]));
  switch (random.int(0, 4)) {
    case 0:
      return file.subarray(0, from);
    case 1:
      return file.fill(random.pick([0, 0x03, 0x1a, 0xc3, 0xff]), from, to);
    case 2:
      return Buffer.concat([file.subarray(0, from), file.subarray(to)]);
    case 3:
      return Buffer.concat([file.subarray(0, to), file.subarray(from)]);
    default:
      for (let i = from; i < to; i++) file[i] ^= 1 << random.int(0, 7);
      return file;
  }
}

const WAYS: readonly ((place: Place) => Hostile)[] = [
  ({ folder, stem, number }) => {
    const name = `${folder}/${stem}`;
    spoiledFile(`${name}.dst`, number);
    return { path: `${name}.${existsSync(`${name}.csv`) ? 'csv' : 'dst'}`, found: LINE, named: LINE };
  },
  ({ folder, stem, random }) =>
    written(`${folder}/${stem}.dst`, inputOf(random.int(0, 1e9), 'dst').bytes, EITHER),
  ({ folder, stem, random }) =>
    written(`${folder}/${stem}.csv`, inputOf(random.int(0, 1e9), 'csv').bytes, EITHER, ANY),
  ({ folder, stem, random }) => written(`${folder}/${stem}.dst`, damaged(random), EITHER),
  ({ folder, stem, random, number }) =>
    written(`${folder}/${stem}.dst`, OTHERS[number % OTHERS.length](random), LINE),
  ({ folder, stem, random, number }) =>
    written(`${folder}/${stem}.CSV`, TABLES[number % TABLES.length](random), EITHER),
  ({ folder, stem, random }) => {
    const { bytes, ending } = designFile(random, { stitches: 300, mm: Number.POSITIVE_INFINITY });
    return written(`${folder}/${stem}${ending}`, bytes, EITHER, ending === '.csv' ? ANY : EITHER);
  },
  ({ folder, stem, random }) => written(`${folder}/${stem}.dst`, soundTable(random), LINE),
  ({ folder, stem, number }) => {
    const path = `${folder}/${stem}.dst`;
    mkdirSync(path);
    if (number % 2) writeFileSync(`${path}/notes.txt`, 'folders may be called anything\n');
    return { path, found: NOTHING, named: LINE };
  },
  ({ folder, stem, number }) => {
    const path = `${folder}/${stem}.dst`;
    // Two links to one device are one file.
    if (number === 0) symlinkSync('/dev/zero', path);
    else execFileSync('mkfifo', [path]);
    return { path, found: NOTHING, named: LINE };
  },
  ({ folder, stem, random, number }) => {
    const name = NAMES[number % NAMES.length];
    const bytes = Buffer.concat([
      Buffer.from(`${folder}/`),
      typeof name === 'string' ? Buffer.from(name) : name,
      Buffer.from(`${stem}.dst`),
    ]);
    writeFileSync(bytes, soundDst(random));
    // What begins with a dot is hidden, and left out of a folder.
    return { path: textOfName(bytes), found: name === HIDDEN ? NOTHING : REPORT, named: REPORT };
  },
];

/** Makes file number `n` of a folder; the ways take turns. */
export function hostileFile(folder: string, n: number, random: Random): Hostile {
  const way = WAYS[n % WAYS.length];
  return way({ folder, stem: `h${n}`, random, number: Math.floor(n / WAYS.length) });
}
