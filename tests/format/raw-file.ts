/**
 * Stitch files put together byte by byte, from the written layout and not from the code under test: weights are looked up as
 * (byte, bit) pairs, and moves are taken apart by ternary division.
 */

/** [byte, bit] of the plus and of the minus bit of every weight. Common practice, no source. */
const X_BITS: Record<number, { plus: [number, number]; minus: [number, number] }> = {
  1: { plus: [0, 0], minus: [0, 1] },
  9: { plus: [0, 2], minus: [0, 3] },
  3: { plus: [1, 0], minus: [1, 1] },
  27: { plus: [1, 2], minus: [1, 3] },
  81: { plus: [2, 2], minus: [2, 3] },
};
const Y_BITS: Record<number, { plus: [number, number]; minus: [number, number] }> = {
  1: { plus: [0, 7], minus: [0, 6] },
  9: { plus: [0, 5], minus: [0, 4] },
  3: { plus: [1, 7], minus: [1, 6] },
  27: { plus: [1, 5], minus: [1, 4] },
  81: { plus: [2, 5], minus: [2, 4] },
};

export type RawKind = 'stitch' | 'jump' | 'pause';
const THIRD_BYTE: Record<RawKind, number> = { stitch: 0x03, jump: 0x83, pause: 0xc3 };
export const END = [0x00, 0x00, 0xf3] as const;

/** One record; `dx`, `dy` in units of 0.1 mm. */
export function raw(dx: number, dy: number, kind: RawKind = 'stitch'): number[] {
  const bytes = [0, 0, THIRD_BYTE[kind]];
  for (const [move, bits] of [
    [dx, X_BITS],
    [dy, Y_BITS],
  ] as const) {
    let rest = move;
    for (let weight = 1; weight <= 81; weight *= 3) {
      const remainder = ((rest % 3) + 3) % 3;
      if (remainder === 1) bytes[bits[weight].plus[0]] |= 1 << bits[weight].plus[1];
      if (remainder === 2) bytes[bits[weight].minus[0]] |= 1 << bits[weight].minus[1];
      rest = (rest - (remainder === 2 ? -1 : remainder)) / 3;
    }
    if (rest !== 0) throw new Error(`a record cannot move by ${move}`);
  }
  return bytes;
}

/** The move of one record, read bit by bit. */
export function rawMove(bytes: ArrayLike<number>, at = 0): { dx: number; dy: number } {
  const sum = (table: typeof X_BITS): number =>
    Object.entries(table).reduce((total, [weight, { plus, minus }]) => {
      const has = ([byte, bit]: [number, number]): number => (bytes[at + byte] >> bit) & 1;
      return total + Number(weight) * (has(plus) - has(minus));
    }, 0);
  return { dx: sum(X_BITS), dy: sum(Y_BITS) };
}

export interface RawHeader {
  /** Values in place of the usual ones; null leaves the field out. */
  fields?: Record<string, string | null>;
  /** Further fields, after the standard ones. */
  extra?: [key: string, value: string][];
  lineEnd?: string;
  endMark?: boolean;
  /** Bytes that the header is filled up to; 0 fills nothing up. */
  size?: number;
  padding?: number;
}

/** A header that is true of the records given, unless told otherwise. */
export function rawHeader(records: readonly (readonly number[])[], options: RawHeader = {}): number[] {
  const { fields = {}, extra = [], lineEnd = '\r', endMark = true, size = 512, padding = 0x20 } = options;
  let x = 0;
  let y = 0;
  const xs = [0];
  const ys = [0];
  let pauses = 0;
  for (const record of records) {
    const { dx, dy } = rawMove(record);
    x += dx;
    y += dy;
    xs.push(x);
    ys.push(y);
    if ((record[2] & 0xc0) === 0xc0) pauses++;
  }
  const extent = (units: number): string => String(units).padStart(5);
  const signed = (units: number): string => `${units < 0 ? '-' : '+'}${extent(Math.abs(units))}`;
  const usual: [string, string][] = [
    ['LA', 'crest'.padEnd(16)],
    ['ST', String(records.length).padStart(7)],
    ['CO', String(pauses).padStart(3)],
    ['+X', extent(Math.max(...xs))],
    ['-X', extent(Math.abs(Math.min(...xs)))],
    ['+Y', extent(Math.max(...ys))],
    ['-Y', extent(Math.abs(Math.min(...ys)))],
    ['AX', signed(x)],
    ['AY', signed(y)],
    ['MX', signed(0)],
    ['MY', signed(0)],
    ['PD', '******'],
  ];
  const lines = [
    ...usual.map(([key, value]) => [key, key in fields ? fields[key] : value] as const),
    ...extra,
  ]
    .filter(([, value]) => value !== null)
    .map(([key, value]) => `${key}:${value}${lineEnd}`);
  const bytes = [...lines.join('')].map((char) => char.charCodeAt(0));
  if (endMark) bytes.push(0x1a);
  while (bytes.length < size) bytes.push(padding);
  return bytes;
}

/** A whole file: header, records, end record. */
export function rawFile(
  records: readonly (readonly number[])[],
  options: RawHeader & { end?: readonly number[]; after?: readonly number[] } = {},
): Uint8Array {
  const { end = END, after = [] } = options;
  return Uint8Array.from([...rawHeader(records, options), ...records.flat(), ...end, ...after]);
}
