/** What a design looks like, painted thread over thread onto squares: the plain way, to hold proofs of rewriting against. */
import type { Design } from '../../lib/format/design.js';
import { Break, penetrations } from '../../lib/format/stitches.js';
import { toSegment } from './rewrites.js';

/** Edge of a square, mm. */
const SQUARE_MM = 0.2;

/** The color block that is seen at each square with thread on it. */
export type Painted = ReadonlyMap<string, number>;

const squareName = (cx: number, cy: number): string => `${cx},${cy}`;

/** @param threadMm as wide as each thread is painted, mm */
export function painted(design: Design, threadMm: number): Painted {
  const { x, y, breakBefore, block, count } = penetrations(design);
  const squares = new Map<string, number>();
  const half = threadMm / 2;
  for (let i = 1; i < count; i++) {
    if (breakBefore[i] >= Break.trim) continue;
    const [ax, ay, bx, by] = [x[i - 1], y[i - 1], x[i], y[i]];
    const cell = (mm: number) => Math.floor(mm / SQUARE_MM);
    for (let cy = cell(Math.min(ay, by) - half); cy <= cell(Math.max(ay, by) + half); cy++) {
      for (let cx = cell(Math.min(ax, bx) - half); cx <= cell(Math.max(ax, bx) + half); cx++) {
        const [px, py] = [(cx + 0.5) * SQUARE_MM, (cy + 0.5) * SQUARE_MM];
        if (toSegment(px, py, ax, ay, bx, by) <= half) squares.set(squareName(cx, cy), block[i]);
      }
    }
  }
  return squares;
}

/** Squares that look otherwise, as mm²: of a different color, or with thread in one alone. */
export function differenceMm2(a: Painted, b: Painted): number {
  let squares = 0;
  for (const [name, color] of a) if (b.get(name) !== color) squares++;
  for (const name of b.keys()) if (!a.has(name)) squares++;
  return squares * SQUARE_MM * SQUARE_MM;
}
