import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { PLACES } from '../../lib/materials/places.js';
import { linesOfFiles, type OrderLookup, readOrder } from '../../lib/order/order-table.js';
import { colorsNamed } from '../../lib/report/proof/thread-colors.js';

const LOOKUP: OrderLookup = {
  catalogue: CATALOGUE,
  places: PLACES,
  checkColors: (list) => void colorsNamed(list),
};
const read = (text: string, more: Partial<OrderLookup> = {}) =>
  readOrder(new TextEncoder().encode(text), { ...LOOKUP, ...more });

const ROWS = [
  ['file', 'garment', 'quantity', 'place', 'threads', 'customer'],
  ['name.dst', 'Performance Polo', '12', 'Left Chest', 'navy, white', 'Harbor Rowing'],
  ['crest.dst', 'hoodie', '', '', '', ''],
];
const quoted = (cell: string): string => (/[,;"]/.test(cell) ? `"${cell}"` : cell);
const table = (rows: readonly (readonly string[])[], delimiter: string): string =>
  rows.map((row) => row.map(quoted).join(delimiter)).join('\r\n');

describe('a garment that nobody has a word for', () => {
  const of = (garment: string) => read(table([ROWS[0], ['name.dst', garment, '', '', '', '']], ','));

  it('is told in four words in its cell, in any order', async () => {
    for (const words of ['ask=some medium plain washable', 'ASK: plain, some'])
      expect((await of(words)).lines).toMatchObject([{ fabric: 'jersey-knit', garment: 'jersey-knit' }]);
  });

  it.each(['ask=soft', 'ask=', 'ask=some none', 'zeppelin'])(
    '%j is refused in terms of the table',
    async (words) => {
      const { lines, faults } = await of(words);
      expect(lines).toEqual([]);
      expect(faults).toHaveLength(1);
      const [{ line, what, todo }] = faults;
      expect([line, what]).toEqual([2, expect.stringContaining(words)]);
      expect(todo).toContain('column garment');
      expect(todo).toContain('ask=some medium plain washable');
      expect(todo).not.toContain('--');
    },
  );
});

describe('an order', () => {
  it.each([',', ';', '\t'])(
    'is the same with cells parted by %j, with a byte order mark and without',
    async (by) => {
      const { lines, faults } = await read(`\ufeff${table(ROWS, by)}\r\n`);
      expect(faults).toEqual([]);
      expect(lines).toMatchObject([
        {
          line: 2,
          file: 'name.dst',
          fabric: 'performance-knit',
          quantity: 12,
          place: { id: 'left-chest' },
          threads: 'navy, white',
          customer: 'Harbor Rowing',
        },
        { line: 3, file: 'crest.dst', fabric: 'fleece', quantity: 1, place: null, threads: '' },
      ]);
      expect((await read(table(ROWS, by))).lines).toEqual(lines);
    },
  );

  it('takes columns in any order, their heads in any capitals, with blanks, and by their other names', async () => {
    const { lines, unread } = await read(
      'Due Date,GARMENT COLOR,Rush,Qty, File ,Fabric\nDec 4,navy,x,3,a.dst,denim\n',
    );
    expect(unread).toEqual(['Rush']);
    expect(lines).toMatchObject([
      { file: 'a.dst', fabric: 'denim', quantity: 3, due: 'Dec 4', garmentColor: 'navy' },
    ]);
  });

  it('names each line that is wrong with its number and what to do, and takes the others', async () => {
    const { lines, faults } = await read(
      [
        'file,garment,quantity,place,threads,backing',
        'a.dst,polo shirt,1,,,',
        ',denim,1,,,',
        'b.dst,zeppelin,1,,,',
        'c.dst,denim,none,,,',
        '',
        'd.dst,denim,1,roof,,',
        'e.dst,denim,1,,blurple,',
        'f.dst,denim,1,,,velvet',
        'g.dst,denim,1,,navy,white,red',
        'h.dst,denim,2,cap front,"navy,white",cutaway-3OZ',
      ].join('\n'),
    );
    const wrong = faults.map(({ line }) => line);
    expect(wrong.filter((line) => line > 2)).toEqual([3, 4, 5, 7, 8, 9, 10]);
    expect(lines.at(-1)).toMatchObject({ line: 11, stack: 'cutaway-3oz', place: { id: 'cap-front' } });
    for (const { what, todo } of faults) expect(`${what}; ${todo}`).toMatch(/^\S.+; \S/);
    const said = (line: number) => faults.find((fault) => fault.line === line)!;
    expect(said(4).todo).toContain('everyday word');
    expect(said(10).what).toBe('the line has 7 cells and the heads are 6');
  });

  it('tells all that is wrong with a line at once, each with what to do', async () => {
    const { lines, faults } = await read(
      'file,garment,quantity,place,threads,backing\n,jacket,none,roof,blurple,velvet\na.dst,zeppelin,0,,,\n',
    );
    expect(lines).toEqual([]);
    expect(faults.map(({ line }) => line)).toEqual([2, 3]);
    const [all, two] = faults.map(({ what, todo }) => `${what}; ${todo}`);
    for (const part of [
      'the file is missing (name the stitch file)',
      'garment "jacket": that may be several garments (write which (',
      'denim jacket',
      'the quantity cannot be "none" (give a whole number',
      'place "roof": there is no place of that name (',
      'blurple',
      'velvet',
    ])
      expect(all).toContain(part);
    expect(two).toMatch(
      /^garment "zeppelin": .* \(.*\); the quantity cannot be "0"; give a whole number from 1 to \d+$/,
    );
  });

  it('goes by what is said for all where a line says nothing', async () => {
    const { lines } = await read('file\na.dst\n', { garment: 'towel', quantity: 6 });
    expect(lines).toMatchObject([{ fabric: 'terry-towel', quantity: 6 }]);
    expect(linesOfFiles(['a.dst', 'b.dst'], { ...LOOKUP, garment: 'towel' }).lines).toMatchObject([
      { line: 1, file: 'a.dst', fabric: 'terry-towel', quantity: 1 },
      { line: 2, file: 'b.dst' },
    ]);
    expect(linesOfFiles(['a.dst'], LOOKUP).faults).toMatchObject([{ line: 1 }]);
  });

  it.each([
    ['', 'line 1: the order is empty'],
    ['garment,quantity\ndenim,1\n', 'line 1: no column is called file'],
    ['file,garment\n', 'line 1: no line follows the heads'],
    ['file,File\na,b\n', 'line 1: the column file is there twice'],
    ['file,garment\n"a.dst,denim\n', 'is not closed'],
  ])('is refused as a whole where it is no table: %j', async (text, said) => {
    await expect(read(text)).rejects.toThrow(said);
  });
});
