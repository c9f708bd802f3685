/**
 * The three-byte stitch record: the one place that knows which bit means what.
 *
 * A record moves the needle by at most ±121 units of 0.1 mm along each axis. A move is written in balanced ternary: a sum
 * of ±81, ±27, ±9, ±3, ±1, each with a bit of its own for plus and for minus. Y grows upward.
 * Layout: common practice, no source (the record as the trade exchanges it).
 */

export const UNITS_PER_MM = 10;
/** The longest move of one record along an axis: 81 + 27 + 9 + 3 + 1 units of 0.1 mm. */
export const MAX_MOVE = 121;
export const RECORD_BYTES = 3;
export const HEADER_BYTES = 512;
/** So many jump records in a row, or more, tell the machine to trim. Common practice, no source. */
export const TRIM_JUMPS = 3;

/** What a record does: bits 7 and 6 of the third byte, with its two reserved bits, which are always set. */
export const Control = { stitch: 0x03, jump: 0x83, pause: 0xc3 } as const;
/** Bits 7 and 6 of the third byte. */
export const CONTROL_MASK = 0xc0;
export const CONTROL_JUMP = 0x80;
export const CONTROL_PAUSE = 0xc0;
/** Bit 6 without bit 7: a kind of record that the format does not define. */
export const CONTROL_UNKNOWN = 0x40;
/** Bits 1 and 0 of the third byte, set in every record. */
export const RESERVED_BITS = 0x03;
/** The third byte of the end record; both of its y81 bits are set, which no move can have. */
export const END_BYTE = 0xf3;
const END_MASK = 0xfc;
const END_BITS = 0xf0;

type Digit = readonly [axis: 'x' | 'y', weight: number];

/** Weight of every bit of the three bytes, from bit 7 down to bit 0; null for bits that carry no move. */
const DIGITS: readonly (readonly (Digit | null)[])[] = [
  [
    ['y', 1],
    ['y', -1],
    ['y', 9],
    ['y', -9],
    ['x', -9],
    ['x', 9],
    ['x', -1],
    ['x', 1],
  ],
  [
    ['y', 3],
    ['y', -3],
    ['y', 27],
    ['y', -27],
    ['x', -27],
    ['x', 27],
    ['x', -3],
    ['x', 3],
  ],
  [null, null, ['y', 81], ['y', -81], ['x', -81], ['x', 81], null, null],
];

/**
 * One table a byte: byte value → the part of the move that it carries, as `256·dy + dx`. The parts of the three bytes are
 * added before {@link moveX} and {@link moveY} take them apart, which is safe as |dx| never exceeds 121.
 */
function movesOfByte(digits: readonly (Digit | null)[]): Int32Array {
  const moves = new Int32Array(256);
  for (let bit = 0; bit < 8; bit++) {
    const digit = digits[7 - bit];
    const move = digit === null ? 0 : digit[1] * (digit[0] === 'x' ? 1 : 256);
    // with this bit as their highest: those without it, and its move
    for (let rest = 0; rest < 1 << bit; rest++) moves[(1 << bit) + rest] = moves[rest] + move;
  }
  return moves;
}

export const MOVE_0 = movesOfByte(DIGITS[0]);
export const MOVE_1 = movesOfByte(DIGITS[1]);
export const MOVE_2 = movesOfByte(DIGITS[2]);

/** Move along x, in units, out of the sum of the three tables' entries. */
export const moveX = (sum: number): number => (sum << 24) >> 24;
/** Move along y, in units, out of the sum of the three tables' entries. */
export const moveY = (sum: number): number => (sum - ((sum << 24) >> 24)) >> 8;

/** Whether the third byte ends the design. The reserved bits are not asked for: an end record without them still ends it. */
export const isEnd = (b2: number): boolean => (b2 & END_MASK) === END_BITS;

/** Whether a plus and a minus bit of the same weight are both set, which cancel each other: no writer means that. */
export const isContradictory = (b0: number, b1: number, b2: number): boolean =>
  ((b0 & (b0 >> 1) & 0x55) | (b1 & (b1 >> 1) & 0x55) | (b2 & (b2 >> 1) & 0x14)) !== 0;

/** Whether three bytes look like a record that a writer would make: reserved bits set, known kind, no contradiction. */
export function isCredible(b0: number, b1: number, b2: number): boolean {
  if ((b2 & RESERVED_BITS) !== RESERVED_BITS) return false;
  if (isEnd(b2)) return b0 === 0 && b1 === 0;
  return (b2 & CONTROL_MASK) !== CONTROL_UNKNOWN && !isContradictory(b0, b1, b2);
}

const WEIGHTS = [81, 27, 9, 3, 1] as const;

/** Bits of the whole record (first byte highest) for every move from −121 to 121 along one axis. */
function bitsOfMoves(axis: 'x' | 'y'): Int32Array {
  const bitOf = new Map<number, number>();
  DIGITS.forEach((digits, byte) => {
    digits.forEach((digit, fromTop) => {
      if (digit && digit[0] === axis) bitOf.set(digit[1], 1 << (8 * (2 - byte) + 7 - fromTop));
    });
  });
  const bitsOf = new Int32Array(2 * MAX_MOVE + 1);
  for (let move = -MAX_MOVE; move <= MAX_MOVE; move++) {
    let rest = move;
    for (const weight of WEIGHTS) {
      // What the lighter weights can still make up is (weight − 1) / 2 either way.
      const sign = Math.abs(rest) > (weight - 1) / 2 ? Math.sign(rest) : 0;
      if (sign !== 0) bitsOf[move + MAX_MOVE] |= bitOf.get(sign * weight) as number;
      rest -= sign * weight;
    }
  }
  return bitsOf;
}

/** Made when the first record is written: hardly any run writes one. */
let bits: { x: Int32Array; y: Int32Array } | undefined;

/**
 * A record as one number, first byte highest.
 * @param dx, dy move in units of 0.1 mm, whole, each within ±121
 * @param control one of {@link Control}
 */
export function packRecord(dx: number, dy: number, control: number): number {
  bits ??= { x: bitsOfMoves('x'), y: bitsOfMoves('y') };
  return bits.x[dx + MAX_MOVE] | bits.y[dy + MAX_MOVE] | control;
}
