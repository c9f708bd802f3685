/** The table in the mechanics' paper of what the trade says (common practice, no source) beside what the model makes of it. */
import { describe, expect, it } from 'vitest';
import { IN_FULL } from '../in-full.js';
import { paperAt } from '../papers.js';
import { columnFacts, rowOf, sewingFacts, WORD_FACTS, wordFigures } from './sewing-facts.js';
import { HELD_OUT } from './words.js';

const PAPER = paperAt('lib/mechanics/README.md').text;
const TABLE = PAPER.slice(PAPER.indexOf('| what the trade says |')).split('\n\n', 1)[0];
const ROWS = TABLE.split('\n').slice(2);
/** Nineteen solves a word take minutes, and a flag some seconds: that a fill is flatter than a name is among the trends. */

describe('the list of facts', () => {
  it('has the columns as they come out now', () => {
    for (const fact of columnFacts()) expect(ROWS).toContain(rowOf(fact));
  });

  it.skipIf(!IN_FULL)('is what comes out now, failures included', () => {
    expect(ROWS).toEqual(sewingFacts(HELD_OUT.map((plan) => wordFigures(plan))).map(rowOf));
  });

  it('has every fact on words in its own words and order', () => {
    const cells = ROWS.slice(2, -1).map((row) => row.split(' | '));
    expect(cells.map(([name, limits]) => [name.slice(2), limits])).toEqual(
      WORD_FACTS.map(({ name, limits }) => [name, limits]),
    );
  });

  it('says in words how many of them fail, and the README as well', () => {
    const failing = ROWS.filter((row) => row.endsWith('| **fails** |')).length;
    const words = ['none', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight'];
    expect(PAPER).toContain(`Why ${words[failing]} fail:`);
    const told = paperAt('README.md').text.replace(/\s+/g, ' ');
    expect(told).toContain(`Of ${ROWS.length} facts of the trade`);
    expect(told).toContain(
      `${ROWS.length - failing} come out right; [all of them, and why ${words[failing]} fail]`,
    );
  });
});
