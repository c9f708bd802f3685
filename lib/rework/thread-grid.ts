/** A window of fabric as bits, one for each square of a tenth of a millimeter: where thread lies, and what lies near it. */
import { UNITS_PER_MM } from '../format/dst-record.js';

/** Edge of a square, mm: the step of a stitch file, so that a needle point of one is the middle of a square. */
export const SQUARE_MM = 1 / UNITS_PER_MM;
const SQUARE_MM2 = SQUARE_MM * SQUARE_MM;

export const squareOf = (mm: number): number => Math.round(mm * UNITS_PER_MM);

/** Squares that a window takes in: from `x`, `y` on, so many each way. */
export interface Window {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Bits of a word. */
const WORD = 32;

export class ThreadGrid {
  private readonly words: number;
  private readonly bits: Uint32Array;

  constructor(readonly window: Window) {
    this.words = Math.ceil(window.width / WORD);
    this.bits = new Uint32Array(this.words * window.height);
  }

  /** Whether a square is set; squares outside the window are not. */
  has(x: number, y: number): boolean {
    const [px, py] = [x - this.window.x, y - this.window.y];
    if (px < 0 || py < 0 || px >= this.window.width || py >= this.window.height) return false;
    return ((this.bits[py * this.words + (px >>> 5)] >>> (px & 31)) & 1) === 1;
  }

  set(x: number, y: number): void {
    const [px, py] = [x - this.window.x, y - this.window.y];
    if (px < 0 || py < 0 || px >= this.window.width || py >= this.window.height) return;
    this.bits[py * this.words + (px >>> 5)] |= 1 << (px & 31);
  }

  /** Sets the squares along a thread, mm. */
  draw(ax: number, ay: number, bx: number, by: number): void {
    const [x, y] = [ax * UNITS_PER_MM, ay * UNITS_PER_MM];
    const [vx, vy] = [bx * UNITS_PER_MM - x, by * UNITS_PER_MM - y];
    const steps = Math.max(1, Math.ceil(Math.max(Math.abs(vx), Math.abs(vy))));
    for (let k = 0; k <= steps; k++) {
      this.set(Math.round(x + (vx * k) / steps), Math.round(y + (vy * k) / steps));
    }
  }

  /** All squares whose middle is within so many squares, at most 31, of that of a set one. */
  grown(radius: number): ThreadGrid {
    const out = new ThreadGrid(this.window);
    const { words, window } = this;
    let wide: Uint32Array = this.bits.slice();
    for (let dx = 0; dx <= radius; dx++) {
      if (dx > 0) wide = this.besides(wide, dx);
      // rows for which the disc is just this wide
      const high = Math.floor(Math.sqrt(radius * radius - dx * dx));
      const higher = dx + 1 <= radius ? Math.floor(Math.sqrt(radius * radius - (dx + 1) ** 2)) : -1;
      for (let dy = higher + 1; dy <= high; dy++) {
        orRows(out.bits, wide, dy * words);
        if (dy > 0) orRows(out.bits, wide, -dy * words);
      }
    }
    out.trim(window);
    return out;
  }

  /** All squares that are farther than so many squares from any that is not set; what lies outside the window is not. */
  shrunk(radius: number): ThreadGrid {
    return this.others().grown(radius).others();
  }

  /** The set squares with all gaps between them that are narrower than twice the radius; the window has to reach that far beyond them. */
  closed(radius: number): ThreadGrid {
    return this.grown(radius).shrunk(radius);
  }

  /** What is set here and not there, of the same window. */
  without(other: ThreadGrid): ThreadGrid {
    return this.combined(other, (a, b) => a & ~b);
  }

  /** What is set in both, of the same window. */
  within(other: ThreadGrid): ThreadGrid {
    return this.combined(other, (a, b) => a & b);
  }

  /** How many squares of a window are set, and the middle of the first of them. */
  counted(inner: Window): { squares: number; first: { x: number; y: number } | null } {
    let squares = 0;
    let first: { x: number; y: number } | null = null;
    const { window, words, bits } = this;
    const fromX = Math.max(0, inner.x - window.x);
    const toX = Math.min(window.width, inner.x + inner.width - window.x);
    const fromY = Math.max(0, inner.y - window.y);
    const toY = Math.min(window.height, inner.y + inner.height - window.y);
    for (let py = fromY; py < toY; py++) {
      for (let w = fromX >>> 5; w * WORD < toX; w++) {
        const word = bits[py * words + w] & bitsBetween(fromX - w * WORD, toX - w * WORD);
        if (word === 0) continue;
        first ??= {
          x: (window.x + w * WORD + (31 - Math.clz32(word & -word))) / UNITS_PER_MM,
          y: (window.y + py) / UNITS_PER_MM,
        };
        squares += ones(word);
      }
    }
    return { squares, first };
  }

  private others(): ThreadGrid {
    const out = new ThreadGrid(this.window);
    for (let i = 0; i < out.bits.length; i++) out.bits[i] = ~this.bits[i];
    out.trim(this.window);
    return out;
  }

  private combined(other: ThreadGrid, of: (a: number, b: number) => number): ThreadGrid {
    const out = new ThreadGrid(this.window);
    for (let i = 0; i < out.bits.length; i++) out.bits[i] = of(this.bits[i], other.bits[i]);
    return out;
  }

  /** Squares set already, and those that lie just so far, less than a word, to the left and right of one of the grid. */
  private besides(wide: Uint32Array, by: number): Uint32Array {
    const { words, bits } = this;
    const rest = WORD - by;
    for (let i = 0; i < bits.length; i++) {
      const word = bits[i];
      if (word === 0) continue;
      wide[i] |= (word << by) | (word >>> by);
      const column = i % words;
      if (column + 1 < words) wide[i + 1] |= word >>> rest;
      if (column > 0) wide[i - 1] |= word << rest;
    }
    return wide;
  }

  /** Clears what of the last word of each row lies outside the window. */
  private trim({ width, height }: Window): void {
    const mask = bitsBetween(0, width - (this.words - 1) * WORD);
    for (let row = 1; row <= height; row++) this.bits[row * this.words - 1] &= mask;
  }
}

export const areaMm2 = (squares: number): number => squares * SQUARE_MM2;

/** Adds rows to others that lie so many words further on; those that would lie outside are left out. */
function orRows(into: Uint32Array, rows: Uint32Array, by: number): void {
  const from = Math.max(0, by);
  const to = Math.min(into.length, into.length + by);
  for (let i = from; i < to; i++) into[i] |= rows[i - by];
}

/** Bits of a word from one up to another, each cut to the word. */
function bitsBetween(from: number, to: number): number {
  const low = from <= 0 ? -1 : from >= WORD ? 0 : -1 << from;
  const high = to >= WORD ? -1 : to <= 0 ? 0 : (1 << to) - 1;
  return low & high;
}

/** Set bits of a word (population count by halves). */
function ones(word: number): number {
  let n = word - ((word >>> 1) & 0x55555555);
  n = (n & 0x33333333) + ((n >>> 2) & 0x33333333);
  return (((n + (n >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}
