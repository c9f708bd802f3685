import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AlikeBoxes, MOST_LATER } from '../../lib/core/alike-boxes.js';
import { type Bounds, shareWithin } from '../../lib/core/bounds.js';

const SHARE = 0.85;
const REACH = 4;

const side = fc.oneof(
  fc.constant(0),
  fc.double({ min: 0.1, max: 12, noNaN: true }),
  fc.constantFrom(60, 300),
);
const place = fc.double({ min: -20, max: 20, noNaN: true });
const box = fc
  .tuple(place, place, side, side)
  .map(([minX, minY, width, height]): Bounds => ({ minX, minY, maxX: minX + width, maxY: minY + height }));
/** A box and others about as large and nearly there. */
const alike = fc
  .tuple(box, fc.array(fc.tuple(fc.integer({ min: -30, max: 30 }), fc.integer({ min: -20, max: 20 }))))
  .map(([one, moves]) => [one, ...moves.map(([move, grow]) => moved(one, move / 10, grow / 10))]);
const moved = ({ minX, minY, maxX, maxY }: Bounds, by: number, grown: number): Bounds => ({
  minX: minX + by - grown,
  minY: minY - by,
  maxX: Math.max(minX + by - grown, maxX + by),
  maxY: Math.max(minY - by, maxY - by + grown),
});

describe('boxes that are alike', () => {
  it('are all among those that are found, each once', () => {
    fc.assert(
      fc.property(fc.array(alike, { maxLength: 5 }), (groups) => {
        const boxes = groups.flat();
        const others = new AlikeBoxes(boxes, SHARE, REACH);
        boxes.forEach((one, i) => {
          const found = [...others.after(i)];
          expect(new Set(found).size).toBe(found.length);
          for (const j of found) expect(j).toBeGreaterThan(i);
          for (let j = i + 1; j < boxes.length; j++)
            if (shareWithin(one, boxes[j], 1) >= SHARE && shareWithin(boxes[j], one, REACH) >= SHARE)
              expect(found).toContain(j);
        });
      }),
    );
  });

  it('are few for each, however many lie on one spot', () => {
    const boxes = Array.from({ length: 3000 }, (): Bounds => ({ minX: 0, minY: 0, maxX: 5, maxY: 3 }));
    const found = [...new AlikeBoxes(boxes, SHARE, REACH).after(10)];
    expect(found).toEqual(Array.from({ length: MOST_LATER }, (_, k) => 11 + k));
  });
});
