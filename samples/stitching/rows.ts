import type { Area } from './area.js';
import { type Point, placed } from './plane.js';

/** One stretch of a fill row inside the area, in the frame of the rows (x along them). */
export interface Stretch {
  readonly row: number;
  readonly y: number;
  readonly x0: number;
  readonly x1: number;
  /** Indexes of the stretches of the neighbouring rows that it touches. */
  readonly below: number[];
  readonly above: number[];
}

/** Rows of a fill: the stretches, and the sections of them that can be sewn to and fro without a break. */
export interface Rows {
  readonly stretches: readonly Stretch[];
  /** Stretch indexes, lowest row first. */
  readonly sections: readonly (readonly number[])[];
  /** From the frame of the rows back to the design. */
  readonly out: (p: Point) => Point;
  readonly in: (p: Point) => Point;
}

/** Stretches shorter than this are left out: they would be a knot of needle points in a corner. */
const SHORTEST_MM = 1.6;

/** Cuts an area into rows `spacingMm` apart at `angleDeg`; each stretch grows by `pullMm` at both ends. */
export function rowsOf(area: Area, angleDeg: number, spacingMm: number, pullMm: number): Rows {
  const toFrame = (p: Point): Point => placed(p, { at: { x: 0, y: 0 }, turnDeg: -angleDeg });
  const rings = [area.outline, ...area.holes].map((ring) => ring.map(toFrame));
  let low = Infinity;
  let high = -Infinity;
  for (const p of rings[0]) {
    low = Math.min(low, p.y);
    high = Math.max(high, p.y);
  }
  const count = Math.floor((high - low) / spacingMm);
  const first = low + (high - low - (count - 1) * spacingMm) / 2;
  const stretches: Stretch[] = [];
  let before: number[] = [];
  for (let row = 0; row < count; row++) {
    const y = first + row * spacingMm;
    const cuts: number[] = [];
    for (const ring of rings)
      for (let i = 0; i < ring.length; i++) {
        const a = ring[i];
        const b = ring[(i + 1) % ring.length];
        if (a.y <= y !== b.y <= y) cuts.push(a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x));
      }
    cuts.sort((a, b) => a - b);
    const now: number[] = [];
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const [x0, x1] = [cuts[i] - pullMm, cuts[i + 1] + pullMm];
      if (x1 - x0 < SHORTEST_MM) continue;
      const below = before.filter((k) => stretches[k].x0 < x1 - 0.5 && stretches[k].x1 > x0 + 0.5);
      for (const k of below) stretches[k].above.push(stretches.length);
      now.push(stretches.length);
      stretches.push({ row, y, x0, x1, below, above: [] });
    }
    before = now;
  }
  return {
    stretches,
    sections: sectionsOf(stretches).filter(inMainPiece(stretches)),
    out: (p) => placed(p, { at: { x: 0, y: 0 }, turnDeg: angleDeg }),
    in: toFrame,
  };
}

function sectionsOf(stretches: readonly Stretch[]): number[][] {
  const sections: number[][] = [];
  stretches.forEach((stretch, i) => {
    const begins = stretch.below.length !== 1 || stretches[stretch.below[0]].above.length !== 1;
    if (!begins) return;
    const section = [i];
    for (;;) {
      const top = stretches[section[section.length - 1]];
      if (top.above.length !== 1 || stretches[top.above[0]].below.length !== 1) break;
      section.push(top.above[0]);
    }
    sections.push(section);
  });
  return sections;
}

/**
 * Tells the sections of the largest connected piece. Wide-set rows leave crumbs in sharp corners that touch no other row; they are
 * not worth a trim. More than a twentieth of the whole is no crumb.
 */
function inMainPiece(stretches: readonly Stretch[]): (section: readonly number[]) => boolean {
  const piece = new Int32Array(stretches.length).fill(-1);
  const lengths: number[] = [];
  stretches.forEach((_, start) => {
    if (piece[start] >= 0) return;
    const id = lengths.push(0) - 1;
    const open = [start];
    piece[start] = id;
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      lengths[id] += stretches[at].x1 - stretches[at].x0;
      for (const next of [...stretches[at].below, ...stretches[at].above])
        if (piece[next] < 0) {
          piece[next] = id;
          open.push(next);
        }
    }
  });
  const main = lengths.indexOf(Math.max(...lengths));
  const whole = lengths.reduce((a, b) => a + b, 0);
  if (lengths[main] < whole * 0.95) throw new Error('An area in two pieces is sewn as two fills.');
  return (section) => piece[section[0]] === main;
}
