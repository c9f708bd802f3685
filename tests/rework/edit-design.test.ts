import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Design, Kind, type KindCode } from '../../lib/format/design.js';
import { editDesign, needleAt, type Splice } from '../../lib/rework/edit-design.js';

/** A design whose record `i` stands at (i, −i); its thread changes every four records. */
function numbered(count: number): Design {
  return {
    x: Float64Array.from({ length: count }, (_, i) => i),
    y: Float64Array.from({ length: count }, (_, i) => -i),
    kind: Uint8Array.from({ length: count }, (_, i) => (i % 4 === 3 ? Kind.colour : Kind.stitch)),
    thread: Int32Array.from({ length: count }, (_, i) => Math.floor(i / 4)),
    header: [{ key: 'LA', value: 'name', byte: 0 }],
    diagnostics: [],
    format: 'dst',
  };
}

const rows = ({ x, y, kind, thread }: Design) =>
  Array.from(x, (px, i) => [px, y[i], kind[i], thread![i]] as const);

describe('a design edited', () => {
  it('is what the same splices make of a list of its records', () => {
    const cut = fc.record({
      skip: fc.nat(4),
      drop: fc.nat(4),
      put: fc.array(fc.tuple(fc.integer(), fc.integer(), fc.constantFrom(...Object.values(Kind))), {
        maxLength: 3,
      }),
    });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 30 }), fc.array(cut, { maxLength: 6 }), (count, cuts) => {
        const design = numbered(count);
        const before = structuredClone(design);
        const list = rows(design);
        const splices: Splice[] = [];
        let at = 0;
        for (const { skip, drop, put } of cuts) {
          at = Math.min(count, at + skip);
          const dropped = Math.min(drop, count - at);
          splices.push({
            at,
            drop: dropped,
            put: put.map(([x, y, kind]) => ({ kind: kind as KindCode, x, y })),
          });
          at += dropped;
        }
        for (const { at: first, drop, put } of [...splices].reverse()) {
          const thread = design.thread![Math.min(first + drop, count - 1)];
          list.splice(first, drop, ...put.map(({ kind, x, y }) => [x, y, kind, thread] as const));
        }
        const edited = editDesign(design, splices);
        expect(rows(edited)).toEqual(list);
        expect(edited.header).toBe(design.header);
        expect(design).toEqual(before);
      }),
      { numRuns: 100 },
    );
  });

  it('has no threads where it had none', () => {
    const edited = editDesign({ ...numbered(4), thread: null }, [{ at: 1, drop: 1, put: [needleAt(7, 8)] }]);
    expect([edited.thread, edited.x[1], edited.y[1], edited.kind[1]]).toEqual([null, 7, 8, Kind.stitch]);
  });

  it('refuses splices that reach into each other or past the end', () => {
    const splice = (at: number, drop: number): Splice => ({ at, drop, put: [] });
    expect(() => editDesign(numbered(8), [splice(2, 3), splice(4, 1)])).toThrow(RangeError);
    expect(() => editDesign(numbered(8), [splice(7, 2)])).toThrow(RangeError);
  });
});
