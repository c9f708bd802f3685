import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toJson, toJsonLine } from '../../lib/report/to-json.js';
import { csvHeader, toCsvRecords } from '../../lib/report/vet/csv.js';
import { SHOP } from '../built-in-shop.js';
import { anyReport } from './any-report.js';
import { KEY_ORDER, VET_CONTRACT } from './contract.js';
import { littleCrest, Needle } from './little-design.js';

const FILE = { path: 'crest.dst', format: 'dst', bytes: 2048, sha256: 'ab'.repeat(32) } as const;

describe('the vet report', () => {
  it('has the promised shape', () => {
    const { report } = SHOP.vet(littleCrest(), { file: FILE });
    expect(VET_CONTRACT.parse(JSON.parse(toJson(report)))).toEqual(report);
    expect(report.objects.map((o) => o.kind)).toEqual(['satin', 'satin', 'fill']);
    expect(report.file).toEqual(FILE);
  });

  it('keeps its names in the promised order', () => {
    const { report } = SHOP.vet(littleCrest(), { file: FILE });
    expect(Object.keys(report)).toEqual(KEY_ORDER.report);
    expect(Object.keys(report.design)).toEqual(KEY_ORDER.design);
    expect(report.findings.length).toBeGreaterThan(0);
    for (const object of report.objects) expect(Object.keys(object)).toEqual(KEY_ORDER.object);
    for (const finding of report.findings) expect(Object.keys(finding)).toEqual(KEY_ORDER.finding);
  });

  it('says what was sewn', () => {
    const { report } = SHOP.vet(littleCrest(), { file: FILE });
    const [wide, narrow, fill] = report.objects;
    expect(wide.widthMm!.median).toBeCloseTo(5.5, 1);
    expect(wide.spacingMm!.median).toBeCloseTo(0.4, 2);
    expect(narrow.widthMm!.median).toBeCloseTo(2.5, 1);
    expect(narrow.underlay.kinds).toEqual(['center-run']);
    expect(fill.angleDeg).toBeCloseTo(0, 1);
    expect(fill.spacingMm!.median).toBeCloseTo(0.4, 2);
    expect(report.design.colourChanges).toBe(1);
    expect(report.design.widthMm).toBeCloseTo(20, 3);
    expect(fill.block).toBe(2);
  });

  it('rounds to no less than a hundredth of the grid of a stitch file', () => {
    const { report, designMeasures, measures } = SHOP.vet(littleCrest(), { file: FILE });
    expect(Math.abs(report.design.threadMm - designMeasures.threadMm)).toBeLessThanOrEqual(0.0005 + 1e-12);
    report.objects.forEach((object, i) => {
      expect(Math.abs(object.areaMm2 - measures[i].areaMm2)).toBeLessThanOrEqual(0.0005 + 1e-12);
    });
    expect(toJson(report)).not.toMatch(/\d\.\d{4,}/);
  });

  it('reports a design without a stitch, and says so', () => {
    const { report } = SHOP.vet(new Needle().end(), { file: FILE });
    expect(VET_CONTRACT.parse(report)).toEqual(report);
    expect(report.objects).toEqual([]);
    expect(report.findings.map((f) => f.code)).toContain('no-stitches');
  });

  it('changes nothing that it was given', () => {
    const design = littleCrest();
    const before = structuredClone(design);
    SHOP.vet(design, { file: FILE });
    expect(design).toEqual(before);
  });
});

describe('the report as JSON', () => {
  it('parses to the same report, on one line or many', () => {
    fc.assert(
      fc.property(anyReport, (report) => {
        const line = toJsonLine(report);
        expect(JSON.parse(line)).toEqual(report);
        expect(line.trimEnd()).not.toContain('\n');
        expect(JSON.parse(toJson(report))).toEqual(report);
      }),
      { numRuns: 40 },
    );
  });
});

describe('the report as a table', () => {
  it('has one record an object, under one heading', () => {
    const { report } = SHOP.vet(littleCrest(), { file: FILE });
    const rows = parse(csvHeader() + toCsvRecords(report), { columns: true }) as Record<string, string>[];
    expect(rows.map((row) => row.object)).toEqual(['1', '2', '3']);
    expect(rows.map((row) => row.kind)).toEqual(['satin', 'satin', 'fill']);
    expect(rows.every((row) => row.file === 'crest.dst')).toBe(true);
    expect(Number(rows[0].width_median_mm)).toBe(report.objects[0].widthMm!.median);
    expect(rows[2].width_median_mm).toBe('');
    expect(Number(rows[0].design_stitches)).toBe(report.design.stitches);
    const warned = report.findings.filter((f) => f.object === 1 && f.severity === 'warn').length;
    expect(Number(rows[0].warns)).toBe(warned);
  });

  it('has a record even for a file without objects', () => {
    const { report } = SHOP.vet(new Needle().end(), { file: FILE });
    const [row] = parse(csvHeader() + toCsvRecords(report), { columns: true }) as Record<string, string>[];
    expect(row.file).toBe('crest.dst');
    expect(row.object).toBe('');
    expect(row.fails).toBe('');
  });

  it('has the same number of cells in every record, whatever the report', () => {
    fc.assert(
      fc.property(anyReport, (report) => {
        const rows = parse(csvHeader() + toCsvRecords(report)) as string[][];
        expect(rows).toHaveLength(1 + Math.max(1, report.objects.length));
      }),
      { numRuns: 40 },
    );
  });
});
