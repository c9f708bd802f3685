/** The edges of a column widened where it stands: its centre line stays, both edges and both ends move outward. */
import type { Column } from '../geometry/column.js';
import { type Edge, type EdgePoint, edgeAt, mapEdge } from '../stitch/edge.js';
import type { NewEdges } from '../stitch/new-edges.js';
import type { SectionShape } from '../stitch/section-shape.js';
import type { Allowance } from './allowance.js';

/** Counts to each side over which the direction of the swings is taken: it shows badly in a single one near a tip. */
const REACH = 2;
/** A swing shorter than this, or that leans more than by this sine, does not tell which way is across, mm. */
const SHORTEST_MM = 0.3;
const LEAST_SINE = 0.5;

/** What of a column does not hang on how far it is widened. */
export interface ColumnLines {
  readonly column: Column;
  /** Number of the swing at a count. */
  swingAt(t: number): number;
  /** At each whole count the unit direction from edge A to edge B, and the sine of its angle to the centre line. */
  readonly across: readonly Across[];
}

interface Across {
  readonly ux: number;
  readonly uy: number;
  readonly sine: number;
}

/** @param joined whether each swing begins where the one before ends */
export function columnLines(column: Column, joined: boolean, { span, a, b }: SectionShape): ColumnLines {
  const last = column.count - 1;
  const swingAt = (t: number) => Math.max(0, Math.min(last, Math.round(joined ? t - 0.5 : t)));
  const ways = Array.from({ length: span + 1 }, (_, t): EdgePoint => {
    const [ax, ay] = edgeAt(a.line, t);
    const [bx, by] = edgeAt(b.line, t);
    return [bx - ax, by - ay];
  });
  const side = sideOfB(column.tx, column.ty, ways, swingAt);
  const across = ways.map((_, t) => {
    const k = swingAt(t);
    const [tx, ty] = [column.tx[k], column.ty[k]];
    let [vx, vy] = [0, 0];
    for (let at = Math.max(0, t - REACH); at <= Math.min(span, t + REACH); at++) {
      vx += ways[at][0];
      vy += ways[at][1];
    }
    const length = Math.hypot(vx, vy);
    const sine = length > 0 ? (side * (tx * vy - ty * vx)) / length : 0;
    return length < SHORTEST_MM * (2 * REACH + 1) || sine < LEAST_SINE
      ? { ux: -ty * side, uy: tx * side, sine: 1 }
      : { ux: vx / length, uy: vy / length, sine };
  });
  return { column, swingAt, across };
}

/** @param move the offset of the design, mm */
export function widenColumn(
  { column, swingAt, across }: ColumnLines,
  { span, a, b }: SectionShape,
  allowance: Allowance,
  move: EdgePoint,
): NewEdges {
  const last = column.count - 1;
  const widen = (line: Edge, way: 1 | -1) =>
    mapEdge(line, (px, py, t) => {
      const { ux, uy, sine } = across[Math.max(0, Math.min(span, Math.round(t)))];
      const k = swingAt(t);
      const out = (way * allowance.outward(-column.ty[k], column.tx[k])) / sine;
      return [px + ux * out + move[0], py + uy * out + move[1]];
    });
  /** The way along the centre line by which an end moves outward, as the end swing leans. */
  const beyond = (t: number) => {
    if (column.closed) return 0;
    const { ux, uy, sine } = across[t];
    return allowance.outward(-uy, ux) / sine;
  };
  const advance = (k: number) => Math.max(1e-3, column.spacingMm[k] / 2);
  const [start, end] = [beyond(0), beyond(span)];
  const [before, after] = [start / advance(0), end / advance(last)];
  const longer = (line: Edge): Edge => {
    const first = edgeAt(line, 0);
    const final = edgeAt(line, span);
    const inner = line.t.map((_, k) => k).filter((k) => line.t[k] > 0 && line.t[k] < span);
    const places: EdgePoint[] = [
      [first[0] - column.tx[0] * start, first[1] - column.ty[0] * start],
      first,
      ...inner.map((k): EdgePoint => [line.x[k], line.y[k]]),
      final,
      [final[0] + column.tx[last] * end, final[1] + column.ty[last] * end],
    ];
    const t = [
      -Math.max(before, 1e-6),
      0,
      ...inner.map((k) => line.t[k]),
      span,
      span + Math.max(after, 1e-6),
    ];
    return { t, x: places.map(([px]) => px), y: places.map(([, py]) => py) };
  };
  return {
    a: longer(widen(a.line, -1)),
    b: longer(widen(b.line, 1)),
    to: (px, py) => [px + move[0], py + move[1]],
    grown: new Float64Array(span).fill(1),
    before,
    after,
    spacingMm: column.spacingMm[column.count >> 1],
  };
}

/** On which side of the centre line edge B lies: 1 left, −1 right. */
function sideOfB(
  tx: Float64Array,
  ty: Float64Array,
  ways: readonly EdgePoint[],
  swingAt: (t: number) => number,
): 1 | -1 {
  let sum = 0;
  ways.forEach(([vx, vy], t) => {
    const k = swingAt(t);
    sum += tx[k] * vy - ty[k] * vx;
  });
  return sum >= 0 ? 1 : -1;
}
