import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import type { Design } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { anyDesign, designOf, plainDesign, type Row, rowsOf } from './designs.js';
import { rawMove } from './raw-file.js';

const text = (bytes: Uint8Array, from = 0, to = bytes.length): string =>
  String.fromCharCode(...bytes.subarray(from, to));

const back = (rows: readonly Row[]): Row[] => rowsOf(decodeDst(encodeDst(designOf(rows))));

function refused(design: Design): LieflatError {
  try {
    encodeDst(design);
  } catch (error) {
    if (error instanceof LieflatError) return error;
    throw error;
  }
  throw new Error('it was encoded');
}

/** What a file holds, walked record by record without the code under test. */
function walk(bytes: Uint8Array) {
  const places: [x: number, y: number][] = [[0, 0]];
  const thirds: number[] = [];
  for (let p = 512; p + 2 < bytes.length && bytes[p + 2] !== 0xf3; p += 3) {
    const { dx, dy } = rawMove(bytes, p);
    const [x, y] = places[places.length - 1];
    places.push([x + dx, y + dy]);
    thirds.push(bytes[p + 2]);
  }
  return { places, thirds };
}

/** Needle points and pauses in whole tenths of a millimetre: what no writing may change. */
function sewing(design: Design): string[] {
  return rowsOf(design)
    .filter(([, , kind]) => kind === 'stitch' || kind === 'colour' || kind === 'stop')
    .map(([x, y, kind]) => `${kind} ${Math.round(x * 10) + 0} ${Math.round(y * 10) + 0}`);
}

describe('the header that is written', () => {
  const design = designOf(
    [
      [10, -5, 'jump'],
      [12, 3.04, 'stitch'],
      [-1, 3, 'stitch'],
      [-1, 3, 'colour'],
      [0, 0, 'stitch'],
      [0, 0, 'end'],
    ],
    [
      { key: 'LA', value: 'crest', byte: 0 },
      { key: 'AU', value: 'the corner shop', byte: 0 },
    ],
  );

  it('has the usual fields at their usual places, then 0x1A and spaces up to byte 512', () => {
    const bytes = encodeDst(design);
    const fields =
      'LA:crest           \rST:      6\rCO:  1\r+X:  120\r-X:   10\r+Y:   30\r-Y:   50\rAX:+    0\rAY:+    0\rMX:+    0\rMY:+    0\rPD:******\r';
    expect(text(bytes, 0, fields.length)).toBe(fields);
    expect(text(bytes, fields.length, 512)).toBe('AU:the corner shop\r\x1a'.padEnd(512 - fields.length, ' '));
  });

  it('tells true counts, extents and end, whatever the design', () => {
    fc.assert(
      fc.property(plainDesign, (drawn) => {
        const bytes = encodeDst(drawn);
        const { places, thirds } = walk(bytes);
        const value = (key: string): number => {
          const found = new RegExp(`(?:^|\r)\\${key[0]}${key[1]}:([^\r]*)\r`).exec(text(bytes, 0, 512));
          return Number(found?.[1].replace(/\s/g, ''));
        };
        expect(bytes.length).toBe(512 + 3 * (thirds.length + 1));
        expect(value('ST')).toBe(thirds.length);
        const stops = rowsOf(drawn).filter(([, , kind]) => kind === 'stop').length;
        expect(value('CO')).toBe(thirds.filter((byte) => (byte & 0xc0) === 0xc0).length - stops);
        expect(value('+X')).toBe(Math.max(...places.map(([x]) => x)));
        expect(value('-X')).toBe(0 - Math.min(...places.map(([x]) => x)));
        expect(value('+Y')).toBe(Math.max(...places.map(([, y]) => y)));
        expect(value('-Y')).toBe(0 - Math.min(...places.map(([, y]) => y)));
        expect([value('AX'), value('AY')]).toEqual(places[places.length - 1]);
      }),
    );
  });

  it('keeps further fields in their order, place in a row of designs and all', () => {
    const extra = ['LA', 'MX', 'MY', 'PD', 'TC', 'TC', 'CP'];
    const values = ['name', '+   12', '-    7', 'next01', '#0a0b0c,navy,7', '#ffffff,,', 'ours\té'];
    const header = extra.map((key, i) => ({ key, value: values[i], byte: 0 }));
    const read = decodeDst(encodeDst({ ...design, header })).header;
    expect(read.map(({ key }) => key).slice(12)).toEqual(['TC', 'TC', 'CP']);
    expect(extra.map((key) => read.find((field) => field.key === key)?.value.trim())).toEqual([
      ...values.slice(0, 5),
      '#0a0b0c,navy,7',
      'ours\té',
    ]);
  });

  it('keeps the whole of a long label, without moving the fields after it', () => {
    const label = 'crest of the harbour club, left chest';
    let bytes = encodeDst({ ...design, header: [{ key: 'LA', value: label, byte: 0 }] });
    for (let i = 0; i < 2; i++) {
      expect(text(bytes, 0, 23)).toBe('LA:crest of the har\rST:');
      const { header, diagnostics } = decodeDst(bytes);
      expect(header.find(({ key }) => key === 'LL')?.value).toBe(label);
      expect(diagnostics).toEqual([]);
      bytes = encodeDst({ ...design, header });
    }
    const renamed = decodeDst(bytes).header.map((f) => (f.key === 'LA' ? { ...f, value: 'other' } : f));
    expect(decodeDst(encodeDst({ ...design, header: renamed })).header.some(({ key }) => key === 'LL')).toBe(
      false,
    );
  });

  it('refuses what it has no room for, and characters that it cannot hold', () => {
    const field = (key: string, value: string): Design => ({ ...design, header: [{ key, value, byte: 0 }] });
    for (const header of [
      field('AU', 'x'.repeat(400)),
      field('AU', 'a\rb'),
      field('LA', '✂'),
      field('AUTH', 'x'),
    ]) {
      expect(refused(header).code).toBe('bad-argument');
      expect(refused(header).place).toMatch(/^header field /);
    }
    expect(decodeDst(encodeDst(field('AU', 'x'.repeat(380)))).header.at(-1)?.value).toHaveLength(380);
  });
});

describe('what is written reads back', () => {
  it('word for word where the format can say it', () => {
    fc.assert(
      fc.property(plainDesign, (design) => {
        const read = decodeDst(encodeDst(design));
        expect(rowsOf(read)).toEqual(rowsOf(design));
        expect(read.diagnostics).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it('to the same needle points and pauses, whatever the design', () => {
    let written = 0;
    fc.assert(
      fc.property(anyDesign, (design) => {
        let bytes: Uint8Array;
        try {
          bytes = encodeDst(design);
        } catch (error) {
          expect((error as LieflatError).code).toBe('bad-argument');
          return;
        }
        written++;
        const read = decodeDst(bytes);
        expect(sewing(read)).toEqual(sewing(design));
        expect(read.diagnostics).toEqual([]);
        expect(rowsOf(decodeDst(encodeDst(read)))).toEqual(rowsOf(read));
      }),
      { numRuns: 500 },
    );
    expect(written).toBeGreaterThan(300);
  });

  it('without rounding that adds up', () => {
    const rows = Array.from({ length: 5000 }, (_, i) => [i * 0.033, i * -0.017, 'stitch'] as const);
    const read = decodeDst(encodeDst(designOf(rows)));
    for (let i = 0; i < rows.length; i++) {
      expect(Math.abs(read.x[i] - rows[i][0])).toBeLessThanOrEqual(0.05 + 1e-9);
      expect(Math.abs(read.y[i] - rows[i][1])).toBeLessThanOrEqual(0.05 + 1e-9);
    }
  });

  it('with stops that are no colour changes', () => {
    const rows: Row[] = [
      [1, 1, 'stitch'],
      [1, 1, 'stop'],
      [2, 2, 'stitch'],
      [2, 2, 'colour'],
      [2, 2, 'stop'],
      [30, 30, 'trim'],
      [31, 30, 'stitch'],
      [31, 30, 'stop'],
      [31, 30, 'end'],
    ];
    expect(back(rows)).toEqual(rows);
    const bytes = encodeDst(designOf(rows));
    expect(text(bytes, 0, 512)).toContain('\rPS:1,3,4\r');
    expect(text(bytes, 0, 512)).toContain('\rCO:  1\r');
    expect(decodeDst(bytes).diagnostics).toEqual([]);
    expect(text(encodeDst(designOf(rows.filter(([, , kind]) => kind !== 'stop'))), 0, 512)).not.toContain(
      'PS:',
    );
  });

  it('with the thread of every colour block', () => {
    const design = designOf([
      [1, 1, 'stitch', 4],
      [2, 1, 'stitch', 4],
      [2, 1, 'colour', 0],
      [3, 1, 'stitch', 0],
      [3, 1, 'colour', 12],
      [3, 1, 'end', 12],
    ]);
    const read = decodeDst(encodeDst(design));
    expect(Array.from(read.thread ?? [])).toEqual(Array.from(design.thread ?? []));
    expect(encodeDst(read)).toEqual(encodeDst(design));
    const mixed = designOf([
      [1, 1, 'stitch', 4],
      [2, 1, 'stitch', 5],
    ]);
    expect(refused(mixed).place).toBe('record 2');
    expect(refused(designOf([[1, 1, 'stitch', -1]])).place).toBe('record 1');
  });

  it('an end is added where there is none, and a design without records is one', () => {
    expect(back([[1, 1, 'stitch']])).toEqual([
      [1, 1, 'stitch'],
      [1, 1, 'end'],
    ]);
    expect(back([])).toEqual([[0, 0, 'end']]);
  });
});

describe('moves that one record cannot say', () => {
  const kinds = (rows: readonly Row[]): string =>
    back(rows)
      .map(([, , kind]) => kind)
      .join(' ');

  it('a long stitch is one or two jumps and the stitch, evenly split', () => {
    expect(
      back([
        [1, 0, 'stitch'],
        [25.2, -3, 'stitch'],
      ]).slice(1, 3),
    ).toEqual([
      [13.1, -1.5, 'jump'],
      [25.2, -3, 'stitch'],
    ]);
    expect(
      back([
        [1, 0, 'stitch'],
        [37.3, 3, 'stitch'],
      ]).slice(1, 4),
    ).toEqual([
      [13.1, 1, 'jump'],
      [25.2, 2, 'jump'],
      [37.3, 3, 'stitch'],
    ]);
    expect(
      back([
        [1, 0, 'stitch'],
        [13.1, 0, 'stitch'],
      ]),
    ).toHaveLength(3);
  });

  it('a longer one is refused, with its record, as jumps would read as a trim', () => {
    const error = refused(
      designOf([
        [1, 0, 'stitch'],
        [37.4, 0, 'stitch'],
      ]),
    );
    expect(error).toMatchObject({ code: 'bad-argument', place: 'record 2' });
    expect(error.what).toContain('36.4 mm');
    expect(error.what).toContain('37.4, 0');
    for (const kind of ['jump', 'stop'] as const) {
      const moved = designOf([
        [1, 0, 'stitch'],
        [50, 0, kind],
        [50, 0, 'stitch'],
      ]);
      expect(refused(moved).code).toBe('bad-argument');
    }
  });

  it('jumps that would read as a trim are drawn together', () => {
    expect(
      back([
        [0, 0, 'stitch'],
        [5, 5, 'jump'],
        [10, 0, 'jump'],
        [15, 5, 'jump'],
        [20, 0, 'stitch'],
      ]).slice(1, 3),
    ).toEqual([
      [10, 0, 'jump'],
      [20, 0, 'stitch'],
    ]);
    expect(
      kinds([
        [0, 0, 'stitch'],
        [0, 0, 'jump'],
        [0, 0, 'jump'],
        [0, 0, 'jump'],
        [0, 0, 'stitch'],
      ]),
    ).toBe('stitch jump stitch end');
    expect(
      kinds([
        [0, 0, 'stitch'],
        [10, 0, 'jump'],
        [36, 0, 'jump'],
        [36, 0, 'stop'],
      ]),
    ).toBe('stitch jump jump stop end');
  });

  it('long jumps are kept where the thread is cut anyway, and read as a trim', () => {
    expect(
      back([
        [60, 20, 'jump'],
        [61, 20, 'stitch'],
      ])[0],
    ).toEqual([60, 20, 'trim']);
    expect(back([[60, 20, 'stitch']])).toEqual([
      [48, 16, 'trim'],
      [60, 20, 'stitch'],
      [60, 20, 'end'],
    ]);
    expect(
      kinds([
        [0, 0, 'stitch'],
        [0, 0, 'colour'],
        [60, 0, 'jump'],
        [60, 0, 'stitch'],
      ]),
    ).toBe('stitch colour trim stitch end');
    expect(
      kinds([
        [0, 0, 'stitch'],
        [60, 0, 'jump'],
        [60, 0, 'colour'],
        [60, 0, 'stitch'],
      ]),
    ).toBe('stitch trim colour stitch end');
    expect(
      kinds([
        [0, 0, 'stitch'],
        [60, 0, 'end'],
      ]),
    ).toBe('stitch trim end');
    expect(
      kinds([
        [0, 0, 'stitch'],
        [1, 0, 'end'],
      ]),
    ).toBe('stitch jump end');
    expect(
      kinds([
        [0, 0, 'stitch'],
        [9, 0, 'trim'],
        [9, 0, 'stop'],
        [80, 0, 'jump'],
        [80, 0, 'stitch'],
      ]),
    ).toBe('stitch trim stop trim stitch end');
  });

  it('a trim is three jumps or more, straight and even, and takes in the jumps beside it', () => {
    const bytes = encodeDst(
      designOf([
        [0, 0, 'stitch'],
        [3, 0.1, 'trim'],
        [50, 0, 'trim'],
        [50, 0, 'stitch'],
      ]),
    );
    const { places, thirds } = walk(bytes);
    expect(thirds.map((byte) => byte & 0xc0)).toEqual([0, 0x80, 0x80, 0x80, 0x80, 0x80, 0]);
    expect(places.map(([x]) => x)).toEqual([0, 0, 100, 200, 300, 400, 500, 500]);
    const still = walk(
      encodeDst(
        designOf([
          [2, 2, 'stitch'],
          [2, 2, 'trim'],
          [2, 2.5, 'stitch'],
        ]),
      ),
    );
    expect(still.thirds.map((byte) => byte & 0xc0)).toEqual([0, 0x80, 0x80, 0x80, 0]);
    expect(
      back([
        [0, 0, 'stitch'],
        [1, 0, 'jump'],
        [2, 0, 'trim'],
        [3, 0, 'jump'],
        [4, 0, 'stitch'],
      ]).slice(1, 3),
    ).toEqual([
      [3, 0, 'trim'],
      [4, 0, 'stitch'],
    ]);
  });
});

describe('designs that cannot be written are refused', () => {
  it.each([
    ['no number', [[Number.NaN, 0, 'stitch']], 'record 1'],
    [
      'too far out',
      [
        [0, 0, 'trim'],
        [0, 1e6, 'trim'],
      ],
      'record 2',
    ],
    [
      'after the end',
      [
        [0, 0, 'stitch'],
        [0, 0, 'end'],
        [1, 0, 'stitch'],
      ],
      'record 3',
    ],
  ] as [string, Row[], string][])('%s', (_, rows, place) => {
    expect(refused(designOf(rows))).toMatchObject({ code: 'bad-argument', place });
  });

  it('an unknown kind, and more colour changes than the header can say', () => {
    expect(refused({ ...designOf([[0, 0, 'stitch']]), kind: Uint8Array.of(9) }).place).toBe('record 1');
    const many = designOf(Array.from({ length: 1000 }, () => [0, 0, 'colour'] as const));
    expect(refused(many).what).toContain('1000 colour changes');
    const far = designOf(
      Array.from(
        { length: 40_000 },
        (_, i) => [i % 4 < 2 ? 9999 : -9999, 0, i % 2 ? 'stitch' : 'trim'] as const,
      ),
    );
    expect(refused(far).what).toContain('more than the 9999999 records');
  });
});
