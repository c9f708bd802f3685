/** An order with bad files among the good ones, killed half-way as often as is asked: it has to come to what it comes to when nobody disturbs it. */
import { spawn } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { Needle } from '../report/little-design.js';
import { TEMPORARY } from './scene.js';

/** A line that cannot be done: what its row says, what lies under its file's name, and what has to be told of it. */
interface BadLine {
  readonly row: string;
  readonly lay?: (path: string) => void;
  readonly told: RegExp;
}

const STITCHES = 'x_mm,y_mm,kind\r\n0,0,stitch\r\n2,0,stitch\r\n';

/** Ten ways in which a line of an order goes wrong. */
export const BAD_LINES: readonly BadLine[] = [
  { row: 'gone.dst,tote bag,1', told: /gone\.dst: there is no such file or folder; / },
  {
    row: 'noise.dst,tote bag,1',
    lay: (path) => writeFileSync(path, 'no stitches in here'),
    told: /noise\.dst: byte 0: .+; check /,
  },
  { row: 'empty.dst,tote bag,1', lay: (path) => writeFileSync(path, ''), told: /empty\.dst: .*empty.*; / },
  {
    row: 'bare.dst,tote bag,1',
    lay: (path) => writeFileSync(path, encodeDst(new Needle().end())),
    told: /bare\.dst: .*no stitches.*; ask /,
  },
  { row: 'folder.dst,tote bag,1', lay: (path) => mkdirSync(path), told: /folder\.dst: .+; / },
  {
    row: 'huge.dst,tote bag,1',
    lay: (path) => {
      writeFileSync(path, '');
      truncateSync(path, 40_000_000);
    },
    told: /huge\.dst: the file has 40000000 bytes, .+; .*--max-bytes/,
  },
  {
    row: 'cells.csv,tote bag,1',
    lay: (path) => writeFileSync(path, `${STITCHES}four,0,stitch\r\n`),
    told: /cells\.csv: line 4: .+; /,
  },
  { row: 'd0.dst,zeppelin,1', told: /garment "zeppelin": .+; write an everyday word, as / },
  { row: 'd0.dst,tote bag,a few', told: /the quantity cannot be "a few"; give a whole number / },
  { row: 'd0.dst,tote bag,1,bluish', told: /bluish.+; / },
];

/** Lines go by turns to these: fabrics that give and that do not, and one on which columns are worth relaying. */
const GARMENTS = [
  ['tote bag', ''],
  ['twill', ''],
  ['running shirt', 'cutaway-2.5oz'],
] as const;

export interface OrderSizes {
  good: number;
  designs: number;
  bad: number;
}

/** What an order was asked, line by line. */
export interface AskedLine {
  line: number;
  quantity: number;
  bad: BadLine | null;
}

/** Lays the table and its files into a new folder. */
export function layOrder({ good, designs, bad }: OrderSizes): {
  folder: string;
  lines: AskedLine[];
} {
  const folder = mkdtempSync(join(tmpdir(), 'order-'));
  for (let d = 0; d < designs; d++) {
    const needle = new Needle()
      .column(0, 0, { width: 9, height: 10 + d / 2, underlay: 'zigzag' })
      .column(14, 0, { width: 2 + (d % 4), height: 12 });
    writeFileSync(join(folder, `d${d}.dst`), encodeDst(needle.end()));
  }
  const rows = ['file,garment,quantity,threads,backing'];
  const lines: AskedLine[] = [];
  const add = (row: string, quantity: number, broken: BadLine | null) => {
    rows.push(row);
    lines.push({ line: rows.length, quantity, bad: broken });
  };
  const every = Math.max(1, Math.floor(good / bad));
  for (let n = 0; n < good; n++) {
    const [garment, backing] = GARMENTS[n % GARMENTS.length];
    const quantity = 1 + ((7 * n) % 12);
    const color = n % 4 === 3 ? '' : ['navy', 'gold', 'white'][n % 4];
    add(
      `d${Math.floor(n / GARMENTS.length) % designs}.dst,${garment},${quantity},${color},${backing}`,
      quantity,
      null,
    );
    const broken = n % every === 0 ? BAD_LINES[n / every] : undefined;
    if (!broken || n / every >= bad) continue;
    broken.lay?.(join(folder, broken.row.split(',', 1)[0]));
    add(broken.row, 0, broken);
  }
  writeFileSync(join(folder, 'order.csv'), `${rows.join('\n')}\n`);
  return { folder, lines };
}

/** How a run of the order ended, and what it said. */
export interface OrderRun {
  code: number | null;
  signal: NodeJS.Signals | null;
  err: string;
}

/** Runs the order into a folder of this name, and kills it as soon as `when` says so of that folder. */
export function runOrder(
  program: string,
  cwd: string,
  into: string,
  when?: (done: string) => boolean,
): Promise<OrderRun> {
  return new Promise((resolve, reject) => {
    const words = [program, 'order', 'order.csv', '--out-dir', into, '--workers', '2'];
    const child = spawn(process.execPath, words, { cwd, stdio: ['ignore', 'ignore', 'pipe'] });
    const watch = when && setInterval(() => (when(join(cwd, into)) ? child.kill('SIGKILL') : undefined), 1);
    let err = '';
    child.stderr.on('data', (piece: Buffer) => {
      err += piece;
    });
    child.on('error', reject);
    child.on('close', (code, signal) => {
      clearInterval(watch);
      resolve({ code, signal, err });
    });
  });
}

/** Names of what lies in a part of the folder of an order, what is being written among it. */
const inPart = (done: string, part: string): string[] =>
  existsSync(join(done, part)) ? readdirSync(join(done, part)) : [];

/** So many cards are there. */
export const cardsMade = (count: number) => (done: string) =>
  inPart(done, 'cards').filter((name) => !TEMPORARY.test(name)).length >= count;

/** A file is being written into this part, after so many cards are there. */
export const writingInto = (part: string, count: number) => (done: string) =>
  cardsMade(count)(done) && inPart(done, part).some((name) => TEMPORARY.test(name));

/** It has begun to keep what it knows. */
export const begun = (done: string): boolean => existsSync(join(done, 'lieflat-order.json'));

/** The page of all lines is written, what stands beside it perhaps not. */
export const gathering = (done: string): boolean => existsSync(join(done, 'order.html'));

/** Every file of a folder and under it by name, as it is. */
export function filesOf(folder: string): Map<string, string> {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  const paths = entries.filter((one) => one.isFile()).map((one) => join(one.parentPath, one.name));
  return new Map(paths.sort().map((path) => [path.slice(folder.length + 1), readFileSync(path, 'latin1')]));
}

/** Names of files that differ between two folders, and of those that only one has. */
export function differingFiles(a: ReadonlyMap<string, string>, b: ReadonlyMap<string, string>): string[] {
  return [...new Set([...a.keys(), ...b.keys()])].filter((name) => a.get(name) !== b.get(name)).sort();
}

export const takeAway = (folder: string): void => rmSync(folder, { recursive: true, force: true });
