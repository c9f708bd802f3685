/**
 * What the model is off by of itself, from facts that no fit saw on words that no fit saw: `node --import tsx tests/fit/model-error.ts`.
 *
 * Of every word it is worked out by what factor the strains of one setup would have to be larger for a fact to come out in the middle of what the trade
 * says. Over the words the logarithms of that factor have a mean m, by which the model misses the fact, and scatter about it by s. Of the miss the band
 * already holds what fabric, sheets, thread and shop are uncertain by: they move the same factor by v. A word's scatter it holds nothing of, since
 * all words lie on the same fabric. So a fact leaves max(0, m² − v²) + s².
 *
 * - A fact that sets one setup beside another is off by the errors of both: the error of one is half of what is left, on the average of all such facts.
 * - The height of one setup is off by that, and by what all setups of a design have in common: what is left of a name's height less the first.
 */

import { mean, quantile, sampleStandardDeviation } from 'simple-statistics';
import { memoize } from '../../lib/core/memoize.js';
import { Draws } from '../../lib/mechanics/band.js';
import { caseOf } from '../../lib/mechanics/case.js';
import type { StackedSheet } from '../../lib/mechanics/layup.js';
import { MESH_OPTIONS } from '../../lib/mechanics/mesh.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { type PreparedDesign, ROUGH } from '../../lib/mechanics/prepared-design.js';
import { AS_SEWN } from '../../lib/mechanics/puckering.js';
import { levelOf, SolvedSetup } from '../../lib/mechanics/setup.js';
import { WrinkleView } from '../../lib/mechanics/wrinkle-field.js';
import { SHOP } from '../built-in-shop.js';
import type { TestDesign } from '../mechanics/designs.js';
import { BONDED, WOVEN, WOVEN_CROSSED } from '../mechanics/stacks.js';
import { relaidAll } from '../stitch/relaid-all.js';
import { NAME_HEIGHT } from './fit-sewing.js';
import { meshed } from './puckering-of.js';
import { THIN } from './sewing-facts.js';
import { HELD_OUT, type WordPlan, wordOf } from './words.js';

/** Facts with a middle, each by how much flatter than double zigzag over one bonded sheet, %; common practice, no source. */
export const MIDDLES = { fill: 45, woven: 45, both: 84.5 } as const;
/** Names about as high as the fitted one; how high their wrinkles are is our own assumption, as there. */
const ABOUT = { from: 16, to: 22 };

export const COLUMNS = ['fill', 'woven', 'both', 'name'] as const;
export type Column = (typeof COLUMNS)[number];
/** Of every fact a figure; null where a word is no name about as high as the fitted one. */
export type Figures = Readonly<Record<Column, number | null>>;

const prepared = (design: TestDesign): PreparedDesign => {
  const fine = new WrinkleView(meshed(design));
  const rough = new WrinkleView(meshed(design, { ...MESH_OPTIONS, ...ROUGH }));
  const { stitches, objects, thread } = fine.design;
  return { stitches, objects, thread, fine, rough, wantedCellMm: MESH_OPTIONS.cellMm };
};

const CERTAIN = { value: 0, low: 0, high: 0 };
/** The band without the terms that are looked for. */
const WITHOUT = {
  ...PARAMETERS,
  modelError: { ...PARAMETERS.modelError, ...CERTAIN },
  setupError: { ...PARAMETERS.setupError, ...CERTAIN },
};

/** One setup: what its height comes to with its strains larger by a factor, and over the band's draws. */
function looked(design: PreparedDesign, stack: readonly StackedSheet[]) {
  const at = caseOf({ fabric: THIN, stack }, { ...SHOP, parameters: WITHOUT });
  const setup = new SolvedSetup(design, at.layup, at.settings, AS_SEWN);
  const { fine } = design;
  const strains = fine.strains(setup.fine.released.strain);
  return {
    usualMm: setup.fine.heightMm,
    heightAt: (log: number): number => {
      const times = Math.exp(log);
      const larger = strains.map((v) => times * v);
      return fine.seenWhole(fine.heights(larger, setup.law, at.settings.longestSpan));
    },
    draws: () => new Draws(at, setup, WITHOUT).wholeHeights(),
  };
}

/** Farther than this no factor is looked for: seven times. */
const FARTHEST = 2;

/** Where a height that rises comes to `mm`. */
function where(heightAt: (log: number) => number, mm: number): number {
  let [low, high] = [-FARTHEST, FARTHEST];
  for (let k = 0; k < 24; k++) {
    const middle = (low + high) / 2;
    if (heightAt(middle) < mm) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Half of what lies between the tenth and the ninetieth of a hundred: of a normal distribution, one standard deviation. */
const deviation = (values: readonly number[]): number =>
  (quantile([...values], 0.9) - quantile([...values], 0.1)) / 2 / 1.2816;

/** The same figures with rising heights looked up in a table. */
function tabulated(heightAt: (log: number) => number): (log: number) => number {
  const steps = 160;
  const heights = Array.from({ length: steps + 1 }, (_, k) => heightAt(FARTHEST * ((2 * k) / steps - 1)));
  return (log) => {
    const place = Math.min(steps, Math.max(0, ((log / FARTHEST + 1) * steps) / 2));
    const k = Math.min(steps - 1, Math.floor(place));
    return heights[k] + (place - k) * (heights[k + 1] - heights[k]);
  };
}

/** What each fact lies on; a name by itself on what all others are set beside. */
const STACKS = { fill: BONDED, woven: WOVEN, both: WOVEN_CROSSED, name: BONDED } as const;

/** Setups of a word, each solved when it is asked for. */
function setupsOf(plan: WordPlan) {
  const double = wordOf(plan, 'double-zigzag');
  const over = memoize((underlay: 'own' | 'fill') =>
    prepared(underlay === 'own' ? double : relaidAll(double, 'fill')),
  );
  const isName = plan.heightMm >= ABOUT.from && plan.heightMm <= ABOUT.to;
  return {
    columns: COLUMNS.filter((column) => column !== 'name' || isName),
    of: memoize((column: Column) =>
      looked(over(column === 'fill' || column === 'both' ? 'fill' : 'own'), STACKS[column]),
    ),
  };
}

/** Logarithm of the factor by which strains would have to be larger. */
export function missingOf(plan: WordPlan, column: Column, { columns, of } = setupsOf(plan)): number | null {
  if (!columns.includes(column)) return null;
  const { heightAt } = of(column);
  return where(heightAt, column === 'name' ? NAME_HEIGHT : (1 - MIDDLES[column] / 100) * of('name').usualMm);
}

/** By how much the band moves that, one standard deviation. */
function heldOf(column: Column, { columns, of }: ReturnType<typeof setupsOf>): number | null {
  if (!columns.includes(column)) return null;
  const { heightAt, draws } = of(column);
  const base = of('name');
  const heights = tabulated(heightAt);
  const beside = base.draws();
  return deviation(
    Array.from(draws(), (mm, k) =>
      where(heights, column === 'name' ? mm : levelOf(mm, beside[k]) * base.usualMm),
    ),
  );
}

/** Of every word what is missing, and of every fact what the band holds of it, the mean over the words. */
export interface ErrorTable {
  readonly missing: readonly (readonly [word: string, missing: Figures])[];
  readonly held: Figures;
}

export function errorTable(): ErrorTable {
  const all = HELD_OUT.map((plan) => {
    const setups = setupsOf(plan);
    return {
      word: plan.text,
      missing: forEach((column) => missingOf(plan, column, setups)),
      held: forEach((column) => heldOf(column, setups)),
    };
  });
  return {
    missing: all.map(({ word, missing }) => [word, missing]),
    held: forEach((column) => mean(all.map(({ held }) => held[column]).filter((v) => v !== null))),
  };
}

const forEach = (of: (column: Column) => number | null): Figures =>
  Object.fromEntries(COLUMNS.map((column) => [column, of(column)])) as Figures;

/** By how much a fact is missed, how that scatters over the words, what the band holds of it, and the square of what is left. */
function leftOf({ missing, held }: ErrorTable, column: Column) {
  const values = missing.map(([, figures]) => figures[column]).filter((value) => value !== null);
  const miss = mean(values);
  const scatter = sampleStandardDeviation(values);
  return { miss, scatter, left: Math.max(0, miss ** 2 - held[column]! ** 2) + scatter ** 2 };
}

export function modelErrors(table: ErrorTable): { setupError: number; modelError: number } {
  const beside = mean(COLUMNS.filter((column) => column !== 'name').map((c) => leftOf(table, c).left)) / 2;
  const alone = leftOf(table, 'name').left;
  return { setupError: Math.sqrt(beside), modelError: Math.sqrt(Math.max(0, alone - beside)) };
}

/** A row of the table in Markdown. */
export const rowOf = (name: string, figures: Figures): string =>
  `| ${[name, ...COLUMNS.map((column) => cellOf(figures[column]))].join(' | ')} |`;
export const cellOf = (value: number | null): string => value?.toFixed(2).replace('-0.00', '0.00') ?? '';

/** All of it: words, what the band holds, and what comes of them. */
export const tableRows = (table: ErrorTable): string[] => [
  ...table.missing.map(([word, missing]) => rowOf(word, missing)),
  rowOf('*held by the band*', table.held),
  rowOf(
    '*mean over the words*',
    forEach((column) => leftOf(table, column).miss),
  ),
  rowOf(
    '*scatter over the words*',
    forEach((column) => leftOf(table, column).scatter),
  ),
  rowOf(
    '*left*',
    forEach((column) => Math.sqrt(leftOf(table, column).left)),
  ),
];

/** The table as its rows have it. */
export function readTable(rows: readonly string[]): ErrorTable {
  const read = rows.map((row): [string, Figures] => {
    const [word, ...cells] = row.slice(2, -2).split(' | ');
    const figure = (column: Column) => cells[COLUMNS.indexOf(column)].trim();
    return [word, forEach((column) => (figure(column) === '' ? null : Number(figure(column))))];
  });
  return { missing: read.slice(0, HELD_OUT.length), held: read[HELD_OUT.length][1] };
}

if (process.argv[1] === import.meta.filename) {
  const table = errorTable();
  console.log(tableRows(table).join('\n'));
  const { setupError, modelError } = modelErrors(table);
  console.log(`setupError ${setupError.toFixed(3)}, modelError ${modelError.toFixed(3)}`);
}
