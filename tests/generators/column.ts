import type { Curve } from './curve.js';
import type { Draft, Needle } from './draft.js';
import { between, distance, median, radians, type Vec, vec } from './plane.js';
import type { Random } from './random.js';

/** How the swings of a column lie to its centre line. */
export type Lie =
  | { kind: 'across' }
  /** Every swing turned by the same angle from square. */
  | { kind: 'slant'; degrees: number }
  /** Every swing in one direction of the plane, wherever the column goes. */
  | { kind: 'fixed'; degrees: number }
  /** The centre line has one sharp corner at `corner`, `turn` radians to the left: swings turn toward the mitre before it. */
  | { kind: 'mitre'; corner: number; turn: number; reach: number };

/** The shape of a column: centre line, half its width along it, and how its swings lie. */
export interface Column {
  centre: Curve;
  half: (s: number) => number;
  lie: Lie;
}

/** Place in a mitred column at `s` along and `v` to the left: near the corner it follows the turning swings. */
function mitred(column: Column, lie: Lie & { kind: 'mitre' }, s: number, v: number): Vec {
  const { centre } = column;
  const q = s - lie.corner;
  const near =
    Math.max(0, 1 - Math.abs(q) / lie.reach) * Math.tan(Math.abs(lie.turn) / 2) * Math.sign(lie.turn);
  // Before the corner the inner end holds back and the outer end runs ahead; behind it the other way round.
  const along = q <= 0 ? -v * near : v * near;
  const edge = q <= 0 ? Math.min(s, lie.corner - 0.05) : Math.max(s, lie.corner + 0.05);
  const t = centre.tangent(edge);
  const p = centre.point(s);
  return vec(p.x + t.x * along - t.y * v, p.y + t.y * along + t.x * v);
}

/** End of the swing through the centre line at `s`, on the left (+1) or right (−1) rail, the rail moved out by `grow`. */
export function swingEnd(column: Column, s: number, side: 1 | -1, grow: number): Vec {
  const { centre, half, lie } = column;
  const clamp = (u: number) => (centre.closed ? u : Math.min(centre.length, Math.max(0, u)));
  const rail = (u: number): Vec => centre.beside(u, side * (half(clamp(u)) + grow));
  switch (lie.kind) {
    case 'across':
      return rail(s);
    case 'mitre':
      return mitred(column, lie, s, side * (half(clamp(s)) + grow));
    case 'slant':
      return rail(s + side * (half(clamp(s)) + grow) * Math.tan(radians(lie.degrees)));
    case 'fixed': {
      const c = centre.point(s);
      const d = vec(Math.cos(radians(lie.degrees)), Math.sin(radians(lie.degrees)));
      const off = (u: number): number => {
        const r = rail(u);
        return (r.x - c.x) * d.y - (r.y - c.y) * d.x;
      };
      let a = s;
      let fa = off(a);
      let b = s + 0.05;
      let fb = off(b);
      for (let i = 0; i < 24 && Math.abs(fb) > 1e-6 && fb !== fa; i++) {
        const u = Math.min(s + 15, Math.max(s - 15, b - (fb * (b - a)) / (fb - fa)));
        a = b;
        fa = fb;
        b = u;
        fb = off(b);
      }
      return rail(b);
    }
  }
}

/**
 * Place in the column at `s` along and `v` to the left of the centre line, as far across the swing there as `v` is across
 * the column: underlay keeps within slanted ends this way.
 */
export function place(column: Column, s: number, v: number): Vec {
  const { centre, half } = column;
  const c = centre.point(s);
  if (v === 0) return c;
  const h = half(centre.closed ? s % centre.length : Math.min(centre.length, Math.max(0, s)));
  return between(c, swingEnd(column, s, v > 0 ? 1 : -1, 0), Math.abs(v) / h);
}

export interface SplitStyle {
  /** Fractions of a swing at which needle points break it, for even and odd swings. */
  even: readonly number[];
  odd: readonly number[];
  /** Swings shorter than this stay whole, mm. */
  over: number;
  /** Random shift of each point, as a fraction of the swing. */
  loose: number;
}

export interface TopStyle {
  /** Between neighbouring points of one rail along the centre line, mm. */
  spacing: number;
  /** Symmetric: both ends move on by half; square: one stitch straight across, the other takes the whole step. */
  zag: 'symmetric' | 'square';
  /** Added to each end of a swing against pull, mm. */
  comp: number;
  split: SplitStyle | null;
  /** Shorten every second inner point of tight bends to this part of the swing; 0 for none. */
  short: number;
  /** How far a closed column sews over its own beginning, mm. */
  overlap: number;
}

interface Swept {
  needles: Needle[];
  widths: number[];
}

function sweep(column: Column, style: TopStyle, fromEnd: boolean, firstSide: 1 | -1, random: Random): Swept {
  const { centre } = column;
  const closed = centre.closed;
  const total = centre.length + (closed ? style.overlap : 0);
  const step = style.spacing / 2;
  const count = Math.floor(total / step);
  const out: Needle[] = [];
  const widths: number[] = [];
  let before: { p: Vec; s: number } | null = null;
  let inner = 0;
  for (let k = 0; k <= count; k++) {
    const run = style.zag === 'symmetric' ? k * step : Math.floor(k / 2) * style.spacing;
    const s = fromEnd ? total - run : run;
    const side = (k % 2 ? -firstSide : firstSide) as 1 | -1;
    let p = swingEnd(column, s, side, style.comp);
    if (isInner(column, style, s, side) && inner++ % 2) {
      const other = swingEnd(column, s, -side as 1 | -1, style.comp);
      p = between(other, p, style.short);
    }
    if (before) {
      const mid = (before.s + s) / 2;
      // A ruler's width: shortened inner stitches do not make a column narrower.
      widths.push(2 * (column.half(closed ? mid % centre.length : mid) + style.comp));
      out.push(...splitPoints(before.p, p, style.split, k % 2 === 1, random));
    }
    out.push({ ...p, role: 'top', rail: true });
    before = { p, s };
  }
  return { needles: out, widths };
}

/** Whether a point lies inside so tight a bend that points come too close there, in a style that shortens swings for that. */
function isInner({ centre, half }: Column, style: TopStyle, s: number, side: 1 | -1): boolean {
  const bend = centre.curvature(s) * side;
  const h = half(centre.closed ? s % centre.length : Math.min(s, centre.length));
  return style.short > 0 && bend > 0 && style.spacing * (1 - bend * h) < 0.55 * style.spacing;
}

/** Needle points inside a swing. Fractions count from the first rail, so a swing back meets them in the other order. */
function splitPoints(from: Vec, to: Vec, split: SplitStyle | null, odd: boolean, random: Random): Needle[] {
  if (!split || distance(from, to) <= split.over) return [];
  const fractions = odd ? split.odd : split.even.map((g) => 1 - g).reverse();
  return fractions.map((f) => ({
    ...between(from, to, f + random.range(-split.loose, split.loose)),
    role: 'top',
  }));
}

/** The top stitching of a column as a draft without underlay and locks. `fromEnd`: sewn from the far end back. */
export function columnTop(
  column: Column,
  style: TopStyle,
  fromEnd: boolean,
  firstSide: 1 | -1,
  random: Random,
  note: string,
): Draft {
  const swept = sweep(column, style, fromEnd, firstSide, random);
  return {
    kind: 'satin',
    needles: swept.needles,
    widthMm: median(swept.widths),
    wideMm: [...swept.widths].sort((a, b) => a - b)[Math.floor(swept.widths.length * 0.95)],
    spacingMm: style.spacing,
    angleDeg: null,
    underlay: [],
    split: style.split !== null,
    locks: { start: false, end: false },
    note,
  };
}
