/** A whole order: what `lieflat order --format json` prints, and what its page, its table and its text are made of. */
import type { Accepted } from '../../advice/accepted.js';
import { type Meets, type UpperEnd, upperMiss } from '../../advice/meets.js';
import {
  laborMinutes,
  machineMinutes,
  offPercent,
  pieceCost,
  ratesAreBuiltIn,
  runPrice,
  type ShopRates,
} from '../../advice/price.js';
import type { DesignChange, HoopingNote } from '../../advice/reason.js';
import { type Catalogue, find } from '../../materials/catalogue.js';
import type { OrderFault, OrderLine } from '../../order/order-table.js';
import { type CutPieces, suppliesOf } from '../../order/supplies.js';
import type { FindingCode } from '../../vetting/finding.js';
import type { PlanReport, PlanRiskReport, SheetToAskFor } from '../advise/plan-report.js';
import { type AdviseReport, sheetToAskFor } from '../advise/report.js';
import type { CautionCode } from '../phrases/en/risk.js';
import { round } from '../round.js';
import type { VerdictLevel, VerdictReason } from '../vet/verdict.js';

/** What came of working a line out on its setup; plain data. */
export interface WorkedLine {
  /** Part of the draws in which it keeps the standard. */
  chance: number;
  meets: Meets;
  verdict: VerdictLevel;
  verdictReasons: readonly VerdictReason[];
  plan: PlanReport;
  failures: readonly FindingCode[];
  /** Codes of warnings of the file check. */
  warnings: readonly FindingCode[];
  changes: readonly DesignChange[];
  /** The first object of each piece that is not sewn as a cap wants it; none off caps. */
  capOrder: readonly number[];
  accepted: Accepted;
  cautionCodes: readonly CautionCode[];
  fabricName: string;
  garment: AdviseReport['garment'];
  hoop: AdviseReport['hoop'];
  /** Of each sheet, mm. */
  cut: { widthMm: number; heightMm: number };
  /** Of a piece; the color null where nobody has said. */
  threads: { color: string | null; lengthMm: number }[];
  bobbinMm: number;
  /** Columns whose underlay was laid anew in the file that is sewn. */
  objectsRelaid: number;
  stitches: number;
  widthMm: number;
  heightMm: number;
  /** SHA-256 of the design as it came. */
  design: string;
  /** Within the folder of the order; `relaid` null where the file is sewn as it came. */
  files: { relaid: string | null; card: string; proof: string };
}

export interface OrderSetupReport {
  fabric: string;
  fabricName: string;
  /** From the garment outward. */
  stack: { sheet: string; angleDeg: number }[];
  stackText: string;
  stackName: string;
  topping: string | null;
  toppingName: string | null;
  needle: string;
  needleName: string;
  speedSpm: number;
  /** The hoops that its lines take, and which of them take each; a line that no known hoop holds is in none. */
  hoops: { hoop: string; hoopName: string; lines: number[] }[];
  /** The worst of its lines. */
  meets: Meets;
  /** What may miss the standard: the highest of its lines. */
  upper: UpperEnd | null;
  accepted: Accepted;
  hoopingNotes: readonly HoopingNote[];
  cautionCodes: readonly CautionCode[];
  lines: number[];
}

export interface OrderLineReport {
  line: number;
  /** As the order names it. */
  file: string;
  /** The file to load at the machine, seen from the folder of the order. */
  sewn: string;
  fabric: string;
  garment: string;
  /** What the garment named is most likely made of; null where the fabric was named. */
  madeOf: string | null;
  /** The part of the garment's name that it goes by; null where that is the whole. */
  takenAs: string | null;
  quantity: number;
  place: string | null;
  order: string;
  customer: string;
  due: string;
  remarks: string;
  verdict: VerdictLevel;
  /** Why it is no better; none where it is good to sew. */
  verdictReasons: readonly VerdictReason[];
  meets: Meets;
  /** What may miss the standard where that is most likely met. */
  upper: UpperEnd | null;
  /** Its strokes are narrow for the thread of the setup, as of small letters: finer thread and needle sew it cleaner. */
  narrowForThread: boolean;
  /** Codes of findings for which the file should not be sewn as it is. */
  failures: readonly FindingCode[];
  /** Codes of findings that are to be looked at before it is sewn. */
  warnings: readonly FindingCode[];
  /** What the design would have to be where nothing meets the standard. */
  changes: readonly DesignChange[];
  /** The first object of each piece that is not sewn from the bill of a cap up and from its center out; none off caps. */
  capOrder: readonly number[];
  hoop: AdviseReport['hoop'];
  relaid: string | null;
  card: string;
  proof: string;
  objectsRelaid: number;
  stitches: number;
  minutesEach: number;
  costEach: number;
  priceEach: number;
  riskNow: PlanRiskReport;
  riskWashed: PlanRiskReport;
}

/** Pieces of one kind and size, with what they are. */
export type SupplyOf<T> = CutPieces & T;

export interface OrderReport {
  schema: 'lieflat/order@1';
  setups: OrderSetupReport[];
  lines: OrderLineReport[];
  /** The sum of the lines; spare pieces for what spoils stand beside. */
  supplies: {
    sheets: SupplyOf<SheetToAskFor>[];
    toppings: SupplyOf<{ topping: string; toppingName: string }>[];
    threads: { color: string | null; lengthMm: number }[];
    bobbinMm: number;
    needles: { needle: string; needleName: string }[];
  };
  totals: {
    pieces: number;
    /** At the machine, all heads at work. */
    minutes: number;
    /** Of people who hoop and trim. */
    laborMinutes: number;
    heads: number;
    cost: number;
    price: number;
    setupFee: number;
    digitizing: number;
    offPercent: number;
    currency: string;
    /** The shop has said nothing of its people and prices. */
    ratesAreBuiltIn: boolean;
  };
  errors: { line: number; what: string; todo: string }[];
}

/** A line with what came of it, and the number of its setup. */
export interface DoneLine {
  readonly line: OrderLine;
  readonly worked: WorkedLine;
  /** Lines of one group share a setup. */
  readonly group: string;
  /** The file as it came, seen from the folder of the order. */
  readonly path: string;
}

/** @param done in the order of the lines */
export function orderReport(
  done: readonly DoneLine[],
  faults: readonly OrderFault[],
  rates: ShopRates,
  catalogue: Catalogue,
): OrderReport {
  const { work, pricing } = rates;
  const run = runPrice(
    done.map(({ line, worked }) => ({
      quantity: line.quantity,
      piece: pieceCost(worked.plan.cost.total, rates),
    })),
    new Set(done.map(({ worked }) => worked.design)).size,
    pricing,
  );
  const pieces = run.quantity;
  return {
    schema: 'lieflat/order@1',
    setups: setupsOf(done),
    lines: done.map((one, k) =>
      lineReport(one, pieceCost(one.worked.plan.cost.total, rates).each, run.prices[k]),
    ),
    supplies: suppliesReport(done, rates, catalogue),
    totals: {
      pieces,
      minutes: round(
        done.reduce(
          (sum, { line, worked }) =>
            sum + machineMinutes(line.quantity, worked.plan.cost.parts.machineMinutes, work),
          0,
        ),
        1,
      ),
      laborMinutes: round(laborMinutes(pieces, work), 1),
      heads: work.heads,
      cost: run.cost,
      price: done.length === 0 ? 0 : run.price,
      setupFee: run.setupFee,
      digitizing: run.digitizing,
      offPercent: offPercent(pieces, pricing),
      currency: rates.currency,
      ratesAreBuiltIn: ratesAreBuiltIn(rates),
    },
    errors: faults.map(({ line, what, todo }) => ({ line, what, todo })),
  };
}

const WORST_FIRST: readonly Meets[] = ['no', 'may', 'yes'];

function setupsOf(done: readonly DoneLine[]): OrderSetupReport[] {
  return [...new Set(done.map(({ group }) => group))].map((group) => {
    const own = done.filter((one) => one.group === group);
    const [{ worked, line }] = own;
    const { plan } = worked;
    const has = new Set(own.map((one) => one.worked.meets));
    const uppers = own.flatMap((one) => upperOf(one.worked) ?? []);
    return {
      fabric: line.fabric,
      fabricName: worked.fabricName,
      stack: plan.stack,
      stackText: plan.stackText,
      stackName: plan.stackName,
      topping: plan.topping,
      toppingName: plan.toppingName,
      needle: plan.needle,
      needleName: plan.needleName,
      speedSpm: plan.speedSpm,
      hoops: hoopsOf(own),
      meets: WORST_FIRST.find((meets) => has.has(meets))!,
      upper: uppers.toSorted((a, b) => b.wrinkleMm - a.wrinkleMm)[0] ?? null,
      accepted: worked.accepted,
      hoopingNotes: plan.hoopingNotes,
      cautionCodes: worked.cautionCodes,
      lines: own.map((one) => one.line.line),
    };
  });
}

function hoopsOf(done: readonly DoneLine[]): OrderSetupReport['hoops'] {
  const hoops = new Map<string, OrderSetupReport['hoops'][number]>();
  for (const { line, worked } of done) {
    const { hoop } = worked;
    if (!hoop?.holds) continue;
    const known = hoops.get(hoop.id);
    if (known) known.lines.push(line.line);
    else hoops.set(hoop.id, { hoop: hoop.id, hoopName: hoop.name, lines: [line.line] });
  }
  return [...hoops.values()];
}

const upperOf = ({ meets, plan, accepted }: WorkedLine): UpperEnd | null =>
  meets === 'may' ? upperMiss(plan, accepted) : null;

function lineReport({ line, worked, path }: DoneLine, costEach: number, priceEach: number): OrderLineReport {
  const { plan, files, hoop } = worked;
  return {
    line: line.line,
    file: line.file,
    sewn: files.relaid ?? path,
    fabric: line.fabric,
    garment: line.garment,
    madeOf: worked.garment?.madeOf ?? null,
    takenAs: worked.garment?.takenAs ?? null,
    quantity: line.quantity,
    place: line.place?.id ?? null,
    order: line.order,
    customer: line.customer,
    due: line.due,
    remarks: line.remarks,
    verdict: worked.verdict,
    verdictReasons: worked.verdictReasons,
    meets: worked.meets,
    upper: upperOf(worked),
    narrowForThread: plan.reasons.some(
      ({ code, params }) => code === 'needle' && params.because === 'narrow-for-thread',
    ),
    failures: worked.failures,
    warnings: worked.warnings,
    changes: worked.changes,
    capOrder: worked.capOrder,
    hoop,
    relaid: files.relaid,
    card: files.card,
    proof: files.proof,
    objectsRelaid: worked.objectsRelaid,
    stitches: worked.stitches,
    minutesEach: plan.cost.parts.machineMinutes,
    costEach,
    priceEach,
    riskNow: plan.riskNow,
    riskWashed: plan.riskWashed,
  };
}

function suppliesReport(
  done: readonly DoneLine[],
  { pricing }: ShopRates,
  catalogue: Catalogue,
): OrderReport['supplies'] {
  // One test for a design on a fabric, however many lines call for it: it is sewn on a scrap.
  const tried = new Set<string>();
  const testsOf = ({ group, worked: { design } }: DoneLine): number => {
    const before = tried.size;
    tried.add(`${group} ${design}`);
    return tried.size - before;
  };
  const supplies = suppliesOf(
    done
      .map((one) => ({ ...one, tests: testsOf(one) }))
      .map(({ line: { quantity }, tests, worked: { plan, cut, threads, bobbinMm } }) => ({
        quantity,
        tests,
        stack: plan.stack,
        topping: plan.topping,
        needle: plan.needle,
        cut,
        threads,
        bobbinMm,
      })),
    pricing,
  );
  const name = (shelf: 'toppings' | 'needles', id: string) => find(catalogue, shelf, id).name;
  return {
    sheets: supplies.sheets.map((one) => ({ ...one, ...sheetToAskFor(one.sheet, catalogue) })),
    toppings: supplies.toppings.map((one) => ({ ...one, toppingName: name('toppings', one.topping) })),
    threads: supplies.threads.map(({ color, lengthMm }) => ({ color, lengthMm: round(lengthMm, 1) })),
    bobbinMm: round(supplies.bobbinMm, 1),
    needles: supplies.needles.map((needle) => ({ needle, needleName: name('needles', needle) })),
  };
}
