/** Time of the pucker model against the transforms it must make, in the same run, and how little its grid matters. */

import { readFileSync } from 'node:fs';
import { decodeDesign } from '../../lib/format/decode.js';
import type { Stitches } from '../../lib/format/stitches.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { type PreparedDesign, prepareRelaid } from '../../lib/mechanics/prepared-design.js';
import { assess, assessFully, prepare } from '../../lib/mechanics/risk.js';
import { stackFamilies } from '../../lib/mechanics/stack-family.js';
import { adviseOn, vetDesign } from '../../lib/pipeline.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import type { TestDesign } from '../mechanics/designs.js';
import { sampleDesign } from '../mechanics/sample-designs.js';
import { BONDED, WOVEN_CROSSED } from '../mechanics/stacks.js';
import { relaidAll } from '../stitch/relaid-all.js';
import type { BenchRow } from './row.js';

const PLAN = { fabric: 'performance-knit-thin', stack: BONDED };
const RUNS = 5;
/** Whole advice takes seconds: its best time is steady sooner. */
const ADVICE_RUNS = 2;

export async function mechanicsRows(): Promise<BenchRow[]> {
  const crest = await sampleDesign('crest.dst');
  const name = await sampleDesign('name-drop.dst');
  const five = beside(crest, 5);
  const rows: BenchRow[] = [];
  for (const [design, side] of [
    [crest, 256],
    [five, 512],
  ] as const) {
    const cellMm = cellForSide(design, side);
    const label = `${(design.stitches.count / 1000).toFixed(0)} k stitches on ${side}²`;
    const { risk, detailed } = againstTransforms(design, cellMm, side);
    rows.push({ name: `risk / its transforms, ${label}`, measured: risk, target: 3, unit: '×' });
    rows.push({
      name: `risk with drivers and range / its transforms, ${label}`,
      measured: detailed,
      target: 3,
      unit: '×',
    });
  }
  rows.push(allStacks(crest));
  for (const fabric of ['performance-knit', 'pique-knit']) rows.push(await wholeAdvice(crest, fabric));
  for (const [what, design] of [
    ['name', name],
    ['crest', crest],
  ] as const) {
    const byRule = prepare(design);
    const finer = prepare({ ...design, cellMm: byRule.grid.cellMm / 2 });
    const height = (prepared: PreparedDesign) => assess(prepared, PLAN).wrinkleMm;
    const change = Math.abs(height(byRule) / height(finer) - 1);
    rows.push({
      name: `wrinkle height of the ${what}, grid by rule against twice as fine`,
      measured: 100 * change,
      target: 5,
      unit: '%',
    });
  }
  return rows;
}

/**
 * Time of one field solve as it is paid for: a whole `assess` of a prepared design as sewn, over one stack on the grid that `pucker` takes. That
 * holds one solve of the heterogeneous field to its full tolerance, and the figures of design and objects.
 */
function fieldSolve(base: PreparedDesign): number {
  const start = performance.now();
  assess(base, PLAN);
  return performance.now() - start;
}

/** Time of every stack of up to two sheets over two underlays, now and washed, from stitches on, over that of one solve of the field. */
function allStacks(crest: TestDesign): BenchRow {
  const conditions = { fabric: 'performance-knit', grainDeg: 90, hoopStretchPercent: 0, washes: 8 };
  const one = Object.keys(CATALOGUE.sheets).map((sheet) => [{ sheet, angleDeg: 0 }]);
  const stacks = [...one, ...one.flatMap((a, k) => one.slice(k).map((b) => [...a, ...b])), WOVEN_CROSSED];
  const lighter = relaidAll(crest, 'fill');
  let [all, solve] = [Infinity, Infinity];
  let plans = 0;
  for (let run = 0; run < RUNS; run++) {
    const start = performance.now();
    const base = prepare(crest);
    const designs = [base, prepareRelaid(base, lighter)];
    const families = stackFamilies(designs, stacks, conditions, CATALOGUE, PARAMETERS);
    const heights = families.flatMap((family) => stacks.map((stack) => family.heights(stack)));
    all = Math.min(all, performance.now() - start);
    plans = heights.length;
    solve = Math.min(solve, fieldSolve(base));
  }
  const name = `all stacks of the crest, ${plans} plans / one field solve (assess as sewn)`;
  return { name, measured: all / solve, target: 12, unit: '×' };
}

/** Time of all advice on a vetted crest, over that of one solve of the field. */
async function wholeAdvice(crest: TestDesign, fabric: string): Promise<BenchRow> {
  const bytes = readFileSync(new URL('../../samples/crest.dst', import.meta.url));
  const file = { path: 'crest.dst', format: 'dst', bytes: bytes.length, sha256: '0' } as const;
  const vetting = vetDesign(await decodeDesign(bytes, 'dst'), { file });
  const base = prepare(crest);
  let [all, solve] = [Infinity, Infinity];
  let plans = 0;
  for (let run = 0; run < ADVICE_RUNS; run++) {
    const start = performance.now();
    const { search } = await adviseOn(vetting, { fabric });
    all = Math.min(all, performance.now() - start);
    plans = search.considered.plans;
    for (let k = 0; k < RUNS; k++) solve = Math.min(solve, fieldSolve(base));
  }
  const name = `whole advice on the crest, ${fabric}, ${plans} plans / one field solve (assess as sewn)`;
  return { name, measured: all / solve, target: 12, unit: '×' };
}

/** Best time of a risk, from stitches to figures, over that of as many transforms as it made. */
function againstTransforms(
  design: TestDesign,
  cellMm: number,
  side: number,
): { risk: number; detailed: number } {
  let [risk, detailed] = [Infinity, Infinity];
  for (let run = 0; run < RUNS; run++) {
    let start = performance.now();
    const prepared = prepare({ ...design, cellMm });
    assess(prepared, PLAN);
    const riskMs = performance.now() - start;
    const { fourier } = prepared.solver;
    if (fourier.nx !== side || fourier.ny !== side)
      throw new Error(`a grid of ${fourier.nx} × ${fourier.ny}`);
    const riskTransforms = fourier.transforms;
    start = performance.now();
    assessFully(prepared, PLAN);
    const detailedMs = performance.now() - start;
    const detailedTransforms = fourier.transforms - riskTransforms;
    // There and back in turn, on a field that is not all zeros.
    const field = prepared.topPoints.slice();
    const spectrum = fourier.newSpectrum();
    const pairs = Math.ceil(riskTransforms / 2);
    start = performance.now();
    for (let k = 0; k < pairs; k++) {
      fourier.forward(field, spectrum);
      fourier.inverse(spectrum, field);
    }
    const eachMs = (performance.now() - start) / (2 * pairs);
    risk = Math.min(risk, riskMs / riskTransforms / eachMs);
    detailed = Math.min(detailed, detailedMs / detailedTransforms / eachMs);
  }
  return { risk, detailed };
}

/** Cell size at which a design with its margin of a quarter on each side takes a grid of `side`. */
function cellForSide({ stitches: { x, y } }: TestDesign, side: number): number {
  const extent = (v: Float64Array) =>
    v.reduce((m, a) => Math.max(m, a), -Infinity) - v.reduce((m, a) => Math.min(m, a), Infinity);
  return (1.5 * Math.max(extent(x), extent(y))) / side / 0.95;
}

/** The design `times` over, side by side in two rows. */
function beside({ stitches, objects }: TestDesign, times: number): TestDesign {
  const n = stitches.count;
  const wide = <T extends Float64Array | Uint8Array | Uint16Array | Int32Array>(
    make: (length: number) => T,
    of: T,
    move: (tile: number) => number,
  ): T => {
    const out = make(n * times);
    for (let tile = 0; tile < times; tile++)
      for (let i = 0; i < n; i++) out[tile * n + i] = of[i] + move(tile);
    return out;
  };
  const still = () => 0;
  const all: Stitches = {
    count: n * times,
    x: wide(
      (k) => new Float64Array(k),
      stitches.x,
      (tile) => 85 * Math.floor(tile / 2),
    ),
    y: wide(
      (k) => new Float64Array(k),
      stitches.y,
      (tile) => 95 * (tile % 2),
    ),
    breakBefore: wide((k) => new Uint8Array(k), stitches.breakBefore, still),
    block: wide((k) => new Uint16Array(k), stitches.block, still),
    record: wide((k) => new Int32Array(k), stitches.record, still),
  };
  const tiled: StitchObject[] = [];
  for (let tile = 0; tile < times; tile++)
    for (const object of objects) {
      const by = tile * n;
      const moved = ([a, b]: readonly [number, number]): [number, number] => [a + by, b + by];
      const { range } = object.underlay;
      tiled.push({
        ...object,
        id: tiled.length + 1,
        range: moved(object.range),
        from: object.from.map((i) => i + by),
        to: object.to.map((i) => i + by),
        underlay: { ...object.underlay, range: range ? moved(range) : null },
      });
    }
  return { stitches: all, objects: tiled };
}
