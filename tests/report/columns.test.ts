import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { columnsToText } from '../../lib/report/columns/document.js';
import { columnsCsvHeader, columnsReport, columnsToCsvRecords } from '../../lib/report/columns/report.js';
import { displayWidth } from '../../lib/report/render/wrap.js';
import { SHOP } from '../built-in-shop.js';
import { littleCrest, Needle } from './little-design.js';

const FILE = { path: 'name.dst', format: 'dst', bytes: 1, sha256: '00'.repeat(32) } as const;
const WIDTHS = [2.5, 6, 4, 8, 3.2];

function strokes(): Needle {
  const needle = new Needle();
  WIDTHS.forEach((width, i) => {
    needle.column(i * 12, 0, { width, underlay: i % 2 ? 'zigzag' : 'center-run' });
  });
  return needle;
}

describe('the list of satin columns', () => {
  it('puts the widest first and leaves out what is no satin', () => {
    const list = columnsReport(SHOP.vet(strokes().fill(0, 40).end(), { file: FILE }));
    expect(list.columns.map((c) => c.object)).toEqual([4, 2, 3, 5, 1]);
    list.columns.forEach((c) => {
      expect(c.widthMm.median).toBeCloseTo(WIDTHS[c.object - 1], 1);
      expect(c.spacingMm!.median).toBeCloseTo(0.4, 2);
    });
    expect(list.columns[0].at.x).toBeGreaterThanOrEqual(36);
    expect(list.columns[0].at.x).toBeLessThanOrEqual(44);
  });

  it('keeps to columns wider than asked for', () => {
    const list = columnsReport(SHOP.vet(strokes().end(), { file: FILE }), 3.5);
    expect(list.columns.map((c) => c.object)).toEqual([4, 2, 3]);
    expect(list.overMm).toBe(3.5);
  });

  it('marks wide columns over a zigzag, and no others', () => {
    const list = columnsReport(SHOP.vet(strokes().end(), { file: FILE }));
    expect(list.columns.filter((c) => c.lighterUnderlay).map((c) => c.object)).toEqual([4, 2]);
    expect(list.columns[0].lighterUnderlay!.basis).not.toBe('');
  });

  it('reads as text and as a table', () => {
    const list = columnsReport(
      SHOP.vet(strokes().end(), { file: { ...FILE, path: `${'long '.repeat(40)}.dst` } }),
    );
    const text = columnsToText(list, { width: 80, units: 'in' });
    for (const line of text.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(80);
    // 8 mm is 0.315 in.
    expect(text).toMatch(/^ +4 +0\.315 /m);
    const rows = parse(columnsCsvHeader() + columnsToCsvRecords(list), { columns: true }) as Record<
      string,
      string
    >[];
    expect(rows.map((row) => row.object)).toEqual(['4', '2', '3', '5', '1']);
    expect(rows.map((row) => row.lighter_underlay)).toEqual(['yes', 'yes', 'no', 'no', 'no']);
  });

  it('tells a wide column without underlay from one that needs none lighter', () => {
    const needle = new Needle()
      .column(0, 0, { width: 6 })
      .column(12, 0, { width: 6, underlay: 'center-run' });
    const list = columnsReport(SHOP.vet(needle.end(), { file: FILE }));
    expect(list.columns.map(({ missingUnderlay }) => missingUnderlay !== null)).toEqual([true, false]);
    const text = columnsToText(list, { width: 80, units: 'mm' });
    expect(text).toMatch(/^name\.dst: 2 satin columns, 1 wide one has no underlay$/m);
    expect(text).toMatch(/^ +1 .* none +NO UNDERLAY$/m);
    expect(text).toMatch(/^ +2 .* center run +no$/m);
    expect(text).toMatch(/^ {2}NO UNDERLAY +Satin column 6 mm \(0\.24 in\) wide with no underlay/m);
    expect(columnsToText(list, { width: 80, units: 'in' })).toContain('Satin column 0.24 in (6 mm) wide');
  });

  it('says so where there are none', () => {
    const list = columnsReport(SHOP.vet(littleCrest(), { file: FILE }), 20);
    expect(columnsToText(list, { width: 80, units: 'mm' })).toBe(
      'name.dst: 0 satin columns wider than 20 mm (0.79 in)\n',
    );
  });
});
