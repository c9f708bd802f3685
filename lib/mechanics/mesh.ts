/**
 * The mesh on which layers of fabric and backing are worked out: nodes where lines along x and lines along y cross. Lines stand evenly about
 * the stitching and grow apart outward, so that a hoop costs few nodes.
 */
import type { Bounds } from '../core/bounds.js';
import type { Grid } from './grid.js';

/** Node (i, j) has the number j·nx + i and stands at (x[i], y[j]). Values of a field on it are at that number. */
export interface Mesh {
  /** Nodes along x and along y. */
  readonly nx: number;
  readonly ny: number;
  /** Rising, mm. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Elements of even size about the stitching, as cells of a grid. */
  readonly even: Grid;
}

/** What holds the fabric all round while it is sewn: its inner edge, about the middle of the design. */
export interface HoopShape {
  readonly shape: 'round' | 'rectangle';
  /** Both are the diameter where it is round, mm. */
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface MeshOptions {
  /** Side of an even cell, mm. */
  readonly cellMm: number;
  /** Even cells reach so far beyond the needle points, mm. */
  readonly marginMm: number;
  /** Each interval outside is so many times as wide as the one before. */
  readonly growth: number;
  /** The border stands so many times as far out as the hoop. */
  readonly reach: number;
  /** Side of the cells on which wrinkles are told, mm. */
  readonly mapMm: number;
}

/** Fine where needle points grip and strains are steep, coarser from there outward; wrinkles are told on cells as wide as a thread. */
export const MESH_OPTIONS: MeshOptions = { cellMm: 0.65, marginMm: 5, growth: 1.2, reach: 3.2, mapMm: 0.4 };

/** The middle of a design stands in the middle of its hoop. */
export function meshAbout(
  bounds: Bounds,
  { widthMm, heightMm }: HoopShape,
  options: MeshOptions = MESH_OPTIONS,
): Mesh {
  const { cellMm, reach } = options;
  const xs = lines(bounds.minX, bounds.maxX, (widthMm / 2) * reach, options);
  const ys = lines(bounds.minY, bounds.maxY, (heightMm / 2) * reach, options);
  return {
    nx: xs.at.length,
    ny: ys.at.length,
    x: xs.at,
    y: ys.at,
    even: { nx: xs.even, ny: ys.even, cellMm, x0: xs.at[xs.from], y0: ys.at[ys.from] },
  };
}

/** Places of the lines across one axis, how many even intervals there are and from which line on. */
function lines(
  low: number,
  high: number,
  border: number,
  { cellMm, marginMm, growth }: MeshOptions,
): { at: Float64Array; even: number; from: number } {
  const middle = (low + high) / 2;
  const even = Math.ceil((high - low + 2 * marginMm) / cellMm);
  const half = (even * cellMm) / 2;
  const steps: number[] = [];
  for (let step = cellMm * growth, out = half; out < border || steps.length < 2; step *= growth) {
    steps.push(step);
    out += step;
  }
  const at = new Float64Array(even + 1 + 2 * steps.length);
  const from = steps.length;
  for (let k = 0; k <= even; k++) at[from + k] = middle - half + k * cellMm;
  steps.forEach((step, k) => {
    at[from - k - 1] = at[from - k] - step;
    at[from + even + k + 1] = at[from + even + k] + step;
  });
  return { at, even, from };
}

/** 1 for nodes that can move: those within the hoop, or all but the border of the mesh without one. */
export function freeNodes({ nx, ny, x, y }: Mesh, hoop: HoopShape | null): Uint8Array {
  const free = new Uint8Array(nx * ny);
  const cx = (x[0] + x[nx - 1]) / 2;
  const cy = (y[0] + y[ny - 1]) / 2;
  for (let j = 1; j < ny - 1; j++)
    for (let i = 1; i < nx - 1; i++) free[j * nx + i] = !hoop || within(hoop, x[i] - cx, y[j] - cy) ? 1 : 0;
  return free;
}

function within({ shape, widthMm, heightMm }: HoopShape, dx: number, dy: number): boolean {
  const u = (2 * dx) / widthMm;
  const v = (2 * dy) / heightMm;
  return shape === 'round' ? u * u + v * v < 1 : Math.abs(u) < 1 && Math.abs(v) < 1;
}

/** The last of `lines` that is not beyond `place`, but never the very last: the interval that holds it, or the nearest one. */
export function intervalOf(lines: Float64Array, place: number): number {
  let low = 0;
  let high = lines.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (lines[middle] <= place) low = middle;
    else high = middle;
  }
  return low;
}

/** Places along one axis among lines. */
export interface PlacesOn {
  /** The interval that holds each, or the nearest one. */
  readonly at: Int32Array;
  /** The part of that interval which lies before it, 0..1. */
  readonly part: Float64Array;
}

export function placesOn(lines: Float64Array, places: Float64Array): PlacesOn {
  const at = Int32Array.from(places, (place) => intervalOf(lines, place));
  const part = Float64Array.from(places, (place, k) =>
    Math.min(1, Math.max(0, (place - lines[at[k]]) / (lines[at[k] + 1] - lines[at[k]]))),
  );
  return { at, part };
}
