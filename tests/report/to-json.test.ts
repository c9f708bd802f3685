import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { jsonPieces, toJson, toJsonLine } from '../../lib/report/to-json.js';
import { vetReportInParts } from '../../lib/report/vet/build.js';
import { csvHeader, csvPieces, toCsvRecords } from '../../lib/report/vet/csv.js';
import { SHOP } from '../built-in-shop.js';
import { littleCrest } from './little-design.js';

const FILE = { path: 'a \u202e"\n\udcff.dst', format: 'dst', bytes: 1, sha256: '00' } as const;

/** What is made as it is gone through. */
function* counted(to: number): Generator<object> {
  for (let n = 0; n < to; n++) yield { n, text: `line\n${n} \u0007`, inner: [{}, []] };
}

describe('JSON in pieces', () => {
  it.each([
    {},
    { one: 1 },
    { list: [], none: null, left: undefined, 'a "name"\n': 'x\u2028y\nz' },
    { before: { deep: [{ a: [1, [2]] }, []] }, list: [1, 'two', null, [3], { four: {} }], after: [] },
    { flat: [[], {}, ''] },
  ])('is the JSON of the whole: %j', (value) => {
    expect([...jsonPieces(value, 0)].join('')).toBe(toJsonLine(value));
    expect([...jsonPieces(value, 2)].join('')).toBe(toJson(value));
  });

  it('writes lists that are made on the way, and holds no more than a piece', () => {
    const pieces = [...jsonPieces({ head: 1, long: counted(9000), tail: [2] }, 2)];
    expect(pieces.join('')).toBe(toJson({ head: 1, long: [...counted(9000)], tail: [2] }));
    expect(pieces.length).toBeGreaterThan(9);
    for (const piece of pieces) expect(piece.length).toBeLessThan(70_000);
  });

  it('is asked for an element only once what stands before it is taken', () => {
    let asked = 0;
    function* watched(): Generator<string> {
      for (; asked < 1000; ) {
        asked++;
        yield 'x'.repeat(1000);
      }
    }
    jsonPieces({ list: watched() }, 0).next();
    expect(asked).toBeLessThan(70);
  });

  it('gives the vet report as it is when it is held as a whole', () => {
    const { report, designMeasures, measures, findings } = SHOP.vet(littleCrest(), { file: FILE });
    const parts = vetReportInParts(FILE, designMeasures, measures, findings);
    for (let again = 0; again < 2; again++) expect([...jsonPieces(parts, 2)].join('')).toBe(toJson(report));
    expect([...csvPieces(parts)].join('')).toBe(toCsvRecords(report));
  });

  it('gives a long table in pieces, too, and the counts of what was found', () => {
    const { report } = SHOP.vet(littleCrest(), { file: FILE });
    const objects = Array.from({ length: 3000 }, (_, i) => ({ ...report.objects[0], id: i + 1 }));
    const findings = [7, 7, 2999].map((object) => ({
      ...report.findings[0],
      severity: 'warn' as const,
      object,
    }));
    const pieces = [...csvPieces({ ...report, objects, findings })];
    expect(pieces.length).toBeGreaterThan(3);
    const rows = parse(csvHeader() + pieces.join(''), { columns: true }) as Record<string, string>[];
    expect(rows).toHaveLength(3000);
    const found = rows.filter(({ warns }) => warns !== '0').map(({ object, warns }) => [object, warns]);
    expect(found).toEqual([
      ['7', '2'],
      ['2999', '1'],
    ]);
    for (const { design_warns: all, fails } of rows) expect([all, fails]).toEqual(['3', '0']);
  });
});
