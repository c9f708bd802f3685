import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import type { Diagnostic } from '../../lib/format/diagnostic.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { oddityInWords } from '../../lib/report/phrases/words-of.js';
import { designOf, rowsOf } from './designs.js';
import { END, raw, rawFile, rawHeader } from './raw-file.js';

const said = (diagnostic: Diagnostic): string => oddityInWords(diagnostic, { units: 'mm', detail: 'full' });

const SEWN = [
  raw(30, 0, 'jump'),
  raw(10, 5),
  raw(0, 20),
  raw(-10, 0),
  raw(0, 0, 'pause'),
  raw(-60, -40),
  raw(12, 0),
];

const codes = (bytes: Uint8Array): string[] => decodeDst(bytes).diagnostics.map(({ code }) => code);

function only(bytes: Uint8Array, code: string): Diagnostic {
  const found = decodeDst(bytes).diagnostics;
  expect(found.map((d) => d.code)).toEqual([code]);
  return found[0];
}

function refused(bytes: Uint8Array): LieflatError {
  try {
    decodeDst(bytes);
  } catch (error) {
    if (error instanceof LieflatError) return error;
    throw error;
  }
  throw new Error('it was decoded');
}

describe('a three-byte file as it should be', () => {
  it('is read to absolute positions in mm, with nothing to say', () => {
    const design = decodeDst(rawFile(SEWN));
    expect(rowsOf(design)).toEqual([
      [3, 0, 'jump'],
      [4, 0.5, 'stitch'],
      [4, 2.5, 'stitch'],
      [3, 2.5, 'stitch'],
      [3, 2.5, 'colour'],
      [-3, -1.5, 'stitch'],
      [-1.8, -1.5, 'stitch'],
      [-1.8, -1.5, 'end'],
    ]);
    expect(design.diagnostics).toEqual([]);
    expect(design.thread).toBeNull();
    expect(design.format).toBe('dst');
  });

  it('keeps every header field in order, with its place', () => {
    const { header } = decodeDst(
      rawFile(SEWN, {
        extra: [
          ['AU', 'the corner shop'],
          ['TC', '#0a0b0c,navy,7'],
        ],
      }),
    );
    expect(header.map(({ key }) => key).join(' ')).toBe('LA ST CO +X -X +Y -Y AX AY MX MY PD AU TC');
    expect(header[0]).toEqual({ key: 'LA', value: 'crest           ', byte: 0 });
    expect(header[1]).toEqual({ key: 'ST', value: '      7', byte: 20 });
    expect(header[12]).toEqual({ key: 'AU', value: 'the corner shop', byte: 124 });
  });

  it('may count the end record, and may take extents over the needle points alone', () => {
    const far = [raw(100, 0, 'jump'), raw(-100, 0, 'jump'), raw(10, 10), raw(5, 5)];
    expect(codes(rawFile(far, { fields: { ST: '      5', '+X': '   15' } }))).toEqual([]);
  });

  it('does not touch the bytes', () => {
    const bytes = rawFile(SEWN);
    const before = bytes.slice();
    decodeDst(bytes);
    expect(bytes).toEqual(before);
  });
});

describe('jumps and trims', () => {
  const kindsOf = (jumps: number): string[] =>
    rowsOf(
      decodeDst(
        rawFile([raw(5, 0), ...Array.from({ length: jumps }, () => raw(100, -7, 'jump')), raw(1, 1)]),
      ),
    ).map(([x, y, kind]) => `${kind} ${x} ${y}`);

  it('leaves one and two jumps as they are', () => {
    expect(kindsOf(1)).toEqual(['stitch 0.5 0', 'jump 10.5 -0.7', 'stitch 10.6 -0.6', 'end 10.6 -0.6']);
    expect(kindsOf(2).slice(1, 3)).toEqual(['jump 10.5 -0.7', 'jump 20.5 -1.4']);
  });

  it('reads three and more as one trim where the run ends', () => {
    expect(kindsOf(3)).toEqual(['stitch 0.5 0', 'trim 30.5 -2.1', 'stitch 30.6 -2', 'end 30.6 -2']);
    expect(kindsOf(4)[1]).toBe('trim 40.5 -2.8');
    expect(kindsOf(9)).toHaveLength(4);
    expect(kindsOf(9)[1]).toBe('trim 90.5 -6.3');
  });

  it('tells runs apart that a pause parts, and keeps a pause that moves and a jump that does not', () => {
    const rows = rowsOf(
      decodeDst(
        rawFile([
          raw(0, 0, 'jump'),
          raw(0, 0, 'jump'),
          raw(3, 4, 'pause'),
          raw(0, 0, 'jump'),
          raw(0, 0, 'jump'),
          raw(0, 0, 'jump'),
          raw(1, 0),
        ]),
      ),
    );
    expect(rows).toEqual([
      [0, 0, 'jump'],
      [0, 0, 'jump'],
      [0.3, 0.4, 'colour'],
      [0.3, 0.4, 'trim'],
      [0.4, 0.4, 'stitch'],
      [0.4, 0.4, 'end'],
    ]);
  });

  it('forgets the jumps that became a trim', () => {
    const rows = rowsOf(
      decodeDst(
        rawFile([...Array.from({ length: 5 }, () => raw(1, 1, 'jump')), raw(1, 0), raw(1, 0), raw(1, 0)]),
      ),
    );
    expect(rows.map(([, , kind]) => kind)).toEqual(['trim', 'stitch', 'stitch', 'stitch', 'end']);
  });
});

describe('what is odd is said, with its place', () => {
  const bodyAt = 512;

  it('header counts that disagree', () => {
    const cases: [
      key: string,
      value: string,
      code: string,
      byte: number,
      measured: number,
      expected: number,
    ][] = [
      ['ST', '     99', 'file-record-count', 20, 7, 99],
      ['CO', '  4', 'file-colour-count', 31, 1, 4],
      ['+X', '  900', 'file-extent', 38, 40, 900],
      ['-X', '    1', 'file-extent', 47, 30, 1],
      ['+Y', '    0', 'file-extent', 56, 25, 0],
      ['-Y', '  999', 'file-extent', 65, 15, 999],
      ['AX', '+   18', 'file-end-position', 74, -18, 18],
      ['AY', '+    0', 'file-end-position', 84, -15, 0],
    ];
    for (const [key, value, code, byte, measured, expected] of cases) {
      expect(only(rawFile(SEWN, { fields: { [key]: value } }), code), key).toMatchObject({
        byte,
        measured,
        expected,
      });
    }
  });

  it('a huge record count is no more than a figure', () => {
    expect(only(rawFile(SEWN, { fields: { ST: '9999999' } }), 'file-record-count').measured).toBe(7);
  });

  it('fields that are missing, garbled or repeated', () => {
    const missing = only(rawFile(SEWN, { fields: { AY: null, CO: null } }), 'file-header-field-missing');
    expect(missing).toMatchObject({ byte: 0, measured: 'CO AY' });
    expect(only(rawFile(SEWN, { fields: { '+X': 'x40y ' } }), 'file-header-field-garbled')).toMatchObject({
      byte: 38,
      measured: 'x40y',
    });
    expect(only(rawFile(SEWN, { fields: { MX: '+123456789' } }), 'file-header-field-garbled').byte).toBe(94);
    expect(only(rawFile(SEWN, { extra: [['ST', '99']] }), 'file-header-field-repeated').byte).toBe(124);
    // Threads are listed one a field: that is no repetition.
    expect(
      codes(
        rawFile(SEWN, {
          extra: [
            ['TC', '#000000,,'],
            ['TC', '#ffffff,,'],
          ],
        }),
      ),
    ).toEqual(['file-header-field-extra']);
  });

  it('text that is no field', () => {
    const header = rawHeader(SEWN);
    header.splice(19, 1, ...[...'\rnonsense\r'].map((char) => char.charCodeAt(0)));
    const bytes = Uint8Array.from([...header.slice(0, 512), ...SEWN.flat(), ...END]);
    expect(only(bytes, 'file-header-garbled')).toMatchObject({ byte: 20, measured: 1 });
  });

  it('line ends other than CR', () => {
    expect(only(rawFile(SEWN, { lineEnd: '\n' }), 'file-header-line-ends').byte).toBe(19);
    expect(only(rawFile(SEWN, { lineEnd: '\r\n' }), 'file-header-line-ends').byte).toBe(20);
    for (const lineEnd of ['\n', '\r\n']) {
      expect(rowsOf(decodeDst(rawFile(SEWN, { lineEnd })))).toEqual(rowsOf(decodeDst(rawFile(SEWN))));
    }
  });

  it('no end mark after the fields', () => {
    expect(only(rawFile(SEWN, { endMark: false }), 'file-header-no-end-mark').byte).toBe(124);
  });

  it('padding that is not spaces', () => {
    expect(only(rawFile(SEWN, { padding: 0 }), 'file-header-padding').byte).toBe(125);
    const bytes = rawFile(SEWN);
    bytes.set([0x68, 0x69, 0x21], 300);
    expect(only(bytes, 'file-header-padding').byte).toBe(300);
    expect(rowsOf(decodeDst(bytes))).toEqual(rowsOf(decodeDst(rawFile(SEWN))));
  });

  it('header fields that the format does not define, by their names', () => {
    const one = only(rawFile(SEWN, { extra: [['AU', 'the corner shop']] }), 'file-header-field-extra');
    expect(one).toMatchObject({ byte: 124, measured: 'AU' });
    expect(said(one)).toContain('not standard: AU; it is kept');
    const several = only(
      rawFile(SEWN, {
        extra: [
          ['TC', '#ff0000'],
          ['<>', 'x'],
          ['TC', '#00ff00'],
        ],
      }),
      'file-header-field-extra',
    );
    expect(several).toMatchObject({ byte: 124, measured: 'TC <>' });
    expect(said(several)).toContain('2 entries that are not standard: TC, <>; they are kept');
    const many = Array.from({ length: 25 }, (_, i): [string, string] => [
      `A${String.fromCharCode(97 + i)}`,
      '1',
    ]);
    expect(said(only(rawFile(SEWN, { extra: many }), 'file-header-field-extra'))).toContain('At and 5 more;');
  });

  it('but not our own fields', () => {
    const own: [string, string][] = [['TN', '0,3']];
    expect(decodeDst(rawFile(SEWN, { extra: own })).diagnostics.map(({ code }) => code)).not.toContain(
      'file-header-field-extra',
    );
    expect(
      decodeDst(rawFile(SEWN, { extra: [['PS', '1']] })).diagnostics.map(({ code }) => code),
    ).not.toContain('file-header-field-extra');
    const stop = designOf([
      [0, 0, 'stitch'],
      [3, 0, 'stop'],
      [3, 0, 'stitch'],
      [3, 0, 'end'],
    ]);
    expect(decodeDst(encodeDst(stop)).diagnostics).toEqual([]);
  });

  it('a header shorter than 512 bytes, of any length', () => {
    const expected = rowsOf(decodeDst(rawFile(SEWN)));
    for (const size of [0, 126, 127, 128, 129, 200, 256, 257, 400, 488]) {
      const bytes = rawFile(SEWN, { size });
      const start = Math.max(size, 125);
      expect(only(bytes, 'file-header-short'), `size ${size}`).toMatchObject({
        byte: start,
        measured: start,
      });
      expect(rowsOf(decodeDst(bytes)), `size ${size}`).toEqual(expected);
    }
  });

  it('a short header before records that look like padding', () => {
    // 0x20 is y + 9 in a first byte and y + 27 in a second.
    const records = [raw(0, 36), raw(0, 36), raw(2, 0), raw(0, 36), raw(5, 5)];
    expect(records[0]).toEqual([0x20, 0x20, 0x03]);
    const expected = rowsOf(decodeDst(rawFile(records)));
    for (const size of [0, 180, 181, 182]) {
      expect(rowsOf(decodeDst(rawFile(records, { size }))), `size ${size}`).toEqual(expected);
    }
  });

  it('a short header of a long file, whole records short of 512 bytes', () => {
    const long = Array.from({ length: 900 }, (_, i) => raw(i % 2 ? 40 : -40, 2));
    const design = decodeDst(rawFile(long, { size: 200 }));
    expect(design.kind).toHaveLength(901);
    expect(design.diagnostics.map(({ code }) => code)).toEqual(['file-header-short']);
  });

  it('no header at all, or one that cannot be read', () => {
    const long = Array.from({ length: 300 }, (_, i) => raw(i % 2 ? 40 : -40, 2));
    const bare = Uint8Array.from([...long.flat(), ...END]);
    expect(only(bare, 'file-no-header').byte).toBe(0);
    expect(decodeDst(bare).kind).toHaveLength(301);
    const garbled = rawFile(long);
    garbled.fill(0xee, 0, 512);
    expect(only(garbled, 'file-no-header').byte).toBe(0);
    expect(decodeDst(garbled).kind).toHaveLength(301);
  });

  it('no end record', () => {
    const bytes = rawFile(SEWN, { end: [] });
    expect(only(bytes, 'file-no-end-record').byte).toBe(bytes.length);
    expect(rowsOf(decodeDst(bytes)).at(-1)?.[2]).toBe('stitch');
  });

  it('an end record with a move, or without the reserved bits', () => {
    const endAt = bodyAt + SEWN.flat().length;
    const moving = rawFile(SEWN, { end: [0x01, 0x00, 0xf3] });
    expect(only(moving, 'file-end-record')).toMatchObject({ byte: endAt, measured: '01 00 F3' });
    expect(rowsOf(decodeDst(moving)).at(-1)).toEqual([-1.8, -1.5, 'end']);
    expect(only(rawFile(SEWN, { end: [0, 0, 0xf0] }), 'file-end-record').byte).toBe(endAt);
  });

  it('bytes after the end record', () => {
    const bytes = rawFile(SEWN, { after: [...raw(1, 1), 0x1a, 0, 0] });
    expect(only(bytes, 'file-bytes-after-end')).toMatchObject({ byte: bytes.length - 6, measured: 6 });
    expect(rowsOf(decodeDst(bytes))).toEqual(rowsOf(decodeDst(rawFile(SEWN))));
  });

  it('a last record cut short', () => {
    for (const kept of [1, 2]) {
      const bytes = rawFile([...SEWN, raw(7, 7)], { end: [] }).slice(0, kept - 3);
      const { diagnostics, kind } = decodeDst(bytes);
      expect(kind).toHaveLength(SEWN.length);
      const cut = diagnostics.find(({ code }) => code === 'file-truncated-record');
      expect(cut).toMatchObject({ byte: bodyAt + 3 * SEWN.length, measured: kept, expected: 3 });
      expect(diagnostics.map(({ code }) => code)).toContain('file-no-end-record');
    }
  });

  it('a tail of zeros in place of records', () => {
    const bytes = rawFile(SEWN, { end: [], after: new Array(1000).fill(0) });
    const { diagnostics, kind } = decodeDst(bytes);
    expect(kind).toHaveLength(SEWN.length);
    expect(diagnostics.map(({ code }) => code)).toEqual(['file-zero-fill', 'file-no-end-record']);
    expect(diagnostics[0]).toMatchObject({ byte: bodyAt + 3 * SEWN.length, measured: 1000 });
  });

  const broken = (change: (records: number[][]) => void): Uint8Array => {
    const records = SEWN.map((record) => [...record]);
    change(records);
    return rawFile(records);
  };

  it('reserved bits not set: one diagnostic, the first place, how many', () => {
    const bytes = broken((records) => {
      records[2][2] &= 0xfc;
      records[3][2] &= 0xfd;
    });
    expect(only(bytes, 'file-reserved-bits')).toMatchObject({ byte: bodyAt + 6, measured: 2 });
    expect(rowsOf(decodeDst(bytes))).toEqual(rowsOf(decodeDst(rawFile(SEWN))));
  });

  it('plus and minus the same weight at once', () => {
    const bytes = broken((records) => {
      records[1][0] |= 0b0000_1100;
      records[5][2] |= 0b0011_0000;
    });
    expect(only(bytes, 'file-contradictory-move')).toMatchObject({ byte: bodyAt + 3, measured: 2 });
  });

  it('a record kind that is not defined, read as a jump', () => {
    const bytes = broken((records) => {
      records[3][2] = 0x43;
    });
    expect(only(bytes, 'file-unknown-record')).toMatchObject({ byte: bodyAt + 9, measured: 1 });
    expect(rowsOf(decodeDst(bytes))[3]).toEqual([3, 2.5, 'jump']);
  });

  it('in the order of their places', () => {
    const bytes = rawFile(SEWN, { fields: { ST: '      1', AY: '+    0' }, lineEnd: '\n', after: [1] });
    const places = decodeDst(bytes).diagnostics.map(({ byte }) => byte ?? -1);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places).toHaveLength(4);
  });
});

describe('what can be no stitch file is refused, with its place', () => {
  const text = (s: string): Uint8Array => new TextEncoder().encode(s);

  it.each([
    ['nothing', new Uint8Array(0), 'byte 0'],
    ['zeros', new Uint8Array(4096), 'byte 0'],
    ['0xFF', new Uint8Array(4096).fill(0xff), 'byte 0'],
    ['spaces', new Uint8Array(4096).fill(0x20), 'byte 0'],
    ['a text', text('Dear customer, your order of twelve shirts is ready.\r\n'.repeat(40)), 'byte 0'],
    ['three letters', text('abc'), 'byte 0'],
    ['one record', Uint8Array.from(raw(5, 5)), 'byte 0'],
    ['a header alone', Uint8Array.from(rawHeader([])), 'byte 512'],
    ['a header cut short', Uint8Array.from(rawHeader([]).slice(0, 300)), 'byte 300'],
    ['a header and zeros', Uint8Array.from([...rawHeader([]), ...new Array(3000).fill(0)]), 'byte 512'],
  ])('%s', (_, bytes, place) => {
    const error = refused(bytes);
    expect(error.code).toBe('undecodable');
    expect(error.place).toBe(place);
    expect(error.what.length).toBeGreaterThan(10);
    expect(error.todo.length).toBeGreaterThan(10);
  });

  it('but a header with an end record is an empty design', () => {
    expect(rowsOf(decodeDst(rawFile([])))).toEqual([[0, 0, 'end']]);
  });
});
