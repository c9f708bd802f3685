import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Kind } from '../../lib/format/design.js';
import { Break, penetrations } from '../../lib/format/stitches.js';
import { anyDesign, designOf } from './designs.js';

describe('needle penetrations', () => {
  it('are the stitch records in order, each with the strongest break before it', () => {
    const stitches = penetrations(
      designOf([
        [1, 0, 'jump'],
        [1, 1, 'stitch'],
        [2, 1, 'stitch'],
        [3, 1, 'jump'],
        [4, 1, 'stitch'],
        [4, 1, 'stop'],
        [5, 1, 'jump'],
        [5, 1, 'stitch'],
        [9, 1, 'trim'],
        [9, 1, 'stop'],
        [9, 1, 'stitch'],
        [9, 1, 'colour'],
        [30, 1, 'trim'],
        [30, 1, 'stitch'],
        [30, 1, 'end'],
      ]),
    );
    expect(stitches.count).toBe(6);
    expect(Array.from(stitches.x)).toEqual([1, 2, 4, 5, 9, 30]);
    expect(Array.from(stitches.y)).toEqual([1, 1, 1, 1, 1, 1]);
    expect(Array.from(stitches.record)).toEqual([1, 2, 4, 7, 10, 13]);
    expect(Array.from(stitches.block)).toEqual([0, 0, 0, 0, 0, 1]);
    expect(Array.from(stitches.breakBefore)).toEqual([
      Break.start,
      Break.none,
      Break.jump,
      Break.stop,
      Break.trim,
      Break.colour,
    ]);
  });

  it('agree with a plain count, whatever the design, which is left as it was', () => {
    fc.assert(
      fc.property(anyDesign, (design) => {
        const kinds = Array.from(design.kind);
        const stitches = penetrations(design);
        expect(stitches.count).toBe(kinds.filter((code) => code === Kind.stitch).length);
        for (let n = 0; n < stitches.count; n++) {
          const record = stitches.record[n];
          expect(kinds[record]).toBe(Kind.stitch);
          expect(stitches.x[n]).toBe(design.x[record]);
          expect(stitches.block[n]).toBe(
            kinds.slice(0, record).filter((code) => code === Kind.colour).length,
          );
        }
        expect(Array.from(design.kind)).toEqual(kinds);
      }),
    );
  });

  it('of a design without stitches are none', () => {
    expect(penetrations(designOf([[0, 0, 'end']])).count).toBe(0);
  });
});
