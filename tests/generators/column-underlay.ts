import type { UnderlayKind } from '../../lib/segment/objects.js';
import { type Column, place } from './column.js';
import { hatch, Ways } from './hatch.js';
import { stitchAlong, type Vec, vec } from './plane.js';
import type { Random } from './random.js';

/** One pass of underlay and the end of the column (0 or 1) at which it leaves the needle. */
export interface Pass {
  kind: UnderlayKind;
  points: Vec[];
  end: 0 | 1;
}

export type Laying = 'out' | 'there-and-back';

const spots = (a: number, b: number, step: number): number[] => {
  const n = Math.max(1, Math.round(Math.abs(b - a) / step));
  return Array.from({ length: n + 1 }, (_, k) => a + ((b - a) * k) / n);
};

/** Half the width of the underlay at a place: inset from the edge, but never beyond the middle of a narrow place. */
function innerHalf(column: Column, s: number, inset: number): number {
  const h = column.half(column.centre.closed ? s % column.centre.length : s);
  return Math.max(h - inset, h * 0.35);
}

/** From near one end of the column to near the other. */
function reach(column: Column, from: 0 | 1, margin: number): [number, number] {
  const l = column.centre.length;
  if (column.centre.closed) return from === 0 ? [0, l] : [l, 0];
  const m = Math.min(margin, l * 0.15);
  return from === 0 ? [m, l - m] : [l - m, m];
}

export function centreRun(column: Column, from: 0 | 1, laying: Laying, random: Random, margin = 0.6): Pass {
  const stitch = random.range(1.5, 3);
  const [a, b] = reach(column, from, margin);
  const line = (p: number, q: number) => spots(p, q, stitch).map((s) => place(column, s, 0));
  const points = line(a, b);
  if (laying === 'out') return { kind: 'center-run', points, end: (1 - from) as 0 | 1 };
  return { kind: 'center-run', points: [...points, ...line(b, a).slice(1)], end: from };
}

/** Both edges one after another; round a closed column both rings. Ends where it began. */
export function edgeRun(column: Column, from: 0 | 1, inset: number, random: Random): Pass {
  const stitch = random.range(1.5, 3);
  const side = random.sign();
  const [a, b] = reach(column, from, Math.max(0.4, inset));
  const rail = (p: number, q: number, k: number) =>
    spots(p, q, stitch).map((s) => place(column, s, k * innerHalf(column, s, inset)));
  const second = column.centre.closed && random.chance(0.5) ? rail(a, b, -side) : rail(b, a, -side);
  const points = [...rail(a, b, side), ...second];
  if (column.centre.closed) return { kind: 'edge-run', points, end: from };
  // The step across at the far end is one stitch or several; some close the box at the near end too.
  const box = random.chance(0.3) ? [...points, points[0]] : points;
  return { kind: 'edge-run', points: random.chance(0.5) ? stitchAlong(box, stitch * 1.2) : box, end: from };
}

export function zigzag(
  column: Column,
  from: 0 | 1,
  inset: number,
  double: boolean,
  spacing: number,
  random: Random,
): Pass {
  let side = random.sign();
  const [a, b] = reach(column, from, Math.max(0.4, inset));
  const n = Math.max(3, Math.round(Math.abs(b - a) / (spacing / 2)));
  const points: Vec[] = [];
  const pass = (p: number, q: number) => {
    for (let k = 0; k <= n; k++) {
      const s = p + ((q - p) * k) / n;
      points.push(place(column, s, side * innerHalf(column, s, inset)));
      side = -side as 1 | -1;
    }
  };
  pass(a, b);
  if (double) pass(b, a);
  return { kind: double ? 'double-zigzag' : 'zigzag', points, end: double ? from : ((1 - from) as 0 | 1) };
}

export type RowsLie = 'across' | 'along' | 'diagonal';

/**
 * A light fill: rows of short stitches laid in the column's own coordinates (along, beside) and mapped to the plane.
 * Rows along the column are given a count of at least four: two are what an edge run looks like, three an edge run with a
 * center run.
 */
export function lightFill(
  column: Column,
  from: 0 | 1,
  inset: number,
  lie: RowsLie,
  rows: number,
  stitch: number,
  random: Random,
): Pass {
  const l = column.centre.length;
  const m = column.centre.closed ? 0 : Math.min(0.8, l * 0.1);
  const step = 0.5;
  const n = Math.max(2, Math.ceil((l - 2 * m) / step));
  const left: Vec[] = [];
  const right: Vec[] = [];
  for (let k = 0; k <= n; k++) {
    const s = m + ((l - 2 * m) * k) / n;
    left.push(vec(s, innerHalf(column, s, inset)));
    right.push(vec(s, -innerHalf(column, s, inset)));
  }
  const region = { outer: [...right, ...left.reverse()], holes: [] };
  const degrees = lie === 'along' ? 0 : lie === 'across' ? 90 : random.sign() * 45;
  const width = 2 * (column.half(l / 2) - inset);
  // Even distances that fill the width: a row on either edge of the field and the rest between.
  const apart =
    lie === 'along' ? (width - 0.1) / Math.max(width > 8.2 ? 4 : 3, Math.round(width / rows)) : rows;
  const laid = hatch(
    region,
    {
      degrees,
      rows: apart,
      stitch,
      stagger: random.pick(['brick', 'random', 'none']),
      join: 'edge',
      least: 0.7,
      shortest: 1,
    },
    vec(from === 0 ? 0 : l, random.sign() * width),
    new Ways(region, 0.2),
    random,
  );
  const last = laid.points[laid.points.length - 1];
  return {
    kind: 'fill',
    points: laid.points.map((p) => place(column, p.x, p.y)),
    end: last.x < l / 2 ? 0 : 1,
  };
}
