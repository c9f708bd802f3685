import { describe, expect, it } from 'vitest';
import { Break, type Stitches } from '../../lib/format/stitches.js';
import { drawDesign } from '../../lib/report/draw.js';
import { wordsFor } from '../../lib/report/phrases/words.js';
import { MOST_DRAWN } from '../../lib/report/stitch-path.js';
import { toJson, toJsonLine } from '../../lib/report/to-json.js';
import { vetPage } from '../../lib/report/vet/page.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { SHOP } from '../built-in-shop.js';
import { littleCrest } from './little-design.js';
import { FILE } from './on-fabric.js';

const crest = SHOP.vet(littleCrest(), { file: FILE });

/** Stitches up and down a line, cut after every tenth. */
function manyStitches(count: number): Stitches {
  return {
    count,
    x: Float64Array.from({ length: count }, (_, i) => (i % 1000) / 10),
    y: Float64Array.from({ length: count }, (_, i) => (i % 2) * 9),
    breakBefore: Uint8Array.from({ length: count }, (_, i) => (i % 10 === 0 ? Break.trim : Break.none)),
    block: new Uint16Array(count),
    record: Int32Array.from({ length: count }, (_, i) => i),
  };
}

/** The report of the little crest, its objects and findings told over and over. */
function manyObjects(count: number): VetReport {
  const objects = Array.from({ length: count }, (_, i) => ({ ...crest.report.objects[i % 3], id: i + 1 }));
  const findings = objects.map(({ id, bounds }) => ({
    ...crest.report.findings[0],
    object: id,
    at: { x: (id % 1000) * 3, y: bounds.minY + id / 100 },
  }));
  return { ...crest.report, objects, findings };
}

const rowsOf = (page: string, table: string): number => {
  const from = page.indexOf(`id="design-1-${table}"`);
  return page.slice(from, page.indexOf('</table>', from)).split('<tr>').length - 2;
};

describe('a design larger than anyone sews', () => {
  it('makes a page that still opens: lists end with how many more there are', () => {
    const report = manyObjects(60_000);
    // One that matters most of all, near the end.
    report.findings[59_000] = { ...report.findings[59_000], severity: 'fail' };
    const page = vetPage([{ report, stitches: crest.stitches }], { units: 'mm' });
    expect(page.length).toBeLessThan(8e6);
    expect(rowsOf(page, 'objects')).toBe(2000);
    expect(page).toContain('<p>and 58,000 others</p>');
    // What was found is told by kind: however many there are, two entries.
    expect(page.match(/<div class="entry-mark">/g)).toHaveLength(2);
    expect(page).toContain('>59001</th>');
  });

  it('lists everything where it is no more than a person reads', () => {
    const page = vetPage([{ report: manyObjects(2000), stitches: crest.stitches }], { units: 'mm' });
    expect(rowsOf(page, 'objects')).toBe(2000);
    expect(page).not.toMatch(/<p>and [\d,]+ others<\/p>\n<\/section>\n<\/div>/);
  });

  it('makes pictures that still open, and says that they are not whole', async () => {
    const stitches = manyStitches(MOST_DRAWN + 1234);
    const measures = crest.measures.map((m) => m.toJSON());
    for (const first of [MOST_DRAWN - 20, MOST_DRAWN + 10])
      measures.push({ ...measures[0], object: { ...measures[0].object, range: [first, first + 9] } });
    for (const by of ['object', 'density'] as const) {
      const svg = await drawDesign({ ...crest, stitches, measures }, { by, title: 'x', units: 'mm' });
      expect(svg.length).toBeLessThan(8 * MOST_DRAWN);
      expect(svg).toContain('only the first 500,000 stitches are drawn; 1,234 more are not');
      expect(svg).not.toContain('d=""');
    }
    const page = vetPage([{ report: crest.report, stitches }], { units: 'mm' });
    expect(page.length).toBeLessThan(8 * MOST_DRAWN);
    expect(page).toContain('Not whole: only the first 500,000 stitches are drawn; 1,234 more are not.');
    const whole = await drawDesign(crest, { by: 'object', title: 'x', units: 'mm' });
    expect(whole).not.toContain('are drawn');
  });

  it('does not read out a thousand numbers', () => {
    const odd = Array.from({ length: 1000 }, (_, i) => 2 * i + 1);
    const { advice } = wordsFor({ units: 'mm', detail: 'full' });
    expect(advice.locks({ objects: odd })).toMatch(/of objects 1, 3, .*, 79 and 960 more starts/);
    expect(advice.locks({ objects: odd.map((_, i) => i + 1) })).toContain('of objects 1 to 1000 starts');
  });

  it('is one clear error where JSON cannot hold it', () => {
    // What an engine throws for a text past its longest; making one would take a gigabyte.
    const endless = {
      toJSON() {
        throw new RangeError('Invalid string length');
      },
    };
    for (const set of [toJson, toJsonLine])
      expect(() => set(endless)).toThrow(
        expect.objectContaining({ code: 'too-large', name: 'LieflatError' }),
      );
    const broken = {
      toJSON() {
        throw new TypeError('a bug');
      },
    };
    expect(() => toJson(broken)).toThrow(TypeError);
  });
});
