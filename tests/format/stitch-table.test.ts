import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import { decodeStitchTable, encodeStitchTable } from '../../lib/format/stitch-table.js';
import { anyDesign, designOf, type Row, rowsOf } from './designs.js';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const read = (text: string) => decodeStitchTable(utf8(text));
const said = async (text: string): Promise<string[]> =>
  (await read(text)).diagnostics.map(({ code, line, measured }) => `${code} ${line} ${measured}`);

async function refused(text: string): Promise<LieflatError> {
  try {
    await read(text);
  } catch (error) {
    if (error instanceof LieflatError) return error;
    throw error;
  }
  throw new Error('it was read');
}

const ROWS: Row[] = [
  [10, -0.05, 'jump'],
  [10.25, 3, 'stitch'],
  [10.25, 3, 'trim'],
  [-4, 3.1, 'stitch'],
  [-4, 3.1, 'colour'],
  [-4, 3.1, 'stop'],
  [0, 0, 'end'],
];
const TABLE =
  'x_mm,y_mm,kind\r\n10.00,-0.05,jump\r\n10.25,3.00,stitch\r\n10.25,3.00,trim\r\n-4.00,3.10,stitch\r\n' +
  '-4.00,3.10,colour\r\n-4.00,3.10,stop\r\n0.00,0.00,end\r\n';

describe('the stitch table', () => {
  it('is written as it is specified, and reads back', async () => {
    const bytes = encodeStitchTable(designOf(ROWS));
    expect(new TextDecoder().decode(bytes)).toBe(TABLE);
    const design = await decodeStitchTable(bytes);
    expect(rowsOf(design)).toEqual(ROWS);
    expect(design).toMatchObject({ thread: null, header: [], diagnostics: [], format: 'csv' });
  });

  it('holds threads in a column of their own, where there are any', async () => {
    const design = designOf([
      [1, 2, 'stitch', 3],
      [1, 2, 'colour', 0],
    ]);
    const bytes = encodeStitchTable(design);
    expect(new TextDecoder().decode(bytes)).toBe(
      'x_mm,y_mm,kind,thread\r\n1.00,2.00,stitch,3\r\n1.00,2.00,colour,0\r\n',
    );
    expect((await decodeStitchTable(bytes)).thread).toEqual(Int32Array.of(3, 0));
    expect(
      (await read('x_mm,y_mm,kind,thread\n1,1,stitch,\n1,1,stitch,5\n1,1,stitch,\n1,1,stitch\n')).thread,
    ).toEqual(Int32Array.of(0, 5, 5, 5));
  });

  it('of any design reads back to 0.01 mm, and of a table that was read word for word', async () => {
    await fc.assert(
      fc.asyncProperty(anyDesign, async (design) => {
        const bytes = encodeStitchTable(design);
        const back = await decodeStitchTable(bytes);
        expect(back.kind).toEqual(design.kind);
        for (let i = 0; i < design.x.length; i++) {
          expect(Math.abs(back.x[i] - design.x[i])).toBeLessThanOrEqual(0.005 + 1e-9);
          expect(Math.abs(back.y[i] - design.y[i])).toBeLessThanOrEqual(0.005 + 1e-9);
        }
        expect(back.diagnostics).toEqual([]);
        expect(encodeStitchTable(back)).toEqual(bytes);
      }),
    );
  });

  it('writes no minus zero, and refuses what would not read back', () => {
    const text = (x: number): string =>
      new TextDecoder().decode(encodeStitchTable(designOf([[x, 0, 'stitch']])));
    expect(text(-0.001)).toContain('\r\n0.00,0.00,stitch');
    expect(text(-0.01)).toContain('\r\n-0.01,0.00,stitch');
    expect(text(-9999.999)).toContain('\r\n-10000.00,');
    for (const x of [Number.NaN, Number.POSITIVE_INFINITY, 10000.1])
      expect(() => text(x)).toThrow(LieflatError);
    const unknown = { ...designOf([[0, 0, 'stitch']]), kind: Uint8Array.of(9) };
    expect(() => encodeStitchTable(unknown)).toThrow(/record 1/);
  });
});

describe('RFC 4180, section 2', () => {
  // RFC 4180 (Shafranovich, 2005), section 2, rules 1 to 7, each on a stitch table.
  const expected: Row[] = [
    [1, 2, 'stitch'],
    [3, 4, 'trim'],
  ];
  it.each([
    ['1: each record on a line of its own, ended by CRLF', 'x_mm,y_mm,kind\r\n1,2,stitch\r\n3,4,trim\r\n'],
    ['2: the last record may have no line break', 'x_mm,y_mm,kind\r\n1,2,stitch\r\n3,4,trim'],
    [
      '5: fields may be enclosed in double quotes',
      '"x_mm","y_mm","kind"\r\n"1","2","stitch"\r\n3,4,trim\r\n',
    ],
    [
      '6: quoted fields may hold line breaks, double quotes and commas',
      'x_mm,note,y_mm,kind\r\n1,"b \r\nbb, and more",2,stitch\r\n3,"""c""",4,trim\r\n',
    ],
    ['7: a quote inside is doubled', 'x_mm,"b""bb",y_mm,kind\r\n1,x,2,stitch\r\n3,x,4,trim\r\n'],
  ])('%s', async (_, text) => {
    expect(rowsOf(await read(text))).toEqual(expected);
  });

  it('4: spaces are part of a field, which figures and kinds do not mind', async () => {
    expect(rowsOf(await read(' x_mm , y_mm , kind \r\n 1 , 2 , stitch \r\n3,4,trim\r\n'))).toEqual(expected);
  });

  it('tells the line on which a record begins, after quoted line breaks too', async () => {
    const error = await refused(
      'x_mm,note,y_mm,kind\r\n1,"a\r\nb\r\nc",2,stitch\r\n\r\n3,"d\r\ne",4,knot\r\n',
    );
    expect(error.place).toBe('line 6');
  });

  it('refuses quotes out of place', async () => {
    expect((await refused('x_mm,y_mm,kind\r\n1,2,"stitch\r\n')).what).toContain('not closed');
    expect(await refused('x_mm,y_mm,kind\r\n1,2,st"itch\r\n')).toMatchObject({
      code: 'undecodable',
      place: 'line 2',
    });
    expect((await refused('x_mm,y_mm,kind\n1,2,stitch\n1,"2"3,stitch\n')).place).toBe('line 3');
  });

  it('a table with quotes reads as the same one without', async () => {
    await fc.assert(
      fc.asyncProperty(anyDesign, async (design) => {
        const plain = new TextDecoder().decode(encodeStitchTable(design));
        const quoted = plain.replace(/[^,\r\n]+/g, '"$&"');
        expect(await read(quoted)).toEqual(await read(plain));
      }),
      { numRuns: 30 },
    );
  });
});

describe('what is taken as well, and said where something was assumed', () => {
  const expected: Row[] = [
    [1.5, -2, 'stitch'],
    [3, 4, 'colour'],
  ];

  it('line ends of any kind, a byte order mark, UTF-16', async () => {
    for (const eol of ['\n', '\r', '\r\n']) {
      const text = ['x_mm,y_mm,kind', '1.5,-2,stitch', '3,4,colour', ''].join(eol);
      expect(rowsOf(await read(text))).toEqual(expected);
      expect(rowsOf(await read(`\uFEFF${text}`))).toEqual(expected);
      const utf16 = new Uint8Array(Uint16Array.from([...`\uFEFF${text}`], (c) => c.charCodeAt(0)).buffer);
      expect(rowsOf(await decodeStitchTable(utf16))).toEqual(expected);
      const swapped = utf16.map((_, i) => utf16[i ^ 1]);
      expect(rowsOf(await decodeStitchTable(swapped))).toEqual(expected);
      expect(await said(text)).toEqual([]);
    }
  });

  it('columns in any order and case, and further ones', async () => {
    const text = 'Kind,note,Y_MM,x_mm\nStitch,a,-2,1.5\nCOLOUR,b,4,3\n';
    expect(rowsOf(await read(text))).toEqual(expected);
    expect(await said(text)).toEqual(['table-other-columns 1 1']);
  });

  it('semicolons or tabs, with decimal commas or points', async () => {
    for (const text of [
      'x_mm;y_mm;kind\n1,5;-2;stitch\n3;4;colour\n',
      'x_mm;y_mm;kind\n1.5;-2;stitch\n3;4;colour\n',
      'x_mm\ty_mm\tkind\n1,5\t-2\tstitch\n3\t4\tcolour\n',
    ]) {
      expect(rowsOf(await read(text))).toEqual(expected);
      expect(await said(text)).toEqual(['table-delimiter 1 1']);
    }
  });

  it('blank lines, those of a spreadsheet too', async () => {
    const text = '\nx_mm,y_mm,kind\n1.5,-2,stitch\n\n , ,\n3,4,colour\n\n';
    expect(rowsOf(await read(text))).toEqual(expected);
    expect(await said(text)).toEqual(['table-blank-lines 1 4']);
  });

  it('positions finer than 0.01 mm, rounded to it', async () => {
    const text = 'x_mm,y_mm,kind\n1.2345,-0.001,stitch\n1e1,+.5,stitch\n';
    expect(rowsOf(await read(text))).toEqual([
      [1.23, 0, 'stitch'],
      [10, 0.5, 'stitch'],
    ]);
    expect(await said(text)).toEqual(['table-positions-rounded 2 2']);
  });

  it('the other spelling of colour', async () => {
    expect(rowsOf(await read('x_mm,y_mm,kind\n1,1,color\n'))).toEqual([[1, 1, 'colour']]);
  });

  it('a table without rows', async () => {
    expect(rowsOf(await read('x_mm,y_mm,kind\n'))).toEqual([]);
  });
});

describe('a row that cannot be read is refused with its line', () => {
  it.each([
    ['an empty file', '', 'line 1', 'empty'],
    ['blank lines alone', '\n\n', 'line 1', 'empty'],
    ['a missing column', 'x_mm,kind\n1,stitch\n', 'line 1', 'y_mm'],
    ['a column named twice', 'x_mm,y_mm,kind,x_mm\n', 'line 1', 'x_mm'],
    ['no header row', '1,2,stitch\n', 'line 1', 'missing'],
    ['no number', 'x_mm,y_mm,kind\n1,1,stitch\n1,abc,stitch\n', 'line 3', '"abc"'],
    ['an empty position', 'x_mm,y_mm,kind\n,1,stitch\n', 'line 2', 'x_mm is empty'],
    ['a number in words', 'x_mm,y_mm,kind\n1,Infinity,stitch\n', 'line 2', 'Infinity'],
    ['hexadecimal', 'x_mm,y_mm,kind\n0x10,1,stitch\n', 'line 2', '0x10'],
    ['a unit in the cell', 'x_mm,y_mm,kind\n1 mm,1,stitch\n', 'line 2', '1 mm'],
    ['too far', 'x_mm,y_mm,kind\n10000.01,1,stitch\n', 'line 2', '10 m'],
    ['far too far', 'x_mm,y_mm,kind\n1e999,1,stitch\n', 'line 2', '10 m'],
    ['an unknown kind', 'x_mm,y_mm,kind\n1,1,knot\n', 'line 2', '"knot"'],
    ['no kind', 'x_mm,y_mm,kind\n1,1\n', 'line 2', 'kind empty'],
    ['a decimal comma among commas', 'x_mm,y_mm,kind\n1,5,2,stitch\n', 'line 2', '4 cells'],
    ['rows after the end', 'x_mm,y_mm,kind\n1,1,end\n\n1,1,stitch\n', 'line 4', 'end in line 2'],
    ['a thread that is no number', 'x_mm,y_mm,kind,thread\n1,1,stitch,red\n', 'line 2', '"red"'],
  ])('%s', async (_, text, place, word) => {
    const error = await refused(text);
    expect(error).toMatchObject({ code: 'undecodable', place });
    expect(error.what).toContain(word);
    expect(error.message).not.toMatch(/[\r\n]/);
  });

  it('any text or bytes are a design or one clear error', async () => {
    const cell = fc.oneof(
      fc.constantFrom('1', '2.5', 'stitch', '', '"', '"a,b"', 'end'),
      fc.string({ maxLength: 6 }),
    );
    const table = fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 8 }).map((rows) => {
      return utf8(`x_mm,y_mm,kind\n${rows.map((row) => row.join(',')).join('\n')}`);
    });
    await fc.assert(
      fc.asyncProperty(fc.oneof(table, fc.uint8Array({ maxLength: 200 })), async (bytes) => {
        try {
          const { x, y, kind } = await decodeStitchTable(bytes);
          expect([y.length, kind.length]).toEqual([x.length, x.length]);
          expect(x.every(Number.isFinite)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(LieflatError);
          expect((error as LieflatError).place).toMatch(/^line \d+$/);
        }
      }),
      { numRuns: 500 },
    );
  });
});
