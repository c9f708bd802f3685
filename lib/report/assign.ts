/** One allowed pairing. */
export interface Candidate {
  row: number;
  column: number;
  /** 0 or more; less is better. */
  cost: number;
}

/**
 * Pairs rows with columns at the least total cost, where leaving a row unpaired costs `aloneCost`. Only candidate
 * pairs are looked at, so far-apart rows cost nothing. Shortest augmenting paths with potentials (the sparse form
 * of the Hungarian method; Jonker & Volgenant, Computing 38, 1987, 325–340; from memory).
 *
 * @returns the column of each row, or -1 where it stays alone
 */
export function assign(
  rows: number,
  columns: number,
  candidates: readonly Candidate[],
  aloneCost: number,
): Int32Array {
  // Every row has a column of its own behind the real ones that stands for staying alone.
  const edges: { column: number; cost: number }[][] = Array.from({ length: rows }, (_, row) => [
    { column: columns + row, cost: aloneCost },
  ]);
  for (const { row, column, cost } of candidates) {
    if (!(cost >= 0)) throw new RangeError(`the cost of row ${row} with column ${column} is ${cost}`);
    edges[row].push({ column, cost });
  }
  const state: State = {
    rowOf: new Int32Array(columns + rows).fill(-1),
    columnOf: new Int32Array(rows).fill(-1),
    rowPrice: new Float64Array(rows),
    columnPrice: new Float64Array(columns + rows),
  };
  for (let row = 0; row < rows; row++) augment(row, edges, state);
  return state.columnOf.map((column) => (column < columns ? column : -1));
}

/** The pairing so far, and the prices that make every pair of it a cheapest one. */
interface State {
  rowOf: Int32Array;
  columnOf: Int32Array;
  rowPrice: Float64Array;
  columnPrice: Float64Array;
}

/** Brings one more row in, moving others where that is cheaper over all (Dijkstra on reduced costs). */
function augment(
  start: number,
  edges: readonly (readonly { column: number; cost: number }[])[],
  { rowOf, columnOf, rowPrice, columnPrice }: State,
): void {
  const distance = new Map<number, number>();
  const cameFrom = new Map<number, number>();
  const settled = new Set<number>();
  let row = start;
  let travelled = 0;
  let free: number;
  for (;;) {
    for (const { column, cost } of edges[row]) {
      if (settled.has(column)) continue;
      const through = travelled + cost - rowPrice[row] - columnPrice[column];
      if (through < (distance.get(column) ?? Number.POSITIVE_INFINITY)) {
        distance.set(column, through);
        cameFrom.set(column, row);
      }
    }
    let next = -1;
    for (const [column, d] of distance) {
      if (!settled.has(column) && (next < 0 || d < distance.get(next)!)) next = column;
    }
    // Its own column for staying alone is always within reach, so there is a next.
    settled.add(next);
    travelled = distance.get(next)!;
    if (rowOf[next] < 0) {
      free = next;
      break;
    }
    row = rowOf[next];
  }
  rowPrice[start] += travelled;
  for (const column of settled) {
    if (column === free) continue;
    const gain = travelled - distance.get(column)!;
    columnPrice[column] -= gain;
    rowPrice[rowOf[column]] += gain;
  }
  let column = free;
  let from: number;
  do {
    from = cameFrom.get(column)!;
    const given = columnOf[from];
    rowOf[column] = from;
    columnOf[from] = column;
    column = given;
  } while (from !== start);
}
