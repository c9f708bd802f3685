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

  /** Needle points on the way from one point to another, neither of them among these. */
  travel(from: Vec, to: Vec): Vec[] {
    const legs = this.way(from, to);
    const points: Vec[] = [];
    for (let i = 1; i < legs.length; i++) {
      const n = Math.max(1, Math.ceil(distance(legs[i - 1], legs[i]) / 2.8));
      for (let k = 1; k <= n; k++) points.push(between(legs[i - 1], legs[i], k / n));
    }
    points.pop();
    return points;
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
  const left = [...sections];
  let at = from;
  while (left.length > 0) {
    const { section, up, right } = nearestCorner(left, at, turn, random);
    const chosen = left.splice(section, 1)[0];
    const laid = laySection(up ? chosen : [...chosen].reverse(), right, style, random);
    lengths.push(...laid.lengths);
    const world = laid.out.map((p) => turned(p, turn));
    if (points.length > 0) points.push(...ways.travel(points[points.length - 1], world[0]));
    points.push(...world);
    parts.push(world);
    at = points[points.length - 1];
  }
  return { points, sections: sections.length, parts, lengths };
}

/** The section, and its corner, nearest to a point; any where there is none. */
function nearestCorner(left: readonly Row[][], at: Vec | null, turn: number, random: Random) {
  let pick = { section: 0, up: true, right: true, cost: Infinity };
  for (let i = 0; i < left.length; i++)
    for (const up of [true, false])
      for (const right of [true, false]) {
        const row = up ? left[i][0] : left[i][left[i].length - 1];
        const corner = turned(vec(right ? row.a : row.b, row.y), turn);
        const cost = at ? distance(corner, at) : random.next();
        if (cost < pick.cost) pick = { section: i, up, right, cost };
      }
  return pick;
}

/** The rows of a section, to and fro, as they lie before they are turned; of each stretch laid its length. */
function laySection(rows: readonly Row[], right: boolean, style: HatchStyle, random: Random) {
  const lengths: number[] = [];
  const out = [vec(right ? rows[0].a : rows[0].b, rows[0].y)];
  const lay = (start: Vec, end: Vec, index: number) => {
    lengths.push(Math.abs(end.x - start.x));
    out.push(...inRow(start, end, style, phaseOf(style.stagger, index, random) * style.stitch), end);
  };
  const direct = style.join === 'direct' && rows.length > 1;
  for (const row of direct ? rows.slice(1) : rows) {
    const before = out[out.length - 1];
    const end = vec(right ? row.b : row.a, row.y);
    const start = direct ? before : vec(right ? row.a : row.b, row.y);
    if (!direct && row !== rows[0]) {
      const n = Math.ceil(distance(before, start) / style.stitch);
      for (let k = 1; k <= n; k++) out.push(between(before, start, k / n));
    }
    lay(start, end, row.index);
    right = !right;
  }
  return { out, lengths };
}

/** Needle points between the ends of a row, on a lattice that begins at `phase`. */
function inRow(a: Vec, b: Vec, { stitch, least }: HatchStyle, phase: number): Vec[] {
  const low = Math.min(a.x, b.x);
  const high = low + Math.abs(b.x - a.x);
  const xs: number[] = [];
  for (let x = Math.ceil((low - phase) / stitch) * stitch + phase; x < high - least; x += stitch)
    if (x > low + least) xs.push(x);
  if (b.x < a.x) xs.reverse();
  return xs.map((x) => between(a, b, (x - a.x) / (b.x - a.x)));
}
