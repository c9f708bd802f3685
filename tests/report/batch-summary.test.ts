import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { batchSummaryToText } from '../../lib/report/batch/document.js';
import { batchSummaryPage } from '../../lib/report/batch/page.js';
import { BatchTally, digestOf } from '../../lib/report/batch/report.js';
import { countToText } from '../../lib/report/batch/triage.js';
import { displayWidth } from '../../lib/report/render/wrap.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { anyReport, WENT_WRONG } from './any-report.js';

const summaryOf = (reports: readonly VetReport[]) => {
  const tally = new BatchTally();
  for (const report of reports) tally.add(digestOf(report));
  return tally.summary();
};

const several = fc.array(anyReport, { maxLength: 14 });

describe('the summary of a batch', () => {
  it('is the same in whatever order the reports come', () => {
    fc.assert(
      fc.property(several, (reports) => {
        expect(summaryOf(reports.toReversed())).toEqual(summaryOf(reports));
      }),
      { numRuns: 40 },
    );
  });

  it('counts every file, finding, column and area once', () => {
    fc.assert(
      fc.property(several, (reports) => {
        const { files, findings, worst, columnWidthMm, densityPerMm2 } = summaryOf(reports);
        expect(files.vetted).toBe(reports.length);
        expect(files.sound + files.warn + files.fail).toBe(reports.length);
        expect(files.fail).toBe(
          reports.filter((r) => r.findings.some(({ severity }) => severity === 'fail')).length,
        );
        const all = reports.flatMap((r) => r.findings);
        expect(findings.reduce((sum, { times }) => sum + times, 0)).toBe(all.length);
        for (const { code, severity, files: inFiles, times } of findings) {
          const same = (f: { code: string; severity: string }) => f.code === code && f.severity === severity;
          expect(times).toBe(all.filter(same).length);
          expect(inFiles).toBe(reports.filter((r) => r.findings.some(same)).length);
        }
        const sum = (counts: readonly number[]) => counts.reduce((a, b) => a + b, 0);
        const objects = reports.flatMap((r) => r.objects);
        expect(sum(columnWidthMm.counts)).toBe(
          objects.filter((o) => o.kind === 'satin' && o.widthMm !== null).length,
        );
        expect(sum(densityPerMm2.counts)).toBe(objects.filter((o) => o.kind !== 'run').length);
        const fails = worst.map(({ found }) => found.fail);
        expect(fails).toEqual(fails.toSorted((a, b) => b - a));
        expect(worst.length).toBe(Math.min(10, files.fail + files.warn));
      }),
      { numRuns: 40 },
    );
  });

  it('puts a column of 4.2 mm into the step from 4 to 5, and one past the last step into the last', () => {
    const base = fc.sample(anyReport, { numRuns: 20, seed: 1 }).find((r) => r.objects.length > 0)!;
    const [object] = base.objects;
    const width = (mm: number) => ({ min: mm, median: mm, p95: mm, max: mm });
    const report = {
      ...base,
      objects: [4.2, 5, 40].map((mm) => ({
        ...object,
        kind: 'satin' as const,
        widthMm: width(mm),
        densityPerMm2: 1.2,
      })),
    };
    const { columnWidthMm, densityPerMm2 } = summaryOf([report]);
    expect(columnWidthMm.counts).toEqual([0, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0, 0, 1]);
    expect(densityPerMm2.counts.indexOf(3)).toBe(2);
    const text = batchSummaryToText(summaryOf([report]), { width: 60, units: 'mm' });
    expect(text).toMatch(/ {2}4 to 5 {2}1 {2}#+\n/);
    expect(text).toMatch(/12 and more {2}1 {2}#+\n/);
  });

  it('fits the width as text, and says nothing raw', () => {
    fc.assert(
      fc.property(several, fc.integer({ min: 40, max: 100 }), (reports, width) => {
        const text = batchSummaryToText(summaryOf(reports), { width, units: 'in' });
        for (const line of text.split('\n').slice(0, -2))
          expect(displayWidth(line)).toBeLessThanOrEqual(width);
        // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be there
        expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
        expect(text).not.toMatch(WENT_WRONG);
      }),
      { numRuns: 40 },
    );
  });

  it('is sound markup as a page, its charts told in words as well', () => {
    fc.assert(
      fc.property(several, (reports) => {
        const summary = summaryOf(reports);
        const page = batchSummaryPage(summary, 'mm');
        const body = page.slice(0, page.indexOf('<script>'));
        expect(body).not.toMatch(WENT_WRONG);
        const charts = body.match(/<svg [^>]*role="img"[^>]*aria-label="[^"]+"/g) ?? [];
        const drawn = [summary.columnWidthMm, summary.densityPerMm2].filter(({ counts }) =>
          counts.some((n) => n > 0),
        );
        expect(charts).toHaveLength(drawn.length);
      }),
      { numRuns: 20 },
    );
  });

  it('counts in its last line what was not read and what was passed over', () => {
    const tally = new BatchTally();
    tally.addOthers({ unread: 2, skipped: 3 });
    tally.addEndings(
      new Map([
        ['.txt', 1],
        ['.pdf', 12],
      ]),
    );
    expect(countToText(tally.summary(), { width: 80, units: 'mm' })).toBe(
      'Left alone, as only .dst and .csv are read: 12 .pdf and 1 .txt.\n\n5 files: 2 not read, 3 checked before\n',
    );
  });
});
