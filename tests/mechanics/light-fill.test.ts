import { describe, expect, it } from 'vitest';
import { Break } from '../../lib/format/stitches.js';
import { onLightFill, type SewnDesign } from '../../lib/mechanics/light-fill.js';
import { COLUMN, FILL, rectangle, Sewing } from './designs.js';
import { sampleDesign } from './sample-designs.js';

/** Two upright columns of 4.5 mm over double zigzag, and a fill. */
function sewn(): SewnDesign {
  const sewing = new Sewing();
  const plan = { ...COLUMN, underlay: ['double-zigzag' as const] };
  for (const x of [0, 10])
    sewing.column(
      [
        [x, 0],
        [x, 20],
      ],
      plan,
    );
  return rectangle(sewing, 30, 10, 12, 8, FILL).done();
}

const topPoints = ({ stitches: { x, y }, objects }: SewnDesign) =>
  objects.map(({ range: [a, b], from, to }) => ({
    top: [...x.subarray(a, b + 1), ...y.subarray(a, b + 1)],
    ends: Array.from(from, (i, k) => [x[i], y[i], x[to[k]], y[to[k]]]),
  }));

describe('a design relaid on a light fill', () => {
  it('keeps all top stitching, and its ids', () => {
    const before = sewn();
    const after = onLightFill(before);
    expect(topPoints(after)).toEqual(topPoints(before));
    expect(after.objects.map(({ id }) => id)).toEqual([1, 2, 3]);
    expect(after.objects[2].underlay.stitches).toBe(before.objects[2].underlay.stitches);
  });

  it('lays rows of short stitches 3 mm apart across the columns asked for, within their rails', () => {
    const before = sewn();
    const { stitches, objects } = onLightFill(before, new Set([1]));
    expect(objects[1].underlay.kinds).toEqual(['double-zigzag']);
    const { kinds, range, spacingMm } = objects[0].underlay;
    expect([kinds, spacingMm]).toEqual([['fill'], 3]);
    const [a, b] = range!;
    const rows = new Map<number, number[]>();
    for (let i = a; i <= b; i++) {
      const y = Math.round(stitches.y[i]);
      rows.set(y, [...(rows.get(y) ?? []), stitches.x[i]]);
    }
    const heights = [...rows.keys()];
    for (let k = 1; k < heights.length; k++) expect(Math.abs(heights[k] - heights[k - 1])).toBe(3);
    for (const xs of rows.values()) {
      for (const x of xs) expect(Math.abs(x)).toBeLessThan(4.5 / 2 - 0.4);
      for (let k = 1; k < xs.length; k++) expect(Math.abs(xs[k] - xs[k - 1])).toBeLessThanOrEqual(1.5);
    }
    expect(stitches.breakBefore[0]).toBe(Break.start);
    expect(stitches.breakBefore[objects[0].range[0]]).toBe(Break.none);
  });

  it('leaves alone what other columns have beneath them, though one underlay reaches over another', async () => {
    const cap = await sampleDesign('cap-front.dst');
    const wide = cap.objects.find(({ underlay, range }) =>
      cap.objects.some((o) => underlay.range && o.range[0] > underlay.range[0] && o.range[1] < range[0]),
    )!;
    const after = onLightFill(cap, new Set([wide.id]));
    expect(after.objects[wide.id - 1].underlay.kinds).toEqual(['fill']);
    const others = ({ objects }: SewnDesign) =>
      objects.filter(({ id }) => id !== wide.id).map(({ underlay }) => underlay.stitches);
    expect(others(after)).toEqual(others(cap));
    expect(topPoints(after)).toEqual(topPoints(cap));
  });
});
