import { describe, expect, it } from 'vitest';
import { wordsFor } from '../../lib/report/phrases/words.js';
import { type CompensationReport, compensationReport } from '../../lib/report/relay/compensation.js';
import { compensationSection } from '../../lib/report/relay/compensation-section.js';
import { blocksAsText } from '../../lib/report/render/text.js';
import type { ConditionsReport } from '../../lib/report/vet/report.js';

const conditions = {
  fabric: 'twill',
  fabricName: 'twill',
  stackName: 'one sheet',
  stackGiven: true,
} as ConditionsReport;

const object = (id: number, added: number): CompensationReport['objects'][number] => ({
  object: id,
  alongMm: [added, 0],
  acrossMm: [0, 0],
  drawnMm: 4,
  sewnMm: { before: 4 - added, after: 3.98 },
});

const said = (report: CompensationReport, units: 'mm' | 'in' = 'mm') =>
  blocksAsText(compensationSection(report, conditions, wordsFor({ units, detail: 'full' })), {
    width: 80,
  }).split('\n');

describe('pull compensation in words', () => {
  it('says how near the width drawn it comes out, and lists those drawn out most, in sewing order', () => {
    const objects = Array.from({ length: 14 }, (_, k) => object(k + 1, k === 13 ? 0.3 : 0.1));
    const lines = said({ objects, left: [], proof: [] });
    const text = lines.join(' ').replace(/\s+/g, ' ');
    expect(text).toContain(
      'These come out within 0.02 mm of the width in the file, on twill, over one sheet.',
    );
    expect(text).toContain('Without it they come out up to 0.30 mm narrower.');
    expect(text).toContain('14 4.00 3.70 3.98 0.30');
    expect(text).toContain('and 2 others by 0.10 mm or less');
    expect(lines.filter((line) => /^ +\d+ +4\.00/.test(line))).toHaveLength(12);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('has no row for an object of which the ends alone move, and names what was left and why', () => {
    const across = { ...object(1, 0), acrossMm: [0.1, 0] as [number, number] };
    const left = compensationReport({
      bytes: new Uint8Array(0),
      design: null as never,
      objects: [],
      left: new Map([
        [5, 'foam'],
        [3, 'foam'],
      ]),
      proofs: [],
      failed: new Map(),
    }).left;
    const text = said({ objects: [object(2, 0.2), across], left, proof: [] })
      .join(' ')
      .replace(/\s+/g, ' ');
    expect(text).not.toMatch(/ 1 4\.00/);
    expect(text).toContain('objects 3 and 5: the foam beneath it');
  });
});
