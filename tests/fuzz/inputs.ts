/** Inputs for fuzzing: stitch files, stitch tables and profiles, sound ones spoiled and others out of nothing; each a pure function of its seed. */
import { readFileSync } from 'node:fs';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { encodeStitchTable } from '../../lib/format/stitch-table.js';
import { LIMITS } from '../../lib/vetting/limits.js';
import { raw, rawFile, rawHeader } from '../format/raw-file.js';
import { FAMILIES } from '../generators/families/index.js';
import { Random } from '../generators/random.js';
import { littleCrest, Needle } from '../report/little-design.js';

export type InputKind = 'dst' | 'csv' | 'profile';

export interface Input {
  kind: InputKind;
  bytes: Uint8Array;
}

const HEADER = 512;
/** Records of one spoiled design: few, so that many designs are looked at. */
const MOST_RECORDS = 160;
const MOST_BYTES = 900;

const latin = (text: string): number[] => [...text].map((char) => char.charCodeAt(0) & 0xff);
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Sound files to spoil: the samples, and designs of every generated family. */
let sound: Uint8Array[] | null = null;
function soundFiles(): Uint8Array[] {
  if (sound === null) {
    const samples = ['crest', 'incoming', 'name-drop', 'towel-monogram', 'cap-front'].map((name) =>
      readFileSync(new URL(`../../samples/${name}.dst`, import.meta.url)),
    );
    const generated = Object.values(FAMILIES).map((family) => encodeDst(family(1).design));
    const small = [littleCrest(), new Needle().column(0, 0, { height: 9, underlay: 'zigzag' }).end()];
    sound = [...samples, ...generated, ...small.map(encodeDst)];
  }
  return sound;
}

/** The input of one seed. */
export function inputOf(seed: number, only?: InputKind): Input {
  const random = new Random(seed, 'fuzz');
  const drawn = random.next();
  const kind = only ?? (drawn < 0.6 ? 'dst' : drawn < 0.82 ? 'csv' : 'profile');
  const bytes = { dst: stitchFile, csv: table, profile }[kind](random);
  return { kind, bytes: Uint8Array.from(bytes) };
}

function stitchFile(random: Random): ArrayLike<number> {
  const way = random.next();
  if (way < 0.06) return noise(random, random.int(0, MOST_BYTES));
  if (way < 0.14) return [...rawHeader([]), ...noise(random, random.int(0, MOST_BYTES))];
  if (way < 0.4) return recordFile(random);
  const file = part(random);
  return way < 0.5 ? file : spoiled(random, file);
}

/** A header and a stretch of the records of a sound file. */
function part(random: Random): number[] {
  const file = random.pick(soundFiles());
  const records = (file.length - HEADER) / 3;
  const count = Math.min(records, random.int(1, MOST_RECORDS));
  const from = HEADER + 3 * random.int(0, records - count);
  return [...file.subarray(0, HEADER), ...file.subarray(from, from + 3 * count)];
}

/** Records that are each sound, in an order that no one would sew. */
function recordFile(random: Random): number[] | Uint8Array {
  const records: number[][] = [];
  const reach = random.pick([2, 12, 40, 121]);
  for (let n = random.int(0, MOST_RECORDS); n > 0; ) {
    const kind = random.pick(['stitch', 'stitch', 'stitch', 'stitch', 'jump', 'pause'] as const);
    const [dx, dy] = [random.int(-reach, reach), random.int(-reach, reach)];
    // Swings and rows: the same move and back, time after time.
    for (let again = random.pick([1, 1, 2, 7, 30]); again > 0 && n > 0; again--, n--) {
      records.push(raw(again % 2 ? dx : -dx, again % 2 ? dy : -dy, kind));
      if (random.chance(0.3)) records.push(raw(random.int(-4, 4), random.int(-4, 4)));
    }
  }
  const field = (): string =>
    random.pick([
      '',
      '0',
      '-1',
      '999999999',
      '+  12',
      '1e9',
      'NaN',
      '\u001b[31m',
      '=1+1',
      '\u00ff'.repeat(20),
    ]);
  const fields = Object.fromEntries(
    ['LA', 'ST', 'CO', '+X', '-X', '+Y', '-Y', 'AX', 'PD']
      .filter(() => random.chance(0.15))
      .map((key) => [key, random.chance(0.2) ? null : field()]),
  );
  const extra = (['PS', 'TN', 'LL', 'AU', 'PS'] as const)
    .filter(() => random.chance(0.15))
    .map((key): [string, string] => [
      key,
      random.chance(0.5) ? `${random.int(0, 9)},${random.int(0, 99)}` : field(),
    ]);
  const file = rawFile(records, {
    fields,
    extra,
    lineEnd: random.pick(['\r', '\r', '\r\n', '\n', '']),
    endMark: random.chance(0.9),
    size: random.chance(0.85) ? HEADER : random.int(0, 600),
    after: random.chance(0.1) ? noise(random, 20) : [],
  });
  return random.chance(0.3) ? spoiled(random, [...file]) : file;
}

/** Bytes changed, cut, put in, doubled, cut off. */
function spoiled(random: Random, bytes: number[]): number[] {
  let spoilt = bytes;
  for (let n = random.pick([1, 1, 2, 3, 8]); n > 0; n--) {
    const at = random.int(0, Math.max(0, spoilt.length - 1));
    const length = random.pick([1, 2, 3, 30, 300]);
    const way = random.int(0, 7);
    if (way <= 2) spoilt[at] = random.pick([0, 0x1a, 0x0d, 0x20, 0x43, 0xc3, 0xf3, 0xff, random.int(0, 255)]);
    else if (way === 3) spoilt.splice(at, length);
    else if (way === 4) spoilt.splice(at, 0, ...noise(random, Math.min(length, 60)));
    else if (way === 5) spoilt.splice(at, 0, ...spoilt.slice(at, at + length));
    else if (way === 6) spoilt = spoilt.slice(0, at);
    else spoilt[at] ^= 1 << random.int(0, 7);
  }
  return spoilt;
}

function noise(random: Random, length: number): number[] {
  return Array.from({ length }, () => random.int(0, 255));
}

const CELLS = [
  ...[
    '',
    ' ',
    '0',
    '-0',
    '1',
    '-1.5',
    '+2',
    '.5',
    '3.',
    '1e3',
    '1e400',
    '9999.999',
    '10000.01',
    'NaN',
    'Infinity',
  ],
  ...[
    '0,5',
    'stitch',
    'STITCH',
    'color',
    'colour',
    'trim',
    'jump',
    'stop',
    'end',
    'ende',
    '"',
    '"a',
    '"1"',
    '""""',
  ],
  ...['=1+1', '@x', '\u001b[31m', '\u202e', '\ufeff', '123456789', '1234567890', '刺', '\u0000', 'x_mm', '-'],
];

function table(random: Random): ArrayLike<number> {
  const way = random.next();
  if (way < 0.1) return noise(random, random.int(0, 300));
  if (way < 0.35) {
    const design = decodeDst(Uint8Array.from([...part(random), 0, 0, 0xf3]));
    const bytes = [...encodeStitchTable(design)];
    return way < 0.2 ? bytes : spoiled(random, bytes);
  }
  const delimiter = random.pick([',', ',', ';', '\t']);
  const names = random.pick([
    ['x_mm', 'y_mm', 'kind'],
    ['x_mm', 'y_mm', 'kind', 'thread'],
    ['kind', 'X_MM', 'y_mm', 'note'],
    ['x_mm', 'y_mm', 'kind', 'kind'],
    ['x', 'y', 'kind'],
  ]);
  const rows: string[][] = [names];
  const oddness = random.pick([0, 0.01, 0.05, 0.5]);
  const reach = random.pick([1, 20, 600, 20_000]);
  let block = 0;
  for (let n = random.int(0, 60); n > 0; n--) {
    const kind = random.pick(['stitch', 'stitch', 'stitch', 'stitch', 'jump', 'trim', 'colour', 'stop']);
    if (kind === 'colour') block++;
    const cell = (name: string): string => {
      if (random.chance(oddness)) return random.pick(CELLS);
      if (/kind/i.test(name)) return kind;
      if (name === 'thread') return String(block % 7);
      return random.range(-reach, reach).toFixed(random.pick([1, 2, 2, 6]));
    };
    rows.push(names.map(cell));
    if (random.chance(oddness)) rows.at(-1)!.push(random.pick(CELLS));
  }
  if (random.chance(0.7)) rows.push(names.map((name) => (/kind/i.test(name) ? 'end' : '0')));
  const text = rows.map((row) => row.join(delimiter)).join(random.pick(['\r\n', '\n', '\r']));
  if (random.chance(0.1)) return Uint8Array.from([0xff, 0xfe, ...latin(text).flatMap((byte) => [byte, 0])]);
  return random.chance(0.3) ? spoiled(random, [...utf8(text)]) : utf8(text);
}

const IDS = [
  'polo',
  'left-chest',
  'cutaway-2.5oz',
  'pique-knit',
  'soluble-film',
  '__proto__',
  'constructor',
  'A b',
  '',
];
const NUMBERS = [0, -0, 1, -1, 0.5, 2.5, 1e-300, 1e300, 1e9, 4.5, 75, 12.0001];

/** JSON of a profile: its real keys for the most part, values of every kind. */
function profile(random: Random): ArrayLike<number> {
  const number = (): number => random.pick([...NUMBERS, random.range(0, 20), random.int(1, 5)]);
  const value = (depth = 0): unknown => {
    const way = random.next();
    if (way < 0.6 || depth > 3) return number();
    return random.pick([
      null,
      true,
      '',
      'knit',
      '<script>alert(1)</script>',
      '\u001b[31m',
      [],
      [number()],
      {},
      { value: number(), low: number(), high: number() },
      { note: number(), warn: null, fail: number() },
      { [random.pick(IDS)]: depth > 2 ? 1 : value(depth + 1) },
    ]);
  };
  /** Usually what the key is for, sometimes anything. */
  const or = <T>(usual: T): unknown => (random.chance(0.04) ? value() : usual);
  const some = (keys: readonly string[], make: (key: string) => unknown): Record<string, unknown> =>
    Object.fromEntries(
      keys
        .filter(() => random.chance(0.3))
        .map((key) => [random.chance(0.02) ? `${key}x` : key, or(make(key))]),
    );
  const limitIds = Object.keys(LIMITS);
  const groups: Record<string, () => unknown> = {
    limits: () => some(limitIds, () => random.pick([number(), { warn: number() }, { fail: null }])),
    machine: () =>
      some(['speedSpm', 'fullSpeedMm', 'slowestSpm', 'trimSeconds', 'colourSeconds', 'stopSeconds'], number),
    thread: () => some(['thicknessMm', 'bobbinPerTop'], number),
    places: () =>
      some(IDS, () => ({
        widthMm: number(),
        heightMm: number(),
        ...(random.chance(0.5) && { name: '=cmd|x' }),
      })),
    prices: () => ({
      ...some(['threadPer1000m', 'bobbinPer1000m', 'machinePerHour'], number),
      ...(random.chance(0.5) && { sheets: some(IDS, number) }),
      ...(random.chance(0.2) && { currency: random.pick(['USD', 'EUR', 'usd', '=A1', 7]) }),
    }),
    accept: () => some(['grade', 'washedGrade', 'washes'], () => random.pick([1, 3.5, 4, 8, -1, 0.3])),
    calibration: () =>
      some(['tension', 'bedIn', 'fullTacking', 'hooped', 'threshold', 'longestSpan', 'scoreHalf'], () =>
        random.pick<unknown>([number(), { value: number(), low: number() }]),
      ),
    catalogue: () =>
      some(['fabrics', 'sheets', 'toppings', 'threads', 'needles'], () =>
        some(IDS, () => some(['mass', 'thickness', 'name', 'structure', 'kind', 'diameter'], () => value())),
      ),
  };
  const names = Object.keys(groups).filter(() => random.chance(0.25));
  const text = JSON.stringify(Object.fromEntries(names.map((name) => [name, or(groups[name]())])));
  if (random.chance(0.05)) return noise(random, random.int(0, 60));
  return random.chance(0.1) ? spoiled(random, [...utf8(text)]) : utf8(text);
}

/** A small design to hold a profile against. */
export const PLAIN = new Needle()
  .column(0, 0, { height: 6, underlay: 'center-run' })
  .column(9, 0, { width: 9, height: 5 })
  .colourTo(-5, 10)
  .fill(-5, 10, { width: 8, height: 4 })
  .end();
