import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvRecord } from '../../lib/report/csv.js';

describe('comma-separated records', () => {
  // RFC 4180, section 2: CRLF ends a record; fields with commas, quotes or line ends are quoted, quotes doubled.
  it('quotes as RFC 4180 says', () => {
    expect(csvRecord(['a', 'b,c', 'say "hi"', 1.5, null, true])).toBe('a,"b,c","say ""hi""",1.5,,yes\r\n');
  });

  // The characters that spreadsheets take for a formula: OWASP, "CSV Injection".
  it('keeps a spreadsheet from running a name as a formula', () => {
    for (const sign of ['=', '+', '-', '@', '\t=', '\r=', ' =', '＝']) {
      const [[cell]] = parse(csvRecord([`${sign}1+1`])) as string[][];
      expect(cell.startsWith("'")).toBe(!/^[\t\r]/.test(sign));
      expect(cell).not.toMatch(/^[\s=+\-@＝]/);
    }
  });

  it('leaves negative numbers numbers', () => {
    expect(csvRecord([-1.5])).toBe('-1.5\r\n');
  });

  it('reads back as it was written, in the eyes of another reader', () => {
    const text = fc.string({
      unit: fc.constantFrom('a', ',', '"', ' ', ';', '\n', '\r', 'é', '='),
      minLength: 1,
    });
    fc.assert(
      fc.property(fc.array(text, { minLength: 2, maxLength: 5 }), (cells) => {
        const [back] = parse(csvRecord(cells), { relax_column_count: true }) as string[][];
        expect(back).toHaveLength(cells.length);
        back.forEach((cell, i) => {
          const plain = cell.replace(/\\x0a/g, '\n').replace(/\\x0d/g, '\r').replace(/^'/, '');
          expect(plain).toBe(cells[i]);
        });
      }),
    );
  });
});
