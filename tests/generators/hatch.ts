import {
  between,
  distance,
  inset,
  insideRegion,
  type Region,
  radians,
  turned,
  type Vec,
  vec,
} from './plane.js';
import type { Random } from './random.js';

export type Stagger = 'brick' | 'thirds' | 'quarters' | 'random' | 'none';

export interface HatchStyle {
  degrees: number;
  /** Between neighbouring rows, mm. */
  rows: number;
  stitch: number;
  stagger: Stagger;
  /** Edge: a short stitch along the edge joins row to row; direct: each row itself leads to the next row's far end. */
  join: 'edge' | 'direct';
  /** Needle points nearer than this to a row's end are left out, mm. */
  least: number;
  /** Rows shorter than this are not sewn, mm. */
  shortest: number;
}

export interface Hatched {
  points: Vec[];
  sections: number;
  /** The points of each section by itself, in sewing order, without the way from one to the next. */
  parts: Vec[][];
  /** Lengths of all rows, mm. */
  lengths: number[];
}

interface Row {
  a: number;
  b: number;
  y: number;
  index: number;
}

/** Ways inside a region, along its edges where it must turn: how hidden travel runs. */
export class Ways {
  private readonly nodes: Vec[] = [];
  private readonly seen = new Map<number, boolean>();

  constructor(
    private readonly region: Region,
    depth: number,
  ) {
    for (const [i, ring] of [region.outer, ...region.holes].entries()) {
      const keep = Math.max(1, Math.ceil(ring.length / 18));
      const thin = ring.filter((_, k) => k % keep === 0);
      for (const p of inset(thin.length > 2 ? thin : ring, depth, i > 0))
        if (insideRegion(p, region)) this.nodes.push(p);
    }
  }

  private clear(a: Vec, b: Vec): boolean {
    const n = Math.ceil(distance(a, b) / 0.4);
    for (let k = 1; k < n; k++) if (!insideRegion(between(a, b, k / n), this.region)) return false;
    return true;
  }

  private clearNodes(i: number, j: number): boolean {
    const key = i < j ? i * 1000 + j : j * 1000 + i;
    let is = this.seen.get(key);
    if (is === undefined) {
      is = this.clear(this.nodes[i], this.nodes[j]);
      this.seen.set(key, is);
    }
    return is;
  }

  /** Corner points of the shortest way, both ends in it; the straight line where there is none inside. */
  way(from: Vec, to: Vec): Vec[] {
    if (this.clear(from, to)) return [from, to];
    const n = this.nodes.length;
    const cost = new Array<number>(n).fill(Infinity);
    const back = new Array<number>(n).fill(-1);
    const done = new Array<boolean>(n).fill(false);
    for (let i = 0; i < n; i++) if (this.clear(from, this.nodes[i])) cost[i] = distance(from, this.nodes[i]);
    let best = Infinity;
    let last = -1;
    for (;;) {
      let at = -1;
      for (let i = 0; i < n; i++)
        if (!done[i] && cost[i] < Infinity && (at < 0 || cost[i] < cost[at])) at = i;
      if (at < 0 || cost[at] >= best) break;
      done[at] = true;
      if (this.clear(this.nodes[at], to) && cost[at] + distance(this.nodes[at], to) < best) {
        best = cost[at] + distance(this.nodes[at], to);
        last = at;
      }
      for (let i = 0; i < n; i++) {
        if (done[i] || !this.clearNodes(at, i)) continue;
        const c = cost[at] + distance(this.nodes[at], this.nodes[i]);
        if (c < cost[i]) {
          cost[i] = c;
          back[i] = at;
        }
      }
    }
    const mid: Vec[] = [];
    for (let i = last; i >= 0; i = back[i]) mid.unshift(this.nodes[i]);
    return [from, ...mid, to];
  }
}

function rowsOf(region: Region, style: HatchStyle, random: Random): Row[][] {
  const rings = [region.outer, ...region.holes].map((r) => r.map((p) => turned(p, -radians(style.degrees))));
  let low = Infinity;
  let high = -Infinity;
  for (const p of rings[0]) {
    low = Math.min(low, p.y);
    high = Math.max(high, p.y);
  }
  const out: Row[][] = [];
  // Rows as a digitizer's program lays them: at an even distance, the first one close to the edge.
  const slack = high - low - Math.floor((high - low) / style.rows) * style.rows;
  let y = low + Math.max(0.02, slack * random.range(0.3, 0.7));
  for (let index = 0; y < high - 1e-3; y += style.rows, index++) {
    const xs: number[] = [];
    for (const r of rings)
      for (let i = 0, j = r.length - 1; i < r.length; j = i++)
        if (r[i].y > y !== r[j].y > y)
          xs.push(r[j].x + ((r[i].x - r[j].x) * (y - r[j].y)) / (r[i].y - r[j].y));
    xs.sort((p, q) => p - q);
    const rows: Row[] = [];
    for (let i = 0; i + 1 < xs.length; i += 2)
      if (xs[i + 1] - xs[i] >= style.shortest) rows.push({ a: xs[i], b: xs[i + 1], y, index });
    out.push(rows);
  }
  return out;
}

/** Sections: runs of rows that follow one another one to one. */
function sectionsOf(levels: Row[][]): Row[][] {
  const done: Row[][] = [];
  let open: Row[][] = [];
  const meet = (p: Row, q: Row) => p.a < q.b && q.a < p.b;
  for (const rows of levels) {
    const next: Row[][] = [];
    for (const row of rows) {
      const above = open.filter((s) => meet(s[s.length - 1], row));
      const alone =
        above.length === 1 && rows.filter((r) => meet(above[0][above[0].length - 1], r)).length === 1;
      if (alone) {
        above[0].push(row);
        next.push(above[0]);
      } else {
        const fresh = [row];
        done.push(fresh);
        next.push(fresh);
      }
    }
    open = next;
  }
  return done.filter((s) => s.length > 1 || s[0].b - s[0].a > 3);
}

function phaseOf(stagger: Stagger, index: number, random: Random): number {
  switch (stagger) {
    case 'brick':
      return (index % 2) / 2;
    case 'thirds':
      return (index % 3) / 3;
    case 'quarters':
      return ((index * 3) % 8) / 8;
    case 'random':
      return random.next();
    case 'none':
      return 0;
  }
}

/** Rows laid into a region, section by section, joined by travel inside it; begins as near to `from` as a section's corner is. */
export function hatch(
  region: Region,
  style: HatchStyle,
  from: Vec | null,
  ways: Ways,
  random: Random,
): Hatched {
  const sections = sectionsOf(rowsOf(region, style, random));
  const turn = radians(style.degrees);
  const points: Vec[] = [];
  const parts: Vec[][] = [];
  const lengths: number[] = [];
  const inRow = (a: Vec, b: Vec, index: number) => {
    const l = Math.abs(b.x - a.x);
    lengths.push(l);
    const phase = phaseOf(style.stagger, index, random) * style.stitch;
    const low = Math.min(a.x, b.x);
    const xs: number[] = [];
    for (
      let x = Math.ceil((low - phase) / style.stitch) * style.stitch + phase;
      x < low + l - style.least;
      x += style.stitch
    )
      if (x > low + style.least) xs.push(x);
    if (b.x < a.x) xs.reverse();
    for (const x of xs) out.push(between(a, b, (x - a.x) / (b.x - a.x)));
    out.push(b);
  };
  let out: Vec[] = [];
  const left = [...sections];
  let at = from;
  while (left.length > 0) {
    let pick = { section: 0, up: true, right: true, cost: Infinity };
    for (let i = 0; i < left.length; i++)
      for (const up of [true, false])
        for (const right of [true, false]) {
          const row = up ? left[i][0] : left[i][left[i].length - 1];
          const corner = turned(vec(right ? row.a : row.b, row.y), turn);
          const cost = at ? distance(corner, at) : random.next();
          if (cost < pick.cost) pick = { section: i, up, right, cost };
        }
    const chosen = left.splice(pick.section, 1)[0];
    const rows = pick.up ? chosen : [...chosen].reverse();
    let right = pick.right;
    out = [vec(right ? rows[0].a : rows[0].b, rows[0].y)];
    if (style.join === 'direct' && rows.length > 1)
      for (let i = 1; i < rows.length; i++) {
        const end = vec(right ? rows[i].b : rows[i].a, rows[i].y);
        inRow(out[out.length - 1], end, rows[i].index);
        right = !right;
      }
    else
      for (let i = 0; i < rows.length; i++) {
        const row = rows[i];
        const start = vec(right ? row.a : row.b, row.y);
        const before = out[out.length - 1];
        if (i > 0) {
          const n = Math.ceil(distance(before, start) / style.stitch);
          for (let k = 1; k <= n; k++) out.push(between(before, start, k / n));
        }
        inRow(start, vec(right ? row.b : row.a, row.y), row.index);
        right = !right;
      }
    const world = out.map((p) => turned(p, turn));
    if (points.length > 0) {
      const legs = ways.way(points[points.length - 1], world[0]);
      for (let i = 1; i < legs.length; i++) {
        const n = Math.max(1, Math.ceil(distance(legs[i - 1], legs[i]) / 2.8));
        for (let k = 1; k <= n; k++)
          if (i < legs.length - 1 || k < n) points.push(between(legs[i - 1], legs[i], k / n));
      }
    }
    points.push(...world);
    parts.push(world);
    at = points[points.length - 1];
  }
  return { points, sections: sections.length, parts, lengths };
}
