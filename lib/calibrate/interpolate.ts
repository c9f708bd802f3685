/** Smooth tables over a few evenly spaced arguments. */
export interface Axis {
  readonly nodes: readonly number[];
}

/** Evenly from low to high; one node, in the middle, where the table does not hang on the argument. */
export const axis = (low: number, high: number, count: number): Axis => ({
  nodes: Array.from({ length: count }, (_, i) =>
    count === 1 ? (low + high) / 2 : low + ((high - low) * i) / (count - 1),
  ),
});

/** Nodes that a cubic goes through. */
const REACH = 4;

/**
 * Value of a table at a place: along each axis the polynomial through the four nearest nodes (all, where there are fewer). The last axis
 * runs fastest. Beyond the ends the table keeps the value there.
 */
export function between(table: ArrayLike<number>, axes: readonly Axis[], at: readonly number[]): number {
  const near = axes.map(({ nodes }, a) => nearest(nodes, at[a]));
  const sumFrom = (a: number, index: number): number => {
    if (a === axes.length) return table[index];
    const { first, weights } = near[a];
    const base = index * axes[a].nodes.length + first;
    let sum = 0;
    for (let i = 0; i < weights.length; i++) sum += weights[i] * sumFrom(a + 1, base + i);
    return sum;
  };
  return sumFrom(0, 0);
}

/** The nodes about a place, and what part each has in the value there. */
function nearest(nodes: readonly number[], at: number): { first: number; weights: number[] } {
  const last = nodes.length - 1;
  if (last === 0) return { first: 0, weights: [1] };
  const t = Math.min(last, Math.max(0, ((at - nodes[0]) / (nodes[last] - nodes[0])) * last));
  const count = Math.min(REACH, nodes.length);
  const first = Math.min(Math.max(0, Math.floor(t) - 1), nodes.length - count);
  const weights = Array.from({ length: count }, (_, i) => {
    let weight = 1;
    for (let j = 0; j < count; j++) if (j !== i) weight *= (t - first - j) / (i - j);
    return weight;
  });
  return { first, weights };
}
