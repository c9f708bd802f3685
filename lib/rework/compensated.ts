/**
 * Every edge of an object moved outward by what it will draw in. No stitch is added, taken out or sewn at another time: each needle point keeps
 * its place in its stitch, and goes along with the edges to both sides of it.
 */
import { distance } from '../core/distance.js';
import { type Design, Kind } from '../format/design.js';
import type { Stitches } from '../format/stitches.js';
import { acrossAt, columnFrame, locate } from '../geometry/column-frame.js';
import type { Compensation } from '../mechanics/compensation.js';
import type { StitchObject } from '../segment/objects.js';

/** A jump or trim stands at a needle point within this of it, mm. */
const AT_MM = 0.15;
/** A needle point farther out than so many half widths of a column does not belong to it. */
const BESIDE = 1.3;
/** A part of a column this many times as wide as its middle width is moved no farther than that: pull-in goes with the width. */
const MOST_WIDER = 2;
/** Nodes at each end of a column whose direction is that of the next farther in. */
const END_NODES = 2;
/** A row shorter than this is moved by as much less, mm. Our own choice: several stitches. */
const FULL_ROW_MM = 4;

/** How far each needle point moves, mm. */
interface Moves {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** @param compensations of some of the objects */
export function compensated(
  design: Design,
  stitches: Stitches,
  objects: readonly StitchObject[],
  compensations: readonly Compensation[],
): Design {
  const moves: Moves = { x: new Float64Array(stitches.count), y: new Float64Array(stitches.count) };
  const byId = new Map(compensations.map((one) => [one.object, one]));
  const wanted = objects.filter(({ id }) => byId.has(id));
  // Underlay first: what is one object's underlay may be another's top stitching.
  for (const object of wanted)
    if (object.kind === 'satin' && object.underlay.range !== null)
      moveColumn(stitches, object, byId.get(object.id)!, object.underlay.range, moves);
  for (const { range } of objects) {
    moves.x.fill(0, range[0], range[1] + 1);
    moves.y.fill(0, range[0], range[1] + 1);
  }
  for (const object of wanted) {
    const by = byId.get(object.id)!;
    if (object.kind === 'satin') moveColumn(stitches, object, by, object.range, moves);
    else moveRows(stitches, object, by, moves);
  }
  return carried(design, stitches, moves);
}

/** Needle points of a range that lie in a column spread with its edges, and stretch with its ends. */
function moveColumn(
  { x, y }: Stitches,
  { from, to }: StitchObject,
  { alongMm, acrossMm }: Compensation,
  [first, last]: StitchObject['range'],
  moves: Moves,
): void {
  const frame = columnFrame(x, y, from, to);
  const { node: start } = locate(frame, x[from[0]], y[from[0]], -1);
  const side = (i: number) => acrossAt(frame, start, x[i], y[i]);
  const [left, right] = side(from[0]) >= side(to[0]) ? alongMm : [alongMm[1], alongMm[0]];
  const usual = frame.halfWidth.slice().sort()[frame.count >> 1];
  let hint = -1;
  for (let i = first; i <= last; i++) {
    const { node, s, across, halfWidth } = locate(frame, x[i], y[i], hint);
    hint = node;
    if (Math.abs(across) > BESIDE * halfWidth) continue;
    const share = Math.max(-1, Math.min(1, across / Math.max(halfWidth, 1e-3)));
    const wide = Math.min(MOST_WIDER, halfWidth / Math.max(usual, 1e-3));
    const out = share * wide * (share >= 0 ? left : right);
    const along = frame.closed ? 0 : endsAt(s / frame.lengthMm, acrossMm);
    // Half a swing at an end tilts the nodes there.
    const straight = frame.closed ? node : inner(node, frame.count);
    const [tx, ty] = [frame.tx[straight], frame.ty[straight]];
    moves.x[i] = -ty * out + tx * along;
    moves.y[i] = tx * out + ty * along;
  }
}

const inner = (node: number, count: number): number =>
  count > 2 * END_NODES ? Math.max(END_NODES, Math.min(count - 1 - END_NODES, node)) : count >> 1;

/** How far what lies at a part of the way from the first end to the last moves along it, for both ends to move outward as asked. */
const endsAt = (part: number, [first, last]: Compensation['acrossMm']): number => {
  const at = Math.max(0, Math.min(1, part));
  return last * at - first * (1 - at);
};

/** Rows of an area get longer at their ends and, where they lie side by side in one direction, farther apart. */
function moveRows(
  { x, y }: Stitches,
  { from, to, range, pattern }: StitchObject,
  { alongMm, acrossMm }: Compensation,
  moves: Moves,
): void {
  const rows = Array.from(from, (a, k) => {
    const b = to[k];
    const length = distance(x[a], y[a], x[b], y[b]) || 1;
    return { a, b, length, ux: (x[b] - x[a]) / length, uy: (y[b] - y[a]) / length };
  });
  const [{ ux: vx, uy: vy }] = rows;
  const aside = (i: number) => -vy * x[i] + vx * y[i];
  const middle = ({ a, b }: (typeof rows)[number]) => (aside(a) + aside(b)) / 2;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const row of rows) {
    low = Math.min(low, middle(row));
    high = Math.max(high, middle(row));
  }
  const rising = middle(rows[0]) - low <= high - middle(rows[0]);
  const ends: Compensation['acrossMm'] = rising ? acrossMm : [acrossMm[1], acrossMm[0]];
  const straight = pattern === 'rows' && high > low;
  const put = (i: number, out: number, ux: number, uy: number) => {
    const off = straight ? endsAt((aside(i) - low) / (high - low), ends) : 0;
    moves.x[i] = ux * out - vy * off;
    moves.y[i] = uy * out + vx * off;
  };
  let before: (typeof rows)[number] | null = null;
  for (const row of rows) {
    const { a, b, length, ux, uy } = row;
    const forth = ux * vx + uy * vy >= 0;
    const part = Math.min(1, length / FULL_ROW_MM);
    const [atA, atB] = (forth ? alongMm : [alongMm[1], alongMm[0]]).map((mm) => mm * part);
    for (let i = a; i <= b; i++) {
      const share = b > a ? (i - a) / (b - a) : 0;
      put(i, atB * share - atA * (1 - share), ux, uy);
    }
    if (before) blend(moves, before.b, a);
    else hold(moves, range[0], a - 1, a);
    before = row;
  }
  const { b: end } = rows[rows.length - 1];
  hold(moves, end + 1, range[1], end);
}

/** What is sewn between two rows goes along with the end of the one and the beginning of the other. */
function blend({ x, y }: Moves, first: number, last: number): void {
  for (let i = first + 1; i < last; i++) {
    const share = (i - first) / (last - first);
    x[i] = x[first] * (1 - share) + x[last] * share;
    y[i] = y[first] * (1 - share) + y[last] * share;
  }
}

/** Ties before the first row and after the last move as they do. */
function hold({ x, y }: Moves, first: number, last: number, like: number): void {
  for (let i = first; i <= last; i++) {
    x[i] = x[like];
    y[i] = y[like];
  }
}

/** The design with its needle points moved, and with them the records of the machine that stand at one. */
function carried(design: Design, { count, record }: Stitches, moves: Moves): Design {
  const x = Float64Array.from(design.x);
  const y = Float64Array.from(design.y);
  for (let i = 0; i < count; i++) {
    x[record[i]] += moves.x[i];
    y[record[i]] += moves.y[i];
  }
  const stands = (r: number, i: number) =>
    i >= 0 &&
    i < count &&
    distance(design.x[r], design.y[r], design.x[record[i]], design.y[record[i]]) < AT_MM;
  for (let r = 0, next = 0; r < x.length; r++) {
    while (next < count && record[next] < r) next++;
    if (design.kind[r] === Kind.stitch) continue;
    const at = [next, next - 1].find((i) => stands(r, i));
    if (at === undefined) continue;
    x[r] += moves.x[at];
    y[r] += moves.y[at];
  }
  return { ...design, x, y, diagnostics: [] };
}
