/** Time of the pucker model against the transforms it must make, in the same run, and how little its grid matters. */

import type { Stitches } from '../../lib/format/stitches.js';
import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import { assess, assessFully, prepare } from '../../lib/mechanics/risk.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import type { TestDesign } from '../mechanics/designs.js';
import { sampleDesign } from '../mechanics/sample-designs.js';
import { BONDED } from '../mechanics/stacks.js';
import type { BenchRow } from './row.js';

const PLAN = { fabric: 'performance-knit-thin', stack: BONDED };
const RUNS = 5;

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
