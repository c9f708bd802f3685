/**
 * The two edges along which the rows or swings of a section end, as lines over `t`, the count of rows.
 *
 * Because a place on an edge is told by the count and not by millimetres, whatever pattern the spacing has along the section (closer in
 * a bend, wider in a taper) stays where it was when other counts are looked up.
 */

/** An edge: its corners at ascending counts `t`. At least one. */
export interface Edge {
  readonly t: readonly number[];
  readonly x: readonly number[];
  readonly y: readonly number[];
}

export type EdgePoint = [x: number, y: number];

/** The span of an edge that holds `t`: number of its first corner. The outermost spans go on beyond the ends. */
function spanAt({ t }: Edge, at: number): number {
  let low = 0;
  let high = t.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (t[middle] <= at) low = middle;
    else high = middle;
  }
  return low;
}

/** Where an edge is at count `at`, straight from corner to corner and straight on beyond its ends, mm. */
export function edgeAt(line: Edge, at: number): EdgePoint {
  const { t, x, y } = line;
  if (t.length === 1) return [x[0], y[0]];
  const k = spanAt(line, at);
  if (at === t[k]) return [x[k], y[k]];
  if (at === t[k + 1]) return [x[k + 1], y[k + 1]];
  const f = (at - t[k]) / (t[k + 1] - t[k]);
  return [x[k] + (x[k + 1] - x[k]) * f, y[k] + (y[k + 1] - y[k]) * f];
}

/** Number of the corner nearest to count `at`. */
export function nearestCorner(line: Edge, at: number): number {
  if (line.t.length === 1) return 0;
  const k = spanAt(line, at);
  return at - line.t[k] <= line.t[k + 1] - at ? k : k + 1;
}

/** The edge with every corner moved. */
export function mapEdge(line: Edge, to: (x: number, y: number, t: number) => EdgePoint): Edge {
  const places = line.t.map((t, k) => to(line.x[k], line.y[k], t));
  return { t: line.t, x: places.map(([x]) => x), y: places.map(([, y]) => y) };
}
