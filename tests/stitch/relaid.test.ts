import { describe, expect, it } from 'vitest';
import { Break } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { kindsOf, LAID_UNDERLAYS } from '../../lib/stitch/laid-underlay.js';
import { relaid, type SewnDesign } from '../../lib/stitch/relaid.js';
import { everyNth } from '../in-full.js';
import { COLUMN, FILL, rectangle, Sewing } from '../mechanics/designs.js';
import { sampleDesign } from '../mechanics/sample-designs.js';
import { relaidAll } from './relaid-all.js';

/** Two upright columns of 6 mm over double zigzag, and a fill. */
function sewn(): SewnDesign {
  const sewing = new Sewing();
  const plan = { ...COLUMN, width: 6, underlay: ['double-zigzag' as const] };
  for (const x of [0, 12])
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

/** All stitches that are no underlay of satin columns. */
function kept({ stitches: { x, y, count }, objects }: SewnDesign, ids: ReadonlySet<number>): number[][] {
  const under = new Set<number>();
  for (const { id, underlay } of objects) {
    if (!ids.has(id) || underlay.range === null) continue;
    for (let i = underlay.range[0]; i <= underlay.range[1]; i++) under.add(i);
  }
  return Array.from({ length: count }, (_, i) => i).flatMap((i) => (under.has(i) ? [] : [[x[i], y[i]]]));
}

describe('a design relaid', () => {
  it.each(LAID_UNDERLAYS)('on %s keeps all top stitching and its ids, and says what lies there', (kind) => {
    const before = sewn();
    const after = relaidAll(before, kind);
    expect(topPoints(after)).toEqual(topPoints(before));
    expect(after.objects.map(({ id }) => id)).toEqual([1, 2, 3]);
    expect(after.objects[2].underlay.stitches).toBe(before.objects[2].underlay.stitches);
    for (const { underlay, range } of after.objects.slice(0, 2)) {
      expect(underlay.kinds).toEqual(kindsOf(kind));
      const [a, b] = underlay.range!;
      expect(underlay.stitches).toBe(b - a + 1);
      expect(b).toBe(range[0] - 1);
    }
  });

  it.each(LAID_UNDERLAYS)('on %s is found to be so', (kind) => {
    const after = relaidAll(sewn(), kind);
    const found = findObjects(after.stitches);
    const columns = ({ objects }: Pick<SewnDesign, 'objects'>) =>
      objects.filter((o) => o.kind === 'satin').map(({ id, range }) => [id, range]);
    expect(found.length).toBe(after.objects.length);
    expect(columns({ objects: found })).toEqual(columns(after));
    for (const { underlay } of found.slice(0, 2))
      expect([...underlay.kinds].sort()).toEqual([...kindsOf(kind)].sort());
  });

  it('on a light fill has rows of short stitches 3 mm apart in the columns asked for, within their rails', () => {
    const { stitches, objects } = relaid(sewn(), new Map([[1, 'fill']]));
    expect(objects[1].underlay.kinds).toEqual(['double-zigzag']);
    const { range, spacingMm } = objects[0].underlay;
    expect(spacingMm).toBeCloseTo(3, 6);
    const [a, b] = range!;
    // rows reach from edge to edge, the lead and the steps between them do not
    const rows = new Map<number, number[]>();
    for (let i = a; i <= b; i++) {
      expect(Math.abs(stitches.x[i])).toBeLessThan(6 / 2 - 0.45);
      const y = Math.round(stitches.y[i] * 100) / 100;
      rows.set(y, [...(rows.get(y) ?? []), stitches.x[i]]);
    }
    const heights = [...rows].filter(([, xs]) => xs.some((x) => x > 2.3) && xs.some((x) => x < -2.3));
    expect(heights.length).toBe(7);
    const ys = heights.map(([y]) => y).sort((p, q) => p - q);
    // as near as the grid of a file has them
    for (let k = 1; k < ys.length; k++) expect(Math.abs(ys[k] - ys[k - 1] - 3)).toBeLessThan(0.11);
  });

  it('keeps the cut before the underlay that is gone', () => {
    const { stitches, objects } = relaidAll(sewn(), 'fill');
    const [first, second] = objects.map(({ underlay }) => underlay.range![0]);
    expect(stitches.breakBefore[first]).toBe(Break.start);
    expect(stitches.breakBefore[second]).toBe(Break.trim);
    for (const { range } of objects.slice(0, 2)) expect(stitches.breakBefore[range[0]]).toBe(Break.none);
  });

  it('takes out with an underlay the locks of a thread that sewed nothing else', () => {
    const { stitches, objects } = sewn();
    const [first, last] = objects[1].underlay.range!;
    const breakBefore = stitches.breakBefore.slice();
    breakBefore[last + 1] = Break.trim;
    // the first three points and the last two of that underlay are locks of its thread, no underlay
    const apart = objects.map((object) =>
      object.id === 2
        ? { ...object, underlay: { ...object.underlay, range: [first + 3, last - 2] as const } }
        : object,
    );
    const after = relaid({ stitches: { ...stitches, breakBefore }, objects: apart }, new Map([[2, 'fill']]));
    const [a] = after.objects[1].underlay.range!;
    expect(a).toBe(after.objects[0].range[1] + 1);
    expect(after.stitches.breakBefore[a]).toBe(Break.trim);
    // where the thread goes on to the top stitching they stay
    const joined = relaid({ stitches, objects: apart }, new Map([[2, 'fill']]));
    const sewnIn = ({ stitches: { x, y } }: SewnDesign, i: number) => `${x[i]} ${y[i]}`;
    const locks = [0, 1, 2].map((k) => sewnIn({ stitches, objects }, first + k));
    const from = joined.objects[0].range[1] + 1;
    expect([0, 1, 2].map((k) => sewnIn(joined, from + k))).toEqual(locks);
    expect(joined.stitches.count).toBeGreaterThanOrEqual(after.stitches.count + 5);
  });

  it('leaves alone what other columns have beneath them, though one underlay reaches over another', async () => {
    const cap = await sampleDesign('cap-front.dst');
    const wide = cap.objects.find(({ underlay, range }) =>
      cap.objects.some((o) => underlay.range && o.range[0] > underlay.range[0] && o.range[1] < range[0]),
    )!;
    const after = relaid(cap, new Map([[wide.id, 'fill']]));
    expect(after.objects[wide.id - 1].underlay.kinds).toEqual(['fill']);
    const others = ({ objects }: SewnDesign) =>
      objects.filter(({ id }) => id !== wide.id).map(({ underlay }) => underlay.stitches);
    expect(others(after)).toEqual(others(cap));
    expect(topPoints(after)).toEqual(topPoints(cap));
  });

  it('has no stitch past one record that is not marked as a move', async () => {
    for (const name of everyNth(2, ['name-drop.dst', 'jacket-back.dst', 'cap-front.dst', 'crest.dst'])) {
      const { stitches } = relaidAll(await sampleDesign(name), 'fill');
      const { x, y, breakBefore, count } = stitches;
      for (let i = 1; i < count; i++) {
        if (breakBefore[i] !== Break.none) continue;
        expect(Math.max(Math.abs(x[i] - x[i - 1]), Math.abs(y[i] - y[i - 1]))).toBeLessThanOrEqual(
          12.1 + 1e-9,
        );
      }
    }
  });

  it('twice is what it is once', async () => {
    const name = await sampleDesign('name-drop.dst');
    const ids = new Set(name.objects.map(({ id }) => id));
    const once = relaidAll(name, 'edge-run');
    const twice = relaidAll(once, 'edge-run');
    expect(twice.objects).toEqual(once.objects);
    expect(kept(twice, ids)).toEqual(kept(once, ids));
    expect(twice.stitches).toEqual({ ...once.stitches, record: twice.stitches.record });
  });
});
