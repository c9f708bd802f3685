/** Time of the pucker model in full solves, in the same run, and how little its mesh matters. */
import { readFileSync } from 'node:fs';
import { decodeDesign } from '../../lib/format/decode.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { layupOf } from '../../lib/mechanics/layup.js';
import { MESH_OPTIONS } from '../../lib/mechanics/mesh.js';
import { meshDesign } from '../../lib/mechanics/meshed-design.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import { puckering } from '../../lib/mechanics/puckering.js';
import { assessFully, prepare } from '../../lib/mechanics/risk.js';
import { settingsOf } from '../../lib/mechanics/settings.js';
import { SHOP } from '../built-in-shop.js';
import { sampleDesign } from '../mechanics/sample-designs.js';
import { BONDED } from '../mechanics/stacks.js';
import type { BenchRow } from './row.js';

const PLAN = { fabric: 'performance-knit-thin', stack: BONDED };
const RUNS = 3;
/** Whole advice takes seconds: its best time is steady sooner. */
const ADVICE_RUNS = 2;
const LAYUP = layupOf(CATALOGUE, { ...PLAN, grainDeg: 90 });
const SETTINGS = settingsOf(PARAMETERS);

export async function mechanicsRows(): Promise<BenchRow[]> {
  const rows: BenchRow[] = [];
  for (const name of ['name-drop.dst', 'crest.dst']) {
    const design = await sampleDesign(name);
    const prepared = prepare(design, SHOP.catalogue);
    rows.push(detailed(name, prepared));
    const finer = meshDesign(design.stitches, design.objects, prepared.thread, prepared.fine.design.hoop, {
      ...MESH_OPTIONS,
      cellMm: prepared.fine.design.mesh.even.cellMm / 2,
    });
    const [usual, half] = [prepared.fine.design, finer].map((mesh) => puckering(mesh, LAYUP, SETTINGS));
    const moved = (a: number, b: number) => 100 * Math.abs(a / b - 1);
    const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
    rows.push({
      name: `wrinkle height of ${name}, the mesh against one twice as fine`,
      measured: moved(usual.heightMm, half.heightMm),
      target: 2,
      unit: '%',
    });
    rows.push({
      name: `pull-in of ${name}, the same`,
      measured: moved(mean(usual.narrowingMm), mean(half.narrowingMm)),
      target: 2,
      unit: '%',
    });
  }
  for (const fabric of ['performance-knit', 'pique-knit']) rows.push(await wholeAdvice(fabric));
  return rows;
}

/** One full solve: sewn, let go and looked at, on the fine mesh, on one setup. */
function fullSolve({ fine }: PreparedDesign): number {
  const start = performance.now();
  puckering(fine.design, LAYUP, SETTINGS, undefined, undefined, undefined, fine);
  return performance.now() - start;
}

/** Time of a risk with band, drivers and maps over that of one full solve. */
function detailed(name: string, prepared: PreparedDesign): BenchRow {
  let [all, solve] = [Infinity, Infinity];
  for (let run = 0; run < RUNS; run++) {
    const start = performance.now();
    assessFully(prepared, PLAN, SHOP);
    all = Math.min(all, performance.now() - start);
    solve = Math.min(solve, fullSolve(prepared));
  }
  return {
    name: `risk with band and drivers of ${name} / one full solve`,
    measured: all / solve,
    target: 3,
    unit: '×',
  };
}

/** Time of all advice on a vetted crest, over that of one full solve. */
async function wholeAdvice(fabric: string): Promise<BenchRow> {
  const bytes = readFileSync(new URL('../../samples/crest.dst', import.meta.url));
  const file = { path: 'crest.dst', format: 'dst', bytes: bytes.length, sha256: '0' } as const;
  const vetting = SHOP.vet(await decodeDesign(bytes, 'dst'), { file });
  const prepared = prepare(vetting, SHOP.catalogue);
  let [all, solve] = [Infinity, Infinity];
  let plans = 0;
  for (let run = 0; run < ADVICE_RUNS; run++) {
    const start = performance.now();
    const { search } = SHOP.advise(vetting, { fabric });
    all = Math.min(all, performance.now() - start);
    plans = search.considered.plans;
    solve = Math.min(solve, fullSolve(prepared));
  }
  return {
    name: `whole advice on the crest, ${fabric}, ${plans} plans / one full solve`,
    measured: all / solve,
    target: 25,
    unit: '×',
  };
}
