/**
 * Wrinkle heights of one sew-out for any values of the free parameters, from a few solves of the field.
 *
 * Strains by sewing go with the tension T, those by laundering with the part L of the final shrinkage that has come about, critical strains
 * with the threshold k. All three enter the excess of shortening together, so that the height is √T·W(k/T, L/T): W is tabled over the two
 * ratios. Only how the backing is tacked needs the field solved again: the table is made for a few values of it. That is done on a grid coarser
 * than the design's own; one solve on that one puts the level right.
 */
import type { Catalogue } from '../materials/catalogue.js';
import type { Case } from '../mechanics/drivers.js';
import type { SolveOptions } from '../mechanics/field.js';
import type { TensorField } from '../mechanics/grid.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import type { PreparedDesign } from '../mechanics/prepared-design.js';
import { heightOfHighest, worstPatch } from '../mechanics/regions.js';
import { combined, respond } from '../mechanics/response.js';
import { caseOf, type GoodsPlan } from '../mechanics/risk.js';
import { VIEWED_MM2 } from '../mechanics/score.js';
import { wrinkleMap } from '../mechanics/wrinkle.js';
import { type FreeName, type FreeValues, freeValues, type Prior } from './free-parameters.js';
import { axis, between } from './interpolate.js';

const TACKINGS = 4;
const RATIOS = 15;
const WASHED_RATIOS = 9;
/** A cell is kept that is in a patch this many times as large as the worst one where it was looked at. */
const MAY_COUNT = 3;
/** A grade is known to half a step, so a height need not be known to a thousandth. */
const OPTIONS: SolveOptions = { tolerance: 5e-3, maxIterations: 300 };
/** Below this the ratio of two heights says nothing, mm. */
const LEAST_MM = 0.02;

/** A design on its own grid, and on the one that tables are made on; the same where its own is as coarse. */
export interface DesignTwice {
  readonly own: PreparedDesign;
  readonly rough: PreparedDesign;
}

/** Part of the final shrinkage after some launderings. */
export const launderedPart = (firstWash: number, washes: number): number => 1 - (1 - firstWash) ** washes;

export interface HeightTable {
  /** Height of the worst patch of the whole design, mm. */
  height(values: Omit<FreeValues, 'scoreHalf'>): number;
}

export type TableSettings = {
  readonly catalogue: Catalogue;
  /** What is not free, and where the level is put right. */
  readonly parameters: MechanicsParameters;
  readonly priors: Readonly<Record<FreeName, Prior>>;
};

/**
 * One table for each of some counts of launderings of a design on the same goods; the solves serve all of them.
 * @throws LieflatError `unknown-id`, `bad-argument`
 */
export function heightTables(
  { own, rough }: DesignTwice,
  plan: Pick<GoodsPlan, 'fabric' | 'stack'>,
  washes: readonly number[],
  settings: TableSettings,
): Map<number, HeightTable> {
  const { catalogue, parameters, priors } = settings;
  const out = new Map<number, HeightTable>();
  const at = (design: PreparedDesign, n: number) =>
    caseOf(design, { ...plan, washes: n }, catalogue, parameters);
  // What the first wash takes out of the stack leaves other goods.
  const dissolves = at(rough, 0).goods.sheets.length !== at(rough, 1).goods.sheets.length;
  for (const together of dissolves
    ? [washes.filter((n) => n === 0), washes.filter((n) => n > 0)]
    : [washes]) {
    if (together.length === 0) continue;
    const most = Math.max(...together);
    const tabled = tablesOn(at(rough, most), together, priors);
    if (own === rough) {
      for (const [n, table] of tabled) out.set(n, table);
      continue;
    }
    const values = freeValues(parameters);
    const exact = solved(at(own, most), values.fullTacking, most > 0);
    for (const [n, table] of tabled) {
      const { tension, threshold, firstWash } = values;
      const share = launderedPart(firstWash, n) / tension;
      const right =
        Math.sqrt(tension) * worstPatch(mapsOf(exact, share)(threshold / tension), own.grid.cellMm);
      const factor = (right + LEAST_MM) / (table.height(values) + LEAST_MM);
      out.set(n, { height: (v) => factor * table.height(v) });
    }
  }
  return out;
}

function tablesOn(
  at: Case,
  washes: readonly number[],
  priors: TableSettings['priors'],
): Map<number, HeightTable> {
  const { tension, threshold, fullTacking, firstWash } = priors;
  const tackings = axis(fullTacking.low, fullTacking.high, at.goods.sheets.length > 0 ? TACKINGS : 1);
  const ratios = axis(threshold.low - tension.high, threshold.high - tension.low, RATIOS);
  const part = (f: number, n: number) => Math.log(launderedPart(Math.exp(f), n));
  const shares = new Map(
    washes.map((n) => [
      n,
      n > 0
        ? axis(part(firstWash.low, n) - tension.high, part(firstWash.high, n) - tension.low, WASHED_RATIOS)
        : null,
    ]),
  );
  const laundered = washes.some((n) => n > 0);
  /** W by washes, by tacking, then by L/T, then by k/T, mm/√N. */
  const heights = new Map(washes.map((n) => [n, [] as number[]]));
  const { cellMm } = at.design.grid;
  for (const tacking of tackings.nodes) {
    const all = solved(at, Math.exp(tacking), laundered);
    for (const [n, axisOfShares] of shares) {
      const shareAt = axisOfShares?.nodes.map(Math.exp) ?? [0];
      const ratioAt = ratios.nodes.map(Math.exp);
      const few = likely(all, shareAt, ratioAt, cellMm);
      for (const share of shareAt) {
        const mapAt = mapsOf(few, share);
        for (const ratio of ratioAt) heights.get(n)!.push(worstPatch(mapAt(ratio), cellMm));
      }
    }
  }
  return new Map(
    [...shares].map(([n, axisOfShares]) => {
      const table = Float64Array.from(heights.get(n)!);
      const axes = [tackings, ...(axisOfShares ? [axisOfShares] : []), ratios];
      return [
        n,
        {
          height: ({ tension: t, threshold: k, fullTacking: tacking, firstWash: f }) => {
            const share = axisOfShares ? [Math.log(launderedPart(f, n) / t)] : [];
            return (
              Math.sqrt(t) * Math.max(0, between(table, axes, [Math.log(tacking), ...share, Math.log(k / t)]))
            );
          },
        },
      ];
    }),
  );
}

/** The cells of a solve that can be in the worst patch: settled at the ends and the middle of what is asked for. */
function likely(all: Cells, shares: readonly number[], ratios: readonly number[], cellMm: number): Cells {
  const kept = new Uint8Array(all.open.length);
  for (const share of ends(shares)) {
    const mapAt = mapsOf(all, share);
    for (const map of ends(ratios).map(mapAt)) {
      const from = heightOfHighest(map, (MAY_COUNT * VIEWED_MM2) / cellMm ** 2);
      for (let p = 0; p < map.length; p++) if (map[p] > 0 && map[p] >= from) kept[p] = 1;
    }
  }
  return partOf(all, kept);
}

function solved({ design, goods, settings }: Case, fullTacking: number, laundered: boolean): Cells {
  const treatment = { hoopStretch: 0, laundered: laundered ? 1 : 0 };
  const { perNewton, drawnIn, later, engaged } = respond(
    design,
    goods,
    { ...settings, fullTacking },
    treatment,
    OPTIONS,
  );
  const { hooped, longestSpan } = settings;
  return {
    goods,
    longestSpan,
    sewn: perNewton,
    drawnIn,
    later,
    open: design.open,
    toPoint: design.nearest.distance,
    tacked: engaged.map((e) => (e - hooped) / (1 - hooped)),
  };
}

/** Heights W at cells, mm/√N, for any ratio of the threshold to the tension. */
function mapsOf(cells: Cells, share: number): (ratio: number) => Float64Array {
  const { goods, sewn, drawnIn, later, open, toPoint, tacked, longestSpan } = cells;
  const strains = {
    strain: drawnIn && share > 0 ? combined(drawnIn, share, sewn) : sewn,
    later: later && share > 0 ? combined(later, share, null) : null,
  };
  return (threshold) =>
    wrinkleMap({ goods, ...strains, open, toPoint, tacked, threshold, longestSpanMm: longestSpan });
}

/** What wrinkles hang on, at some cells; strains by sewing for a tension of 1 N, the others for goods shrunk in full. */
interface Cells {
  readonly goods: Case['goods'];
  readonly longestSpan: number;
  readonly sewn: TensorField;
  readonly drawnIn: TensorField | null;
  readonly later: TensorField | null;
  readonly open: Float64Array;
  readonly toPoint: Float64Array;
  readonly tacked: Float64Array;
}

function partOf(cells: Cells, kept: Uint8Array): Cells {
  const chosen = Int32Array.from(Array.from(kept.keys()).filter((p) => kept[p] === 1));
  const read = (field: Float64Array) => Float64Array.from(chosen, (p) => field[p]);
  const tensor = (field: TensorField | null) =>
    field && { xx: read(field.xx), yy: read(field.yy), xy: read(field.xy) };
  return {
    ...cells,
    sewn: tensor(cells.sewn)!,
    drawnIn: tensor(cells.drawnIn),
    later: tensor(cells.later),
    open: read(cells.open),
    toPoint: read(cells.toPoint),
    tacked: read(cells.tacked),
  };
}

/** The first, the middle and the last. */
const ends = (values: readonly number[]): number[] => [
  ...new Set([values[0], values[values.length >> 1], values[values.length - 1]]),
];
