/** From a mesh to one of fewer lines: which lines those are, and what a matrix comes to on them (Pᵀ·A·P, along x and then along y). */
import { type LayerMatrix, neighborSteps, PER_NODE, PER_PAIR, SPRING } from './layer-matrix.js';

/** Lines of a coarse mesh that stand beside those of a finer one along one axis. */
export interface Transfer {
  /** Coarse lines. */
  readonly count: number;
  /** Of every fine line: the coarse line at or before it, and the part that the next one has in it. */
  readonly before: Int32Array;
  readonly after: Float64Array;
}

/** To a coarser mesh along both axes. */
export interface Coarsening {
  readonly alongX: Transfer;
  readonly alongY: Transfer;
}

/** What is needed of a level to make the coarser one's numbers. */
type LevelNumbers = Pick<LayerMatrix, 'nx' | 'ny' | 'free' | 'nodes' | 'entries'>;

/** With so few lines or fewer one way, none is left out that way. */
const FEWEST_LINES = 6;

/** Two intervals are joined where they are together no more than so many times as wide as the narrowest of all. */
const JOINED = 3.5;
/** Where that leaves out fewer lines than this part of them, every second one goes. */
const LEAST_LEFT_OUT = 0.2;

/**
 * Where lines stand closest every second one is left out; where they stand apart already they stay, until the others are as far apart. Elements that
 * are much longer than wide, as beside a mesh that grows outward, are smoothed along their short side alone, and so may be coarsened that way alone.
 */
export function transferOf(lines: Float64Array): Transfer {
  const n = lines.length;
  const before = new Int32Array(n);
  const after = new Float64Array(n);
  if (n <= FEWEST_LINES) return { count: n, before: before.map((_, k) => k), after };
  const kept = linesKept(lines);
  for (let c = 0; c < kept.length; c++) {
    const [from, to] = [kept[c], kept[c + 1] ?? n];
    for (let k = from; k < to; k++) {
      before[k] = c;
      after[k] = k === from ? 0 : (lines[k] - lines[from]) / (lines[to] - lines[from]);
    }
  }
  return { count: kept.length, before, after };
}

/** Numbers of the lines that are not left out; no two beside one another are. */
function linesKept(lines: Float64Array): number[] {
  const n = lines.length;
  let narrowest = Number.POSITIVE_INFINITY;
  for (let k = 1; k < n; k++) narrowest = Math.min(narrowest, lines[k] - lines[k - 1]);
  const kept: number[] = [];
  for (let k = 0; k < n; k += k + 2 < n && lines[k + 2] - lines[k] <= JOINED * narrowest ? 2 : 1)
    kept.push(k);
  if (kept.length <= (1 - LEAST_LEFT_OUT) * n) return kept;
  const seconds = Array.from({ length: Math.floor(n / 2) }, (_, k) => 2 * k);
  return [...seconds, n - 1];
}

export function coarse(lines: Float64Array, { count, before, after }: Transfer): Float64Array {
  const out = new Float64Array(count);
  lines.forEach((place, k) => {
    if (after[k] === 0) out[before[k]] = place;
  });
  return out;
}

/** Coarse nodes in which some fine node that can move has a part; none at the border. */
export function freeOf(free: Uint8Array, nx: number, alongX: Transfer, alongY: Transfer): Uint8Array {
  const out = new Uint8Array(alongX.count * alongY.count);
  free.forEach((can, p) => {
    if (can === 0) return;
    const i = p % nx;
    const j = Math.floor(p / nx);
    for (let b = 0; b < 2; b++)
      for (let a = 0; a < 2; a++) {
        if ((a === 1 && alongX.after[i] === 0) || (b === 1 && alongY.after[j] === 0)) continue;
        const ci = alongX.before[i] + a;
        const cj = alongY.before[j] + b;
        if (ci > 0 && cj > 0 && ci < alongX.count - 1 && cj < alongY.count - 1)
          out[cj * alongX.count + ci] = 1;
      }
  });
  return out;
}

/**
 * PᵀAP, along x first and then along y, row by row of the fine mesh.
 * @param from {@link SPRING} where nothing but the springs has changed; all numbers of a pair without it
 */
export function coarsen(
  fine: LevelNumbers,
  { alongX, alongY }: Coarsening,
  to: LevelNumbers,
  from = 0,
): void {
  const half = new Float32Array(alongX.count * PER_NODE);
  for (let k = 0; k < to.entries.length; k += PER_PAIR)
    for (let c = from; c < PER_PAIR; c++) to.entries[k + c] = 0;
  const foldsX = foldsOf(alongX);
  const foldsY = foldsOf(alongY);
  for (let j = 0, m = 0; j < fine.ny; j++) {
    half.fill(0);
    m = foldRow(fine, m, j, foldsX, half, from);
    spreadRow(half, alongX.count, foldsY[j], to.entries, from);
  }
  // Nodes of the border are held, whatever has been added to them.
  const steps = neighborSteps(to.nx);
  for (let p = 0; p < to.nx * to.ny; p++)
    steps.forEach((step, n) => {
      if (to.free[p] === 1 && to.free[p + step] === 1) return;
      const at = p * PER_NODE + n * PER_PAIR;
      to.entries.fill(0, at, at + PER_PAIR);
    });
}

/** Where no needle point is near there are no springs. */
const hasNothing = (numbers: Float32Array, p: number, from: number): boolean =>
  from === SPRING && numbers[p * PER_NODE + 4 * PER_PAIR + SPRING] === 0;

/** Adds row j of the fine nodes, beginning with number m of those that can move, along x; gives the first number of the next row. */
function foldRow(
  { nx, nodes, entries }: LevelNumbers,
  m: number,
  j: number,
  folds: readonly (readonly Fold[])[],
  half: Float32Array,
  from: number,
): number {
  const end = (j + 1) * nx;
  for (; m < nodes.length && nodes[m] < end; m++) {
    const p = nodes[m];
    if (hasNothing(entries, p, from)) continue;
    for (const { step, line, lineStep, part } of folds[p % nx])
      for (let dj = 0; dj < 3; dj++)
        addPair(
          entries,
          p * PER_NODE + (dj * 3 + step + 1) * PER_PAIR,
          half,
          line * PER_NODE + (dj * 3 + lineStep + 1) * PER_PAIR,
          part,
          from,
        );
  }
  return m;
}

/** Adds such a row along y to the coarse nodes. */
function spreadRow(
  half: Float32Array,
  count: number,
  folds: readonly Fold[],
  to: Float32Array,
  from: number,
): void {
  for (let i = 0; i < count; i++) {
    if (hasNothing(half, i, from)) continue;
    for (const { step, line, lineStep, part } of folds)
      for (let di = 0; di < 3; di++)
        addPair(
          half,
          i * PER_NODE + ((step + 1) * 3 + di) * PER_PAIR,
          to,
          (line * count + i) * PER_NODE + ((lineStep + 1) * 3 + di) * PER_PAIR,
          part,
          from,
        );
  }
}

/** What a line and its neighbor `step` away have in a coarse line and that one's neighbor: the product of their parts. */
interface Fold {
  readonly step: number;
  readonly line: number;
  readonly lineStep: number;
  readonly part: number;
}

/** Of every fine line. */
function foldsOf(transfer: Transfer): Fold[][] {
  const { count, before } = transfer;
  return Array.from(before, (_, k) => {
    const folds: Fold[] = [];
    for (let step = -1; step <= 1; step++) {
      const its = partsOf(transfer, k + step);
      for (const mine of partsOf(transfer, k)) {
        if (mine.line >= count) continue;
        for (const other of its)
          folds.push({
            step,
            line: mine.line,
            lineStep: other.line - mine.line,
            part: mine.part * other.part,
          });
      }
    }
    return folds;
  });
}

/** The coarse lines in which a fine one has a part, and how large it is; none for a line that there is not. */
function partsOf({ before, after }: Transfer, k: number): { line: number; part: number }[] {
  if (k < 0 || k >= before.length) return [];
  const parts = [1 - after[k], after[k]].map((part, a) => ({ line: before[k] + a, part }));
  return parts.filter(({ part }) => part !== 0);
}

function addPair(
  from: Float32Array,
  at: number,
  to: Float32Array,
  there: number,
  part: number,
  first: number,
): void {
  for (let c = first; c < PER_PAIR; c++) to[there + c] += part * from[at + c];
}
