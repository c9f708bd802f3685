import { describe, expect, it } from 'vitest';
import { readSewOutLog } from '../../lib/calibrate/sew-out-log.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { readGradedCards } from '../../lib/order/graded-cards.js';
import { emptyManifest, manifestText, readManifest } from '../../lib/order/manifest.js';
import { gradedCardsLog } from '../../lib/report/order/graded-log.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const card = (line: number, order: string) => ({
  line,
  order,
  sewn: `relaid/n${line}.dst`,
  fabric: 'pique-knit',
  stackText: 'cutaway-2.5oz',
});
const SEWN = [card(2, 'A-1'), card(3, 'A-2'), card(4, 'A-2')];

describe('graded cards', () => {
  it('become rows that calibrate reads, found by order number or line', async () => {
    const { rows, faults } = await readGradedCards(
      bytes('Order Number;Line;Grade;Washes;Remarks\nA-1;;4,5;;Ida\n;3;3;8;\nA-2;4;5;0;\n'),
      SEWN,
    );
    expect(faults).toEqual([]);
    const { text, added } = gradedCardsLog('', rows);
    expect(added).toBe(3);
    const log = await readSewOutLog(bytes(text), CATALOGUE);
    expect(log.faults).toEqual([]);
    expect(log.rows).toMatchObject([
      { file: 'relaid/n2.dst', fabric: 'pique-knit', stackText: 'cutaway-2.5oz', grade: 4.5, washes: 0 },
      { file: 'relaid/n3.dst', grade: 3, washes: 8 },
      { file: 'relaid/n4.dst', grade: 5 },
    ]);
    expect(log.rows[0].remarks).toBe('order A-1; Ida');
  });

  it('go behind what the log holds, in its own columns, and once', async () => {
    const { rows } = await readGradedCards(bytes('order,grade\nA-1,4\n'), SEWN);
    const before = 'grade,file,fabric,stack\r\n3,old.dst,denim,none';
    const once = gradedCardsLog(before, rows);
    expect(once.text).toBe(`${before}\r\n4,relaid/n2.dst,pique-knit,cutaway-2.5oz\r\n`);
    expect(gradedCardsLog(once.text, rows)).toEqual({ text: once.text, added: 0 });
  });

  it('that cannot be found or used are named, the others taken', async () => {
    const { rows, faults } = await readGradedCards(
      bytes('order,line,grade,washes\nA-2,,4,\nB-9,,4,\n,,4,\nA-1,,6,\nA-1,,4,many\nA-1,,4,\n'),
      SEWN,
    );
    expect(rows).toHaveLength(1);
    expect(faults.map(({ line }) => line)).toEqual([2, 3, 4, 5, 6]);
    expect(faults[0]).toMatchObject({ what: 'order A-2 has 2 lines', todo: 'give the line as well: 3, 4' });
  });

  it.each([
    ['', 'there are no grades'],
    ['order,washes\nA-1,1\n', 'the column grade is missing'],
    ['grade\n4\n', 'no column says which card it is'],
  ])('need a table: %j', async (text, said) => {
    await expect(readGradedCards(bytes(text), SEWN)).rejects.toThrow(said);
  });
});

describe('what a run leaves for the next', () => {
  it('reads back as it was, and is the same text in whatever order it came about', () => {
    const one = emptyManifest<number, number>();
    one.files.set('b', ['2']).set('a', ['1', '3']);
    one.ranks.set('r', 1);
    one.lines.set('l', 2);
    const other = readManifest<number, number>(manifestText(one), 'x');
    expect(other).toEqual(one);
    const turned = { ...one, files: new Map([...one.files].reverse()) };
    expect(manifestText(turned)).toBe(manifestText(one));
  });

  it.each(['', '[]', '{}', '{"schema":"lieflat/vet@1"}'])('is no other file: %j', (text) => {
    expect(() => readManifest(text, 'lieflat-order.json')).toThrow('lieflat-order.json: it is not what');
  });
});
