import type { Area } from './area.js';
import { hiddenWay, travelCosts } from './hidden-way.js';
import { distance, type Point } from './plane.js';
import { type Rows, rowsOf } from './rows.js';
import { run } from './run.js';

export interface FillPlan {
  readonly angleDeg: number;
  readonly spacingMm: number;
  readonly stitchMm: number;
  /** How far the rows reach past the drawn edge at both ends, mm. */
  readonly pullMm: number;
}

export interface Fill {
  /** Travel to the first row, needle's place excluded. */
  readonly approach: Point[];
  readonly points: Point[];
  readonly sections: number;
  readonly rows: number;
}

/** Needle points of neighbouring rows are shifted by these parts of a stitch, so that they form no lines. */
const STAGGER = [0, 0.5, 0.25, 0.75];
/** Shortest step from one row's end to the next row's start; the start draws in where the rows are closer. */
const LINK_MM = 0.6;
const TRAVEL_MM = 2.8;

/** Needle points of one row from x = `a` to x = `b`, both included. */
function rowPoints(a: number, b: number, y: number, row: number, stitchMm: number): Point[] {
  const out: Point[] = [{ x: a, y }];
  const shift = STAGGER[row % STAGGER.length] * stitchMm;
  const sign = b > a ? 1 : -1;
  const margin = Math.min(0.9, stitchMm * 0.4);
  const [low, high] = [Math.min(a, b) + margin, Math.max(a, b) - margin];
  const inner: number[] = [];
  for (let k = Math.ceil((low - shift) / stitchMm); k * stitchMm + shift <= high; k++)
    inner.push(k * stitchMm + shift);
  if (sign < 0) inner.reverse();
  for (const x of inner) out.push({ x, y });
  out.push({ x: b, y });
  return out;
}

function sectionPoints(rows: Rows, order: readonly number[], fromLeft: boolean, plan: FillPlan): Point[] {
  const out: Point[] = [];
  let leftToRight = fromLeft;
  for (const k of order) {
    const s = rows.stretches[k];
    let [a, b] = leftToRight ? [s.x0, s.x1] : [s.x1, s.x0];
    if (out.length > 0) {
      const end = out[out.length - 1];
      const rise = Math.abs(s.y - end.y);
      if (Math.hypot(rise, a - end.x) < LINK_MM)
        a = end.x + (leftToRight ? 1 : -1) * Math.sqrt(LINK_MM ** 2 - Math.min(rise, LINK_MM) ** 2);
      // A long edge between two rows is walked, not leapt.
      if (Math.hypot(rise, a - end.x) > TRAVEL_MM * 2)
        out.push(...run([end, { x: a, y: s.y }], TRAVEL_MM).slice(1, -1));
    }
    out.push(...rowPoints(a, b, s.y, s.row, plan.stitchMm));
    leftToRight = !leftToRight;
  }
  return out;
}

interface Entry {
  readonly section: number;
  readonly order: readonly number[];
  readonly fromLeft: boolean;
  readonly at: Point;
}

/** The four ways to sew a section: from its lowest or highest row, from the left or the right. */
function entries(rows: Rows, section: number): Entry[] {
  const up = rows.sections[section];
  return [up, [...up].reverse()].flatMap((order) => {
    const s = rows.stretches[order[0]];
    return [true, false].map((fromLeft) => ({
      section,
      order,
      fromLeft,
      at: { x: fromLeft ? s.x0 : s.x1, y: s.y },
    }));
  });
}

/** Whether the sections hang together by rows that touch. */
function joined(rows: Rows, sections: ReadonlySet<number>): boolean {
  const home = new Map<number, number>();
  for (const section of sections) for (const k of rows.sections[section]) home.set(k, section);
  const [first] = sections;
  const seen = new Set([first]);
  const open = [first];
  for (let section = open.pop(); section !== undefined; section = open.pop())
    for (const k of rows.sections[section])
      for (const next of [...rows.stretches[k].below, ...rows.stretches[k].above]) {
        const other = home.get(next);
        if (other === undefined || seen.has(other)) continue;
        seen.add(other);
        open.push(other);
      }
  return seen.size === sections.size;
}

/**
 * The section to sew next, and from which corner. One that leaves the rest in one piece, and that ends beside it, keeps every later
 * travel under rows still to come; among those the one with the shortest travel.
 */
function nextEntry(rows: Rows, left: ReadonlySet<number>, needle: Point, sewn: readonly boolean[]): Entry {
  const costs = travelCosts(rows, needle, sewn);
  let best: Entry | null = null;
  let bestCost = Infinity;
  for (const section of left) {
    const rest = new Set(left);
    rest.delete(section);
    const parts = rest.size > 0 && !joined(rows, rest) ? 1e6 : 0;
    for (const entry of entries(rows, section)) {
      const end = rows.stretches[entry.order[entry.order.length - 1]];
      const own = new Set(entry.order);
      const beside = [...end.below, ...end.above].some((k) => !sewn[k] && !own.has(k));
      const stranded = rest.size > 0 && !beside ? 1e5 : 0;
      const cost = costs[entry.order[0]] + parts + stranded + distance(needle, entry.at) * 0.01;
      if (cost < bestCost) [best, bestCost] = [entry, cost];
    }
  }
  if (!best) throw new Error('Nothing is left to sew.');
  return best;
}

/**
 * Needle points that fill an area, the needle coming from `from`: rows to and fro, section after section, the nearest next, joined
 * by travel that later rows hide where they can.
 */
export function fill(area: Area, plan: FillPlan, from: Point): Fill {
  const rows = rowsOf(area, plan.angleDeg, plan.spacingMm, plan.pullMm);
  const sewn: boolean[] = rows.stretches.map(() => false);
  const left = new Set(rows.sections.map((_, i) => i));
  const approach: Point[] = [];
  const points: Point[] = [];
  let needle = rows.in(from);
  while (left.size > 0) {
    const best = nextEntry(rows, left, needle, sewn);
    const way = hiddenWay(rows, needle, best.at, sewn);
    const travel = run([needle, ...way], TRAVEL_MM).slice(1, -1);
    (points.length === 0 ? approach : points).push(...travel);
    points.push(...sectionPoints(rows, best.order, best.fromLeft, plan));
    for (const k of best.order) sewn[k] = true;
    left.delete(best.section);
    needle = points[points.length - 1];
  }
  return {
    approach: approach.map(rows.out),
    points: points.map(rows.out),
    sections: rows.sections.length,
    rows: rows.sections.flat().length,
  };
}
