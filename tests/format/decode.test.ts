import { describe, expect, it } from 'vitest';
import { decodeDesign, encodeDesign, formatOf, sniffFormat } from '../../lib/format/decode.js';
import { designOf, type Row, rowsOf } from './designs.js';

const ROWS: Row[] = [
  [1, 2, 'stitch'],
  [30, 2, 'trim'],
  [31, 2.5, 'stitch'],
  [31, 2.5, 'end'],
];

describe('formats', () => {
  it('are told by the extension, in capitals or not, before the content', () => {
    expect(formatOf('a/b/Crest.DST')).toBe('dst');
    expect(formatOf('crest.csv')).toBe('csv');
    expect(formatOf('crest')).toBeNull();
    expect(formatOf('crest.dst.txt')).toBeNull();
    expect(formatOf('crest.dst', encodeDesign(designOf(ROWS), 'csv'))).toBe('dst');
  });

  it('are told by the content where there is no extension', () => {
    for (const format of ['dst', 'csv'] as const) {
      const bytes = encodeDesign(designOf(ROWS), format);
      expect(sniffFormat(bytes)).toBe(format);
      expect(formatOf('crest', bytes)).toBe(format);
    }
    const utf16 = new Uint8Array(
      Uint16Array.from([...'\uFEFFkind;x_mm;y_mm\n'], (c) => c.charCodeAt(0)).buffer,
    );
    expect(sniffFormat(utf16)).toBe('csv');
    expect(sniffFormat(Uint8Array.of(1, 2, 3))).toBeNull();
    expect(formatOf('crest', new Uint8Array(0))).toBeNull();
  });

  it('each decodes what it encodes, and one becomes the other', async () => {
    for (const format of ['dst', 'csv'] as const) {
      const design = await decodeDesign(encodeDesign(designOf(ROWS), format), format);
      expect(design.format).toBe(format);
      expect(rowsOf(design)).toEqual(ROWS);
      const other = format === 'dst' ? 'csv' : 'dst';
      expect(rowsOf(await decodeDesign(encodeDesign(design, other), other))).toEqual(ROWS);
    }
  });

  it('a wrong format is a clear error', async () => {
    await expect(decodeDesign(encodeDesign(designOf(ROWS), 'csv'), 'dst')).rejects.toMatchObject({
      code: 'undecodable',
      place: 'byte 0',
    });
    await expect(decodeDesign(encodeDesign(designOf(ROWS), 'dst'), 'csv')).rejects.toMatchObject({
      code: 'undecodable',
      place: 'line 1',
    });
  });
});
