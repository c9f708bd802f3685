import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import { type Design, Kind } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { oddityInWords } from '../../lib/report/phrases/words-of.js';
import { IN_FULL, someOf } from '../in-full.js';
import { plainDesign } from './designs.js';
import { END, raw, rawFile, rawHeader } from './raw-file.js';

/** More diagnostics than there are codes and header fields would mean that they grow with the file. */
const MOST_DIAGNOSTICS = 40;

/** Decodes whatever it is given; holds the result to what every result must be. */
function decodeHostile(bytes: Uint8Array): Design | null {
  let design: Design;
  try {
    design = decodeDst(bytes);
  } catch (error) {
    if (!(error instanceof LieflatError)) throw error;
    expect(error.code).toBe('undecodable');
    const place = /^byte (\d+)$/.exec(error.place);
    expect(Number(place?.[1])).toBeLessThanOrEqual(bytes.length);
    expect(error.message).not.toMatch(/[\r\n]/);
    return null;
  }
  expect(design.y.length).toBe(design.x.length);
  expect(design.kind.length).toBe(design.x.length);
  expect(design.x.length).toBeLessThanOrEqual(bytes.length / 3);
  // Arrays of the exact size: nothing is held back behind them.
  expect(design.x.buffer.byteLength).toBe(8 * design.x.length);
  expect(design.x.every(Number.isFinite) && design.y.every(Number.isFinite)).toBe(true);
  expect(design.kind.every((code) => code <= Kind.end)).toBe(true);
  expect(design.kind.subarray(0, -1).includes(Kind.end)).toBe(false);
  expect(design.diagnostics.length).toBeLessThan(MOST_DIAGNOSTICS);
  for (const diagnostic of design.diagnostics) {
    const { byte } = diagnostic;
    expect(byte).toBeGreaterThanOrEqual(0);
    expect(byte).toBeLessThanOrEqual(bytes.length);
    const said = oddityInWords(diagnostic, { units: 'mm', detail: 'full' });
    expect(said.length).toBeLessThan(400);
    expect(said).not.toMatch(/undefined|NaN/);
  }
  return design;
}

const SEWN = [
  raw(30, 0, 'jump'),
  ...Array.from({ length: 40 }, (_, i) => raw(i % 2 ? 70 : -70, 4)),
  raw(0, 0, 'pause'),
  raw(90, 0, 'jump'),
  raw(90, 0, 'jump'),
  raw(90, 0, 'jump'),
  ...Array.from({ length: 40 }, (_, i) => raw(4, i % 2 ? 70 : -70)),
];
const FILE = rawFile(SEWN, { extra: [['PS', '1']] });

describe('any bytes are a design with its oddities, or one clear error', () => {
  it('random bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 2000 }), (bytes) => {
        decodeHostile(bytes);
      }),
      { numRuns: someOf(400) },
    );
  });

  it('random bytes after a true header', () => {
    const header = rawHeader(SEWN);
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 2000 }), (bytes) => {
        const hasRecord = bytes.length >= 3 && bytes.some((byte) => byte !== 0);
        expect(decodeHostile(Uint8Array.from([...header, ...bytes])) !== null).toBe(hasRecord);
      }),
      { numRuns: someOf(300) },
    );
  });

  it('a file cut off at every byte', () => {
    let decoded = 0;
    for (let length = 0; length < FILE.length; length++) {
      const design = decodeHostile(FILE.slice(0, length));
      if (!design) continue;
      decoded++;
      const told = design.diagnostics.map(({ code }) => code);
      expect(told, `cut at ${length}`).toContain('file-no-end-record');
      expect(told.includes('file-truncated-record'), `cut at ${length}`).toBe((length - 512) % 3 !== 0);
    }
    expect(decoded).toBeGreaterThan(FILE.length - 512 - 4);
  });

  it('a file with any one byte changed', () => {
    // Each byte of the header, and some of the stitches.
    for (let at = 0; at < FILE.length; at += at < 512 || IN_FULL ? 1 : 5) {
      for (const value of [0x00, 0x0a, 0x0d, 0x1a, 0x20, 0x3a, 0x43, 0xf3, 0xff, FILE[at] ^ 1]) {
        const bytes = FILE.slice();
        bytes[at] = value;
        expect(decodeHostile(bytes), `byte ${at} = ${value}`).not.toBeNull();
      }
    }
  });

  it('a file with stretches taken out, put in, overwritten or doubled', () => {
    const change = fc.record({
      what: fc.constantFrom('cut', 'put', 'over', 'double'),
      at: fc.nat({ max: FILE.length - 1 }),
      length: fc.integer({ min: 1, max: 600 }),
      bytes: fc.uint8Array({ maxLength: 60 }),
    });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        let bytes: number[] = [...FILE];
        for (const { what, at, length, bytes: other } of changes) {
          if (what === 'cut') bytes.splice(at, length);
          else if (what === 'put') bytes.splice(at, 0, ...other);
          else if (what === 'over') bytes.splice(at, other.length, ...other);
          else bytes = [...bytes.slice(0, at + length), ...bytes.slice(at)];
        }
        decodeHostile(Uint8Array.from(bytes));
      }),
      { numRuns: someOf(400) },
    );
  });

  it('header fields of any text', () => {
    const printable = fc.string({ unit: 'binary-ascii', maxLength: 30 });
    fc.assert(
      fc.property(
        fc.dictionary(fc.constantFrom('LA', 'ST', 'CO', '+X', '-Y', 'AX', 'PD'), printable),
        fc.array(fc.tuple(fc.constantFrom('PS', 'TN', 'LL', 'AU'), printable), { maxLength: 3 }),
        (fields, extra) => {
          expect(decodeHostile(rawFile(SEWN, { fields, extra }))).not.toBeNull();
        },
      ),
      { numRuns: someOf(300) },
    );
  });

  it('whatever was read can be written, or the error says why not', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 600 }), (body) => {
        const design = decodeHostile(Uint8Array.from([...rawHeader(SEWN), ...body]));
        if (!design) return;
        const again = decodeDst(encodeDst(design));
        const end = design.kind.at(-1) === Kind.end ? 0 : 1;
        expect(Array.from(again.x.slice(0, again.x.length - end))).toEqual(Array.from(design.x));
        expect(Array.from(again.kind.slice(0, again.kind.length - end))).toEqual(Array.from(design.kind));
      }),
      { numRuns: someOf(200) },
    );
  });
});

describe('a large file takes memory in proportion, and a bounded number of words', () => {
  const large = (record: readonly number[], records: number): Uint8Array => {
    const bytes = new Uint8Array(512 + 3 * records + 3);
    bytes.set(rawHeader([], { fields: { CO: '  0' } }));
    for (let i = 0; i < records; i++) bytes.set(record, 512 + 3 * i);
    bytes.set(END, bytes.length - 3);
    return bytes;
  };

  it.each([
    ['pauses', [0, 0, 0xc3]],
    ['unknown records', [0, 0, 0x43]],
    ['contradictions', [0xff, 0xff, 0x3f]],
    ['records without reserved bits', [1, 0, 0x00]],
    ['jumps', [5, 0, 0x83]],
  ])('of nothing but %s', (_, record) => {
    const design = decodeHostile(large(record, 300_000));
    expect(design?.x.length).toBeLessThanOrEqual(300_001);
    expect(design?.x.length).toBeGreaterThan(0);
  });

  it('of 100 MB of zeros is refused without any array of that size', () => {
    const bytes = new Uint8Array(100 * 1024 * 1024);
    const before = process.memoryUsage().arrayBuffers;
    expect(decodeHostile(bytes)).toBeNull();
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(1024 * 1024);
    bytes.set(rawHeader([]));
    bytes.set(raw(5, 5), 512);
    const design = decodeHostile(bytes);
    expect(design?.kind).toHaveLength(1);
    expect(design?.diagnostics.map(({ code }) => code)).toContain('file-zero-fill');
  });

  it('of far moves keeps its positions exact', () => {
    const design = decodeHostile(large(raw(121, -121), 300_000));
    expect(design?.x.at(-1)).toBe(3_630_000);
    expect(design?.y.at(-1)).toBe(-3_630_000);
  });
});

describe('reading is one function of the bytes', () => {
  it('two readings of the same bytes are the same', () => {
    fc.assert(
      fc.property(plainDesign, (design) => {
        const bytes = encodeDst(design);
        expect(decodeDst(bytes)).toEqual(decodeDst(bytes));
      }),
      { numRuns: 30 },
    );
  });
});
