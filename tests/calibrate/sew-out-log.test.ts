import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LOG_COLUMNS, RULER_COLUMNS } from '../../lib/calibrate/log-columns.js';
import { readSewOutLog } from '../../lib/calibrate/sew-out-log.js';
import { readUnderlay, underlayText } from '../../lib/calibrate/underlay-text.js';
import { LieflatError } from '../../lib/core/errors.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { rowFaultReport } from '../../lib/report/calibrate/faults.js';
import { recordLines } from '../../lib/report/card/record.js';
import { LAID_UNDERLAYS } from '../../lib/stitch/laid-underlay.js';

const bytes = (text: string) => new TextEncoder().encode(text);
const read = (text: string) => readSewOutLog(bytes(text), CATALOGUE);
const HEAD = LOG_COLUMNS.join(',');

describe('the log of sew-outs', () => {
  it('takes what the card of the operator prints, filled in', async () => {
    const [head, line] = recordLines({
      file: 'name, left.dst',
      fabric: 'performance-knit',
      stackText: 'woven-polyester+woven-polyester@45',
      underlay: [
        { object: 1, to: 'fill' },
        { object: 9, to: 'edge-run' },
        { object: 2, to: 'fill' },
      ],
    });
    const { rows, faults } = await read(`${head}\r\n${line.replace(/,,,$/, ',8,3.5,"soft, a little"')}\r\n`);
    expect(faults).toEqual([]);
    expect(rows).toEqual([
      {
        line: 2,
        file: 'name, left.dst',
        fabric: 'performance-knit',
        stack: [
          { sheet: 'woven-polyester', angleDeg: 0 },
          { sheet: 'woven-polyester', angleDeg: 45 },
        ],
        stackText: 'woven-polyester+woven-polyester@45',
        underlay: [
          { object: 1, to: 'fill' },
          { object: 2, to: 'fill' },
          { object: 9, to: 'edge-run' },
        ],
        underlayText: 'fill:1 2;edge-run:9',
        washes: 8,
        grade: 3.5,
        width: null,
        remarks: 'soft, a little',
      },
    ]);
  });

  it.each([
    ['semicolons and decimal commas', 'file;fabric;stack;grade\nn.dst;pique-knit;none;4,5\n'],
    ['tabs', 'file\tfabric\tstack\tgrade\nn.dst\tpique-knit\tnone\t4,5\n'],
    ['a byte order mark and CRLF', '\ufefffile,fabric,stack,grade\r\nn.dst,pique-knit,none,4.5\r\n'],
    ['lone CR', 'file,fabric,stack,grade\rn.dst,pique-knit,none,4.5\r'],
    [
      'another order, capitals and further columns',
      'Grade , date,STACK,File,Fabric\n4.5,3 May,None,n.dst,Pique-Knit\n',
    ],
    ['blank lines and no line end', '\n\nfile,fabric,stack,grade\n\n,,,\nn.dst,pique-knit,none,4.5'],
    [
      'quotes, and a decimal comma in them',
      '"file","fabric","stack","grade"\n"n.dst","pique-knit","none","4,5"\n',
    ],
    ['an inch mark', 'file,fabric,stack,grade,remarks\nn.dst,pique-knit,none,4.5,letters 1" high\n'],
  ])('takes %s', async (_, text) => {
    const { rows, faults } = await read(text);
    expect(faults).toEqual([]);
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({
      file: 'n.dst',
      fabric: 'pique-knit',
      stackText: 'none',
      washes: 0,
      grade: 4.5,
    });
    expect(rows[0].underlayText).toBe('as-is');
  });

  it('takes UTF-16, and a name that was kept from being a formula', async () => {
    const text = `\ufeff${HEAD}\n'=n.dst,poplin,none,as-is,0,4,\n`;
    const utf16 = new Uint8Array(Buffer.from(text, 'utf16le'));
    const { rows } = await readSewOutLog(utf16, CATALOGUE);
    expect(rows).toMatchObject([{ file: '=n.dst', fabric: 'poplin' }]);
  });

  it('keeps sew-outs that were graded twice, and sets those aside that were not graded', async () => {
    const row = 'n.dst,poplin,none,as-is,0,4,';
    const { rows, ungraded } = await read(
      `${HEAD}\n${row}\n${row}\nn.dst,poplin,none,as-is,8,,in the wash\n`,
    );
    expect(rows.map(({ line }) => line)).toEqual([2, 3]);
    expect(ungraded).toEqual([4]);
  });

  it('takes widths by a ruler beside grades and alone', async () => {
    const { rows, faults, ungraded } = await read(
      [
        'object;width_mm;file;fabric;stack;grade',
        '5;4,6;n.dst;poplin;none;4',
        '12;3.85;n.dst;poplin;none;',
        '7;;n.dst;poplin;none;',
        ';;n.dst;poplin;none;4',
      ].join('\n'),
    );
    expect(faults).toEqual([]);
    expect(rows.map(({ line, grade, width }) => [line, grade, width])).toEqual([
      [2, 4, { object: 5, widthMm: 4.6 }],
      [3, null, { object: 12, widthMm: 3.85 }],
      [5, 4, null],
    ]);
    expect(ungraded).toEqual([4]);
    expect((await read('file,fabric,stack,object,width_mm\nn.dst,poplin,none,5,4.6\n')).rows).toHaveLength(1);
  });

  it.each([
    ['5,wide', 'width_mm cannot be "wide"', 'in millimeters'],
    ['5,4.6 mm', 'width_mm cannot be "4.6 mm"', 'in millimeters'],
    ['5,0', 'width_mm cannot be "0"', 'in millimeters'],
    ['5,-3', 'width_mm cannot be "-3"', 'in millimeters'],
    ['5,900', 'width_mm cannot be "900"', 'in millimeters'],
    [',4.6', 'width_mm has no object', 'vet --objects'],
    ['left A,4.6', 'the object cannot be "left A"', 'vet --objects'],
    ['0,4.6', 'the object cannot be "0"', 'vet --objects'],
    ['5,4.6,3', 'after 3 washes', 'before washing'],
  ])('names the line of a width that is wrong: %j', async (cells, what, todo) => {
    const { rows, faults } = await read(
      `file,fabric,stack,object,width_mm,washes\nn.dst,poplin,none,${cells}\n`,
    );
    expect(rows).toEqual([]);
    expect(faults).toHaveLength(1);
    expect(faults[0].line).toBe(2);
    const said = rowFaultReport(faults[0]);
    expect(said.what).toContain(what);
    expect(said.todo).toContain(todo);
  });

  it.each([
    [',poplin,none,as-is,0,4,', 'the file is missing', 'name the design'],
    ['n.dst,,none,as-is,0,4,', 'the fabric is missing', 'lieflat catalog fabrics'],
    ['n.dst,piqe-knit,none,as-is,0,4,', 'piqe-knit', 'did you mean pique-knit?'],
    ['n.dst,constructor,none,as-is,0,4,', 'constructor', 'lieflat catalog fabrics'],
    ['n.dst,poplin,,as-is,0,4,', 'the stack is missing', 'none'],
    ['n.dst,poplin,cutaway-2oz,as-is,0,4,', 'cutaway-2oz', ''],
    ['n.dst,poplin,cutaway-2.5oz@x,as-is,0,4,', 'no angle', 'write cutaway-2.5oz@45'],
    ['n.dst,poplin,none,felt:1,0,4,', 'felt:1', 'write as-is, or a kind'],
    ['n.dst,poplin,none,fill,0,4,', 'no objects', 'fill:1 2 7'],
    ['n.dst,poplin,none,fill:1;zigzag:1,0,4,', 'object 1 has two underlays', 'leave one'],
    ['n.dst,poplin,none,as-is,1.5,4,', 'washes cannot be "1.5"', 'a whole number'],
    ['n.dst,poplin,none,as-is,-1,4,', 'washes cannot be', 'a whole number'],
    ['n.dst,poplin,none,as-is,0,6,', 'the grade cannot be "6"', '5 (smooth) to 1'],
    ['n.dst,poplin,none,as-is,0,3.7,', 'the grade cannot be "3.7"', 'half steps'],
    ['n.dst,poplin,none,as-is,0,good,', 'the grade cannot be "good"', 'half steps'],
    ['n.dst', 'the fabric is missing', 'lieflat'],
  ])('names the line of %j and what to do', async (row, what, todo) => {
    const good = 'n.dst,poplin,none,as-is,0,4,';
    const { rows, faults, ungraded } = await read(`${HEAD}\n${good}\n${row}\n${good}\n`);
    if (row === 'n.dst') return expect(ungraded).toEqual([3]);
    expect(rows.map(({ line }) => line)).toEqual([2, 4]);
    expect(faults).toHaveLength(1);
    expect(faults[0].line).toBe(3);
    const said = rowFaultReport(faults[0]);
    expect(said.what).toContain(what);
    expect(said.todo).toContain(todo);
  });

  it.each([
    ['', 'line 1', 'empty'],
    ['\n \n', 'line 1', 'empty'],
    ['file,fabric,grade\n', 'line 1', 'the column stack is missing'],
    ['\nfile,fabric,stack,grade,Grade\n', 'line 2', 'named twice'],
    ['file,fabric,stack\n', 'line 1', 'the column grade is missing'],
    ['file,fabric,stack,width_mm\n', 'line 1', 'the column object is missing'],
    [`${HEAD}\n"n.dst,poplin`, 'line 2', 'not closed'],
  ])('refuses %j', async (text, place, what) => {
    const error = await read(text).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(LieflatError);
    expect(error).toMatchObject({ code: 'undecodable', place });
    expect((error as LieflatError).what).toContain(what);
  });

  it('reads anything at all or says what is wrong with it', async () => {
    const cell = fc.oneof(
      fc.string(),
      fc.constantFrom(
        'n.dst',
        'poplin',
        'none',
        'cutaway-2.5oz',
        'as-is',
        'fill:1 2',
        '4',
        '3,5',
        '"',
        '__proto__',
      ),
    );
    const table = fc
      .tuple(fc.constantFrom(',', ';', '\t'), fc.array(fc.array(cell, { maxLength: 10 }), { maxLength: 6 }))
      .map(([by, rows]) =>
        [[...LOG_COLUMNS, ...RULER_COLUMNS].join(by), ...rows.map((row) => row.join(by))].join('\n'),
      );
    const any = fc.oneof(
      table.map(bytes),
      fc.string().map(bytes),
      fc.uint8Array({ maxLength: 200 }),
      fc.uint8Array({ maxLength: 200 }).map((tail) => new Uint8Array([...bytes(`${HEAD}\n`), ...tail])),
    );
    await fc.assert(
      fc.asyncProperty(any, async (input) => {
        try {
          const { rows, faults, ungraded } = await readSewOutLog(input, CATALOGUE);
          for (const { grade, width, washes, fabric } of rows) {
            expect(grade !== null || width !== null).toBe(true);
            if (grade !== null) expect(grade >= 1 && grade <= 5 && Number.isInteger(2 * grade)).toBe(true);
            if (width !== null) expect(width.widthMm > 0 && Number.isInteger(width.object)).toBe(true);
            expect(Number.isInteger(washes) && washes >= 0).toBe(true);
            expect(Object.hasOwn(CATALOGUE.fabrics, fabric)).toBe(true);
          }
          for (const fault of faults) {
            expect(fault.line).toBeGreaterThan(0);
            const { what, todo } = rowFaultReport(fault);
            expect(`${what}; ${todo}`).not.toMatch(/undefined|NaN/);
          }
          expect(new Set(ungraded).size).toBe(ungraded.length);
        } catch (error) {
          if (!(error instanceof LieflatError)) throw error;
          expect(error.place).toMatch(/^line \d+$/);
        }
      }),
      { numRuns: 150, seed: 5 },
    );
  });
});

describe('underlay as it is written down', () => {
  it('reads back as it was, in any order', () => {
    const changes = fc.uniqueArray(
      fc.record({ object: fc.integer({ min: 1, max: 999 }), to: fc.constantFrom(...LAID_UNDERLAYS) }),
      { selector: ({ object }) => object, maxLength: 12 },
    );
    fc.assert(
      fc.property(changes, (given) => {
        expect(readUnderlay(underlayText(given))).toEqual(given.toSorted((a, b) => a.object - b.object));
      }),
      { numRuns: 60, seed: 5 },
    );
  });
});
