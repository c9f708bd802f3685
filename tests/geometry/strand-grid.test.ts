import fc from 'fast-check';
import { expect, it } from 'vitest';
import { squareToSegment } from '../../lib/core/distance.js';
import { StrandGrid } from '../../lib/geometry/strand-grid.js';

const place = fc.record({
  x: fc.double({ min: -40, max: 40, noNaN: true }),
  y: fc.double({ min: -40, max: 40, noNaN: true }),
});
const cellMm = 1.5;

it('finds every strand within a cell of a place, once, and none farther off than two', () => {
  fc.assert(
    fc.property(fc.array(place, { minLength: 2, maxLength: 60 }), place, (points, asked) => {
      const x = Float64Array.from(points, (p) => p.x);
      const y = Float64Array.from(points, (p) => p.y);
      const strands = Int32Array.from({ length: points.length - 1 }, (_, i) => i);
      const grid = new StrandGrid(x, y, strands, cellMm);
      // what an earlier question found is not in the way
      grid.near(x[0], y[0]);
      const found = [...grid.found.subarray(0, grid.near(asked.x, asked.y))];
      expect(new Set(found).size).toBe(found.length);
      for (const i of strands) {
        const mm = Math.sqrt(squareToSegment(asked.x, asked.y, x[i], y[i], x[i + 1], y[i + 1]));
        // a strand is marked at every half cell of its way, and may cut a corner between two marks
        if (mm < cellMm * 0.75) expect(found).toContain(i);
        if (mm > cellMm * 2 * Math.SQRT2) expect(found).not.toContain(i);
      }
    }),
  );
});

it('holds no strand, and strands without a length', () => {
  const [x, y] = [Float64Array.of(3, 3, 3), Float64Array.of(1, 1, 1)];
  expect(new StrandGrid(x, y, new Int32Array(0), cellMm).near(3, 1)).toBe(0);
  expect(new StrandGrid(x, y, Int32Array.of(0, 1), cellMm).near(3, 1)).toBe(2);
});
