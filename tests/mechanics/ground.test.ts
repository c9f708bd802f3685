import { describe, expect, it } from 'vitest';
import { Break, penetrations, type Stitches } from '../../lib/format/stitches.js';
import { gridFor } from '../../lib/mechanics/prepared-design.js';
import { designOf, type Row } from '../format/designs.js';

const cellsOf = (stitches: Stitches) => {
  const { nx, ny } = gridFor(stitches, []);
  return nx * ny;
};

/** A solid square of stitches, mm. */
const patch = (side: number, x = 0, y = 0): Row[] =>
  Array.from({ length: side * side }, (_, k): Row => [x + (k % side), y + Math.floor(k / side), 'stitch']);
const sewn = (rows: Row[]): Stitches => penetrations(designOf(rows));
const trimTo = (x: number, y: number): Row => [x, y, 'trim'];

describe('cells follow the thread, not the empty fabric', () => {
  // Each took from 10 to 27 s in pucker, as many cells as a jacket back.
  it.each<[string, Row[]]>([
    ['two clusters a metre apart', [...patch(8), trimTo(1000, 1000), ...patch(8, 1000, 1000)]],
    [
      'two clusters at two ends of what a file can hold',
      [...patch(8), trimTo(9000, 9000), ...patch(8, 9000, 9000)],
    ],
    [
      'a slanting line of 2.4 m without an area',
      Array.from({ length: 300 }, (_, k): Row => [8 * k, 8 * k, 'stitch']),
    ],
    ['one stray point', [...patch(20), trimTo(2000, 900), [2000, 900, 'stitch']]],
  ])('%s', (_, rows) => {
    expect(cellsOf(sewn(rows))).toBeLessThanOrEqual(1 << 16);
  });

  it('a line there and back takes a part of what a filled field does', () => {
    const line = Array.from({ length: 300 }, (_, k): Row => [0, 12 * Math.min(k, 300 - k), 'stitch']);
    const field = Array.from(
      { length: 150 * 150 },
      (_, k): Row => [12 * (k % 150), 12 * Math.floor(k / 150), 'stitch'],
    );
    expect(cellsOf(sewn(line))).toBeLessThanOrEqual(cellsOf(sewn(field)) / 4);
  });

  it.each<[string, Row[]]>([
    ['a solid design of 300 mm', patch(300)],
    ['two small names at the ends of a sleeve', [...patch(20), trimTo(250, 0), ...patch(20, 250, 0)]],
    [
      'a ring of 200 mm',
      Array.from(
        { length: 400 },
        (_, k): Row => [100 * Math.cos(k / 63.7), 100 * Math.sin(k / 63.7), 'stitch'],
      ),
    ],
  ])('but %s has cells as small as ever', (_, rows) => {
    const { cellMm } = gridFor(sewn(rows), []);
    expect(cellMm).toBe(0.75);
  });

  it('thread that a long stitch lays counts, a move after a trim does not', () => {
    const strokes = Array.from({ length: 60 }, (_, k): Row => [(k % 2) * 600, 10 * k, 'stitch']);
    const points = strokes.flatMap(([x, y]): Row[] => [trimTo(x, y), [x, y, 'stitch']]);
    expect(sewn(points).breakBefore[1]).toBe(Break.trim);
    expect(cellsOf(sewn(strokes))).toBeGreaterThan(cellsOf(sewn(points)));
  });
});
