import { readFileSync } from 'node:fs';
import type { HoopingNote } from '../../lib/advice/reason.js';
import { type Design, Kind } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { COMMERCIAL_HEAD } from '../../lib/materials/machine.js';
import { HOOP_FIELDS, type HoopField } from '../../lib/materials/places.js';
import type { Grid } from '../../lib/mechanics/grid.js';
import type { PlanReport } from '../../lib/report/advise/plan-report.js';
import type { AdviseReport } from '../../lib/report/advise/report.js';
import type { CardInput, CardOptions } from '../../lib/report/card/input.js';
import { SHOP } from '../built-in-shop.js';
import { FILE } from './on-fabric.js';

/** A plan as a shop might have it, so that cards are tested on their own. */
export const PLAN: PlanReport = {
  stack: [
    { sheet: 'woven-polyester', angleDeg: 0 },
    { sheet: 'woven-polyester', angleDeg: 45 },
  ],
  stackText: 'woven-polyester+woven-polyester@45',
  stackName: 'woven polyester + woven polyester turned 45°',
  toAskFor: [{ sheet: 'woven-polyester', sheetName: 'woven polyester', kind: 'woven', massGPerM2: 55 }],
  topping: 'soluble-film',
  toppingName: 'water-soluble film',
  underlay: [],
  needle: '75-11-ball',
  needleName: '75/11 ball point',
  speedSpm: 650,
  hooping: [],
  hoopingNotes: [
    { code: 'as-it-lies', params: {} },
    { code: 'hoop-together', params: {} },
  ],
  cost: {
    total: 1.23,
    backing: 0.5,
    thread: 0.13,
    machine: 0.6,
    currency: 'USD',
    parts: { sheets: 0.4, topping: 0.1, topThread: 0.1, bobbin: 0.03, machineMinutes: 7 },
  },
  price: null,
  riskNow: {
    score: 10,
    grade: 4.5,
    pullInMm: 0.1,
    wrinkleMm: 0.12,
    wrinkleBandMm: [0.05, 0.11, 0.2],
    washes: 0,
    range: { score: [5, 20], wrinkleMm: [0.05, 0.2] },
  },
  riskWashed: {
    score: 30,
    grade: 3.5,
    pullInMm: 0.2,
    wrinkleMm: 0.31,
    wrinkleBandMm: [0.2, 0.3, 0.5],
    washes: 8,
    range: { score: [20, 45], wrinkleMm: [0.2, 0.5] },
  },
  why: [],
  reasons: [],
};

export const OPTIONS: CardOptions = {
  title: 'crest.dst',
  units: 'mm',
  paper: 'a4',
  language: 'en',
  cost: false,
};

export const hoopNamed = (id: string): HoopField => HOOP_FIELDS.find((hoop) => hoop.id === id)!;

export const sampleDesign = (name: string): Design =>
  decodeDst(readFileSync(new URL(`../../samples/${name}`, import.meta.url)));

/** What a card is made of: a design with that plan, recommended or not, in a round hoop. */
export function cardInput(
  design: Design,
  more: Partial<CardInput> & { plan?: Partial<PlanReport>; advised?: Partial<AdviseReport> } = {},
): CardInput {
  const { plan: changes, advised, ...rest } = more;
  const vetting = SHOP.vet(design, { file: FILE });
  const plan = { ...PLAN, ...changes };
  const { minX, maxX, minY, maxY } = vetting.designMeasures.bounds;
  const cellMm = 4;
  const grid: Grid = {
    nx: Math.ceil((maxX - minX) / cellMm) + 6,
    ny: Math.ceil((maxY - minY) / cellMm) + 6,
    cellMm,
    x0: minX - 3 * cellMm,
    y0: minY - 3 * cellMm,
  };
  return {
    ...vetting,
    advice: {
      schema: 'lieflat/advise@1',
      file: FILE,
      fabric: 'performance-knit',
      recommended: plan,
      meets: 'yes',
      verdict: 'sound',
      verdictReasons: [],
      plans: [plan],
      mustChange: [],
      changes: [],
      accepted: { grade: 3.5, washedGrade: 3.5, washes: 8 },
      considered: { stacks: 1, underlays: 1, plans: 1 },
      hoop: null,
      failures: [],
      warnings: [],
      relaidAway: [],
      fabricName: 'performance knit, polyester',
      garment: null,
      threadName: 'polyester, 40 weight',
      objects: [],
      setObjects: [],
      capOrder: [],
      cautions: [],
      cautionCodes: [],
      ...advised,
    },
    grainDeg: 90,
    hoop: hoopNamed('round-120'),
    // A slope from nothing on the left to 0.6 mm on the right.
    maps: {
      grid,
      wrinkleMm: Float64Array.from({ length: grid.nx * grid.ny }, (_, i) => (0.6 * (i % grid.nx)) / grid.nx),
    },
    machine: COMMERCIAL_HEAD,
    catalogue: CATALOGUE,
    ...rest,
  };
}

/** Blocks of running stitches, one above the other; a stop in the second, after its third stitch. */
export function blocksOf(count: number, stop = true): Design {
  const [x, y, kind]: [number[], number[], number[]] = [[], [], []];
  const put = (k: number, px: number, py: number) => {
    x.push(px);
    y.push(py);
    kind.push(k);
  };
  for (let block = 0; block < count; block++) {
    for (let i = 0; i <= 10; i++) {
      put(Kind.stitch, i * 2.5, block * 2);
      if (stop && block === 1 && i === 2) put(Kind.stop, i * 2.5, block * 2);
    }
    if (block < count - 1) put(Kind.colour, 25, block * 2);
  }
  put(Kind.end, 25, count * 2);
  return {
    x: Float64Array.from(x),
    y: Float64Array.from(y),
    kind: Uint8Array.from(kind),
    thread: null,
    header: [],
    diagnostics: [],
    format: 'dst',
  };
}

/** More than a card has room for beside a large picture. */
export const LONG_NOTES = Array.from(
  { length: 9 },
  (): HoopingNote => ({ code: 'turn-others', params: { sheets: 3 } }),
);
