/** What the model is off by of itself: the table in the mechanics' README, and the two terms of the band that come of it. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { IN_FULL, itInFull } from '../in-full.js';
import { COLUMNS, cellOf, errorTable, missingOf, modelErrors, readTable, tableRows } from './model-error.js';
import { HELD_OUT } from './words.js';

const README = readFileSync(new URL('../../lib/mechanics/README.md', import.meta.url), 'utf8');
const ROWS = README.slice(README.indexOf('| word |')).split('\n\n', 1)[0].split('\n').slice(2);
/** Four solves with their bands a word take minutes. */

describe("the table of the model's own error", () => {
  it('is summed up as it says, and gives the two terms of the band', () => {
    const table = readTable(ROWS);
    expect(table.missing.map(([word]) => word)).toEqual(HELD_OUT.map(({ text }) => text));
    const { setupError, modelError } = modelErrors(table);
    expect(PARAMETERS.setupError.value).toBeCloseTo(setupError, 2);
    expect(PARAMETERS.modelError.value).toBeCloseTo(modelError, 2);
    const inNumbers = (rows: readonly string[]) =>
      rows.flatMap((row) => row.split(' | ').slice(1).map(Number.parseFloat));
    const [told, found] = [ROWS, tableRows(table)].map((rows) => inNumbers(rows.slice(HELD_OUT.length)));
    // The last figure of a sum of rounded ones.
    told.forEach((value, k) => {
      if (!Number.isNaN(value)) expect(found[k]).toBeCloseTo(value, 2);
    });
  });

  itInFull('has a word beside one woven sheet as it comes out now', () => {
    const [vega] = HELD_OUT.filter(({ text }) => text === 'VEGA');
    const [row] = ROWS.filter((one) => one.startsWith('| VEGA |'));
    expect(row.split(' | ')[1 + COLUMNS.indexOf('woven')]).toBe(cellOf(missingOf(vega, 'woven')));
  });

  it.skipIf(!IN_FULL)('is what comes out now', () => {
    expect(ROWS).toEqual(tableRows(errorTable()));
  });
});
