import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareToText } from '../../lib/report/compare/document.js';
import { compareReports } from '../../lib/report/compare/report.js';
import type { Paint } from '../../lib/report/render/paint.js';
import { displayWidth } from '../../lib/report/render/wrap.js';
import { toText } from '../../lib/report/vet/document.js';
import { SHOP } from '../built-in-shop.js';
import { anyReport } from './any-report.js';
import { littleCrest } from './little-design.js';

const FILE = { path: 'crest.dst', format: 'dst', bytes: 2048, sha256: 'ab'.repeat(32) } as const;
const OPTIONS = { width: 80, units: 'mm' } as const;
// biome-ignore lint/suspicious/noControlCharactersInRegex: that is what must not be there
const CONTROL = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/;

function expectFits(text: string, width: number): void {
  for (const line of text.split('\n')) {
    expect(displayWidth(line)).toBeLessThanOrEqual(width);
    expect(line).not.toMatch(CONTROL);
    expect(line).toBe(line.trimEnd());
  }
  expect(text.endsWith('\n')).toBe(true);
}

describe('the vet report as text', () => {
  it('fits its width and stays free of control characters, whatever the report', () => {
    fc.assert(
      fc.property(
        anyReport,
        fc.integer({ min: 40, max: 80 }),
        fc.constantFrom('mm' as const, 'in' as const),
        fc.boolean(),
        (report, width, units, all) => expectFits(toText(report, { width, units }, all), width),
      ),
      { numRuns: 60 },
    );
  });

  it('begins with the verdict', () => {
    const { report } = SHOP.vet(littleCrest(), { file: FILE });
    const first = (severities: ('fail' | 'warn' | 'note')[]): string => {
      const findings = severities.map((severity) => ({ ...report.findings[0], severity }));
      return toText({ ...report, findings }, OPTIONS).split('\n')[0];
    };
    expect(first([])).toBe('GOOD TO SEW  crest.dst (nothing found)');
    expect(first(['note'])).toBe('GOOD TO SEW  crest.dst (1 note)');
    expect(first(['note', 'warn', 'warn'])).toBe('CHECK FIRST  crest.dst (2 warnings, 1 note)');
    expect(first(['warn', 'fail'])).toBe('DO NOT SEW  crest.dst (1 failure, 1 warning)');
  });

  it('names every kind of finding, and what to do about it', () => {
    const { report } = SHOP.vet(littleCrest(), { file: FILE });
    const text = toText(report, OPTIONS).replace(/\s+/g, ' ');
    expect(report.findings.length).toBeGreaterThan(0);
    for (const { message } of report.findings) {
      expect(text).toContain(message);
    }
  });

  it('lists the objects with failures first, and all of them when asked', () => {
    const { report } = SHOP.vet(littleCrest(), { file: FILE });
    const [base] = report.findings;
    const findings = [
      { ...base, object: 2, severity: 'warn' as const },
      { ...base, object: 3, severity: 'fail' as const },
    ];
    const rows = (text: string): string[] =>
      [...text.matchAll(/^ +(\d+) {2}(?:split satin|satin|fill|run)/gm)].map((m) => m[1]);
    expect(rows(toText({ ...report, findings }, OPTIONS))).toEqual(['3', '2']);
    expect(rows(toText({ ...report, findings }, OPTIONS, true))).toEqual(['1', '2', '3']);
  });

  it('says the same in colour as without', () => {
    const { report } = SHOP.vet(littleCrest(), { file: FILE });
    const dressed = (text: string): string => `«${text}»`;
    const paint: Paint = { fail: dressed, warn: dressed, note: dressed, sound: dressed, strong: dressed };
    const coloured = toText(report, { ...OPTIONS, paint });
    expect(coloured).toContain('«');
    expect(coloured.replace(/[«»]/g, '')).toBe(toText(report, OPTIONS));
  });
});

describe('a comparison as text', () => {
  it('fits its width, whatever is compared', () => {
    fc.assert(
      fc.property(anyReport, anyReport, fc.integer({ min: 40, max: 80 }), (before, after, width) => {
        expectFits(compareToText(compareReports(before, after), { width, units: 'mm' }), width);
      }),
      { numRuns: 40 },
    );
  });
});
