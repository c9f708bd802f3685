/** Designs of many kinds: such as a shop gets, and such as nobody would sew but a file can hold. */
import { emptyBounds, growBounds } from '../../../lib/core/bounds.js';
import { LieflatError } from '../../../lib/core/errors.js';
import { encodeDesign } from '../../../lib/format/decode.js';
import { type Design, Kind, type KindCode } from '../../../lib/format/design.js';
import { decodeDst } from '../../../lib/format/dst-decode.js';
import { FAMILIES } from '../../generators/families/index.js';
import type { Random } from '../../generators/random.js';
import { inputOf } from '../inputs.js';

export interface DesignFile {
  ending: '.dst' | '.csv';
  bytes: Uint8Array;
}

type Record = [kind: KindCode, x: number, y: number];

const stitches = (points: readonly (readonly [number, number])[]): Record[] =>
  points.map(([x, y]) => [Kind.stitch, x, y]);

/** Half the side of what a stitch table takes, mm. */
const FAR = 9999;

/** Each makes records of which at most `most` are stitches. */
const KINDS: Readonly<globalThis.Record<string, (random: Random, most: number) => Record[]>> = {
  nothing: () => [],
  'one stitch': (r) => [[Kind.stitch, r.pick([0, 0, 3.2, -40]), r.pick([0, 5])]],
  'two stitches': (r) =>
    stitches([
      [0, 0],
      [r.pick([0, 0.1, 3, 12.1, 300]), r.pick([0, 0.1, 4])],
    ]),
  'on one point': (r, most) => stitches(Array.from({ length: r.int(2, most) }, () => [1, 1])),
  'only jumps': (r, most) =>
    Array.from({ length: r.int(1, most) }, (): Record => [Kind.jump, r.range(-30, 30), r.range(-30, 30)]),
  'only pauses': (r) =>
    Array.from({ length: r.int(1, 9) }, (): Record => [r.pick([Kind.trim, Kind.colour, Kind.stop]), 0, 0]),
  'on a line': (r, most) => {
    const [dx, dy] = r.pick([
      [2, 0],
      [0, 2],
      [1.5, 1.5],
      [0.1, 0],
      [0, 12],
    ]);
    const back = r.chance(0.4) ? r.int(2, 9) : most;
    let at = 0;
    return stitches(
      Array.from({ length: r.int(2, most) }, (_, i) => {
        at += Math.floor(i / back) % 2 ? -1 : 1;
        return [at * dx, at * dy];
      }),
    );
  },
  'column without width': (r, most) => {
    const [width, pitch] = [r.pick([0, 0.1, 0.2, 0.5]), r.pick([0, 0.1, 0.2, 0.4])];
    return stitches(Array.from({ length: r.int(4, most) }, (_, i) => [i % 2 ? width : 0, i * pitch]));
  },
  'column of changing width': (r, most) => {
    const [least, widest, pitch] = [r.pick([0, 0.5, 2]), r.range(1, 12), r.pick([0.1, 0.2, 0.3, 0.8])];
    const count = r.int(4, most);
    const skew = r.pick([0, 0, 3]);
    return stitches(
      Array.from({ length: count }, (_, i) => {
        const half = (least + (widest - least) * Math.sin((Math.PI * i) / count)) / 2;
        return [i % 2 ? half : -half, i * pitch + (i % 2 ? skew : 0)];
      }),
    );
  },
  'column over columns': (r, most) => {
    const records: Record[] = [];
    const layers = r.int(2, 5);
    for (let layer = 0; layer < layers; layer++)
      for (let i = 0; i < Math.floor(most / layers); i++)
        records.push([Kind.stitch, (i % 2) * r.pick([4, 7, 7]), i * 0.2]);
    return records;
  },
  ring: (r, most) => {
    const [inner, outer, turn] = [r.pick([0, 1, 8]), r.range(2, 14), r.pick([0.01, 0.05, 0.3])];
    return stitches(
      Array.from({ length: r.int(6, most) }, (_, i) => {
        const radius = i % 2 ? outer : inner;
        return [radius * Math.cos(i * turn), radius * Math.sin(i * turn)];
      }),
    );
  },
  spiral: (r, most) => {
    const pitch = r.pick([0.05, 0.4, 2]);
    return stitches(
      Array.from({ length: r.int(6, most) }, (_, i) => [
        (i * pitch * Math.cos(i / 3)) / 6,
        (i * pitch * Math.sin(i / 3)) / 6,
      ]),
    );
  },
  rows: (r, most) => {
    const [width, step, pitch] = [r.range(0, 40), r.range(0.3, 7), r.pick([0, 0.1, 0.2, 0.4, 1.5])];
    const points: [number, number][] = [];
    for (let row = 0; points.length < most && row < 200; row++) {
      const along: number[] = [];
      for (let x = 0; x <= width; x += step) along.push(x);
      for (const x of row % 2 ? along.reverse() : along) points.push([x, row * pitch]);
    }
    return stitches(points.slice(0, most));
  },
  'walk of chance': (r, most) => {
    const reach = r.pick([0.1, 0.5, 3, 12]);
    let [x, y] = [0, 0];
    return stitches(
      Array.from({ length: r.int(2, most) }, (): [number, number] => {
        x += r.range(-reach, reach);
        y += r.range(-reach, reach);
        return [x, y];
      }),
    );
  },
  pile: (r, most) => stitches(Array.from({ length: most }, () => [r.range(0, 1), r.range(0, 1)])),
  'far apart': (r, most) => {
    const away = r.pick([100, 600, 3000, FAR]);
    const records: Record[] = [];
    const parts = r.int(2, 4);
    for (let part = 0; part < parts; part++) {
      const [x, y] = [r.pick([-away, 0, away]), r.pick([-away, 0, away])];
      records.push([Kind.trim, x, y]);
      for (let i = 0; i < Math.min(60, most / parts); i++)
        records.push([Kind.stitch, x + (i % 2) * 3, y + i * 0.2]);
    }
    return records;
  },
  'a trim a stitch': (r, most) =>
    Array.from({ length: r.int(2, most) }, (_, i): Record[] => [
      [Kind.trim, (i % 40) * 2, Math.floor(i / 40) * 2],
      ...Array.from(
        { length: r.int(0, 3) },
        (_, k): Record => [Kind.stitch, (i % 40) * 2 + (k % 2) * 0.7, Math.floor(i / 40) * 2],
      ),
    ]).flat(),
  'a color a stitch': (r, most) =>
    Array.from({ length: r.int(2, Math.min(most, 300)) }, (_, i): Record[] => [
      [Kind.stitch, r.range(0, 30), r.range(0, 30)],
      [i % 7 ? Kind.colour : Kind.stop, 0, 0],
    ]).flat(),
  'little columns': (r, most) => {
    const records: Record[] = [];
    for (let n = 0; records.length < most; n++) {
      const [x, y, width] = [(n % 9) * 5, Math.floor(n / 9) * 5, r.range(0.2, 4)];
      records.push([r.chance(0.5) ? Kind.trim : Kind.jump, x, y]);
      for (let i = r.int(1, 16); i > 0; i--) records.push([Kind.stitch, x + (i % 2) * width, y + i * 0.2]);
    }
    return records;
  },
};

/** How large the designs of a trial may be. */
export interface Most {
  stitches: number;
  /** Larger side of what is sewn, mm, for all but one design in {@link LARGE_EVERY}. */
  mm: number;
}

/** One design in so many may be of any size: fabric about it is worked out cell by cell. */
const LARGE_EVERY = 32;
/** A design that is too large is made again, so often at most. */
const TRIES = 8;

/** To tenths of a millimetre, within what a table takes. */
const onGrid = (mm: number): number => Math.round(Math.max(-FAR, Math.min(FAR, mm)) * 10) / 10;

const NAMES = Object.keys(KINDS);
/** Sheets between parts that lie far apart are worked out at length: one in eight of these is enough. */
const LONG = 'far apart';

function kindOf(random: Random): string {
  const kind = random.pick(NAMES);
  return kind === LONG && random.chance(7 / 8) ? random.pick(NAMES) : kind;
}

/** Larger side of what is sewn, mm. */
function sideOf({ x, y, kind }: Design): number {
  const box = emptyBounds();
  for (let i = 0; i < kind.length; i++) if (kind[i] === Kind.stitch) growBounds(box, x[i], y[i]);
  return Math.max(0, box.maxX - box.minX, box.maxY - box.minY);
}

function designOf(records: readonly Record[], random: Random): Design {
  const all: Record[] = random.chance(0.9) ? [...records, [Kind.end, 0, 0]] : [...records];
  let [x, y] = [0, 0];
  // A pause is where the needle stands.
  const at = all.map(([kind, toX, toY]) => {
    if (kind === Kind.stitch || kind === Kind.jump || (kind === Kind.trim && (toX !== 0 || toY !== 0)))
      [x, y] = [toX, toY];
    return [x, y];
  });
  let thread = 0;
  return {
    x: Float64Array.from(at, ([px]) => onGrid(px)),
    y: Float64Array.from(at, ([, py]) => onGrid(py)),
    kind: Uint8Array.from(all, ([kind]) => kind),
    thread: random.chance(0.2)
      ? Int32Array.from(all, ([kind]) => (kind === Kind.colour ? ++thread : thread))
      : null,
    header: [],
    diagnostics: [],
    format: 'dst',
  };
}

/** The first records of a design, so many that the heavy commands take little time. */
function cut(design: Design, random: Random, most: number): Design {
  const from =
    design.kind.length > most && random.chance(0.75) ? random.int(0, design.kind.length - most) : 0;
  const part = <T extends { slice(from: number, to: number): T }>(of: T): T => of.slice(from, from + most);
  const { x, y, kind, thread } = design;
  return { ...design, x: part(x), y: part(y), kind: part(kind), thread: thread && part(thread) };
}

/**
 * Families lay whole designs of thousands of stitches, of which a trial sees a few: each is laid once for many trials, which begin
 * where they like.
 */
const LAID = new Map<string, Design>();
const SEEDS_OF_FAMILY = 10;

function laid(family: string, seed: number): Design {
  const key = `${family} ${seed}`;
  const design = LAID.get(key) ?? FAMILIES[family](seed).design;
  LAID.set(key, design);
  return design;
}

/** A stitch file or table of one of many kinds. */
export function designFile(random: Random, most: Most): DesignFile {
  const mm = random.chance(1 / LARGE_EVERY) ? Number.POSITIVE_INFINITY : most.mm;
  let made = fileOfChance(random, most.stitches);
  for (let n = 1; n < TRIES && made.mm > mm; n++) made = fileOfChance(random, most.stitches);
  return made.file();
}

/** One that is written when it is taken. */
interface Made {
  /** Larger side of what is sewn, as far as that is known. */
  mm: number;
  file: () => DesignFile;
}

function fileOfChance(random: Random, most: number): Made {
  if (random.chance(0.12)) {
    const kind = random.pick(['dst', 'csv'] as const);
    const { bytes } = inputOf(random.int(0, 1e9), kind);
    return { mm: kind === 'dst' ? sideOfFile(bytes) : 0, file: () => ({ ending: `.${kind}`, bytes }) };
  }
  const design = designOfChance(random, most);
  const file = (): DesignFile =>
    random.chance(0.75) ? stitchFile(design) : { ending: '.csv', bytes: encodeDesign(design, 'csv') };
  return { mm: sideOf(design), file };
}

function sideOfFile(bytes: Uint8Array): number {
  try {
    return sideOf(decodeDst(bytes));
  } catch (error) {
    if (!(error instanceof LieflatError)) throw error;
    return 0;
  }
}

function designOfChance(random: Random, most: number): Design {
  if (random.chance(0.55)) return designOf(KINDS[kindOf(random)](random, most), random);
  const family = random.pick(Object.keys(FAMILIES));
  return cut(laid(family, random.int(0, SEEDS_OF_FAMILY - 1)), random, most);
}

/** What a stitch file cannot hold goes into a table. */
function stitchFile(design: Design): DesignFile {
  try {
    return { ending: '.dst', bytes: encodeDesign(design, 'dst') };
  } catch (error) {
    if (!(error instanceof LieflatError)) throw error;
    return { ending: '.csv', bytes: encodeDesign(design, 'csv') };
  }
}
