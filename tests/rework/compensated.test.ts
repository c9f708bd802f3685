/** Columns and areas drawn out for the pull: geometry, the proof, and the sewn width worked out again from the file that was written. */
import { describe, expect, it } from 'vitest';
import { Kind } from '../../lib/format/design.js';
import { penetrations } from '../../lib/format/stitches.js';
import { measureObject } from '../../lib/measure/measure-object.js';
import { type Compensation, pullsInHoop, sewnWidthMm } from '../../lib/mechanics/compensation.js';
import { prepare } from '../../lib/mechanics/risk.js';
import { compensated } from '../../lib/rework/compensated.js';
import { proveCompensated } from '../../lib/rework/compensation-proof.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { SHOP } from '../built-in-shop.js';
import { moved } from '../generators/changes.js';
import { FAMILIES } from '../generators/families/index.js';
import { itInFull } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { Needle } from '../report/little-design.js';
import { read, written } from './enlarged.js';

onACoarseMesh(1.5);

const file = { path: 'x.dst', format: 'dst' as const, bytes: 0, sha256: '0'.repeat(64) };
const STEP = 0.1;

const by = (
  object: number,
  alongMm: Compensation['alongMm'],
  acrossMm: Compensation['acrossMm'] = [0, 0],
): Compensation => ({ object, alongMm, acrossMm });

/** An upright column on the left edge 0, 4 mm wide and 20 high over a center run, and one beside it. */
const columns = () =>
  read(
    written(
      new Needle()
        .column(0, 0, { underlay: 'center-run' })
        .column(20, 0, { width: 6, underlay: 'zigzag' })
        .end(),
    )!,
  );

describe('a design drawn out', () => {
  it('has each edge of a column where it was asked to be, and all else where it was', () => {
    const { design, stitches, objects } = columns();
    const now = penetrations(compensated(design, stitches, objects, [by(1, [0.2, 0.1], [0.3, -0.1])]));
    const [first, second] = objects;
    const bounds = measureObject(now, first).bounds;
    const was = measureObject(stitches, first).bounds;
    // Its first swing goes to the left edge, and it is sewn upward.
    expect(bounds.maxX - was.maxX).toBeCloseTo(0.2, 2);
    expect(was.minX - bounds.minX).toBeCloseTo(0.1, 2);
    expect(was.minY - bounds.minY).toBeCloseTo(0.3, 1);
    expect(was.maxY - bounds.maxY).toBeCloseTo(0.1, 1);
    for (let i = second.underlay.range![0]; i < now.count; i++)
      expect([now.x[i], now.y[i]]).toEqual([stitches.x[i], stitches.y[i]]);
  });

  it('spreads the underlay of a column with it, by its share of the way out', () => {
    const { design, stitches, objects } = columns();
    const now = penetrations(compensated(design, stitches, objects, [by(2, [0.3, 0.3])]));
    const [first, last] = objects[1].underlay.range!;
    for (let i = first + 1; i < last; i++) {
      const share = (stitches.x[i] - 23) / 3;
      expect(now.x[i] - stitches.x[i]).toBeCloseTo(0.3 * share, 1);
    }
  });

  it('makes the rows of an area longer and the area higher', () => {
    const { design, stitches, objects } = read(written(new Needle().fill(0, 0).end())!);
    expect(objects.map(({ kind }) => kind)).toEqual(['fill']);
    const now = compensated(design, stitches, objects, [by(1, [0.2, 0.4], [0.1, 0.3])]);
    const { minX, maxX, minY, maxY } = measureObject(penetrations(now), objects[0]).bounds;
    expect([minX, maxX, minY]).toEqual([
      expect.closeTo(-0.2, 6),
      expect.closeTo(20.4, 6),
      expect.closeTo(-0.1, 6),
    ]);
    // The last row, and the ties above it.
    expect(maxY - measureObject(stitches, objects[0]).bounds.maxY).toBeCloseTo(0.3, 1);
  });

  it.each(['satin-curved', 'satin-wide', 'letters-word'].filter((name) => name in FAMILIES))(
    'makes every column of %s as much wider as is asked, and does not care how it is turned',
    (family) => {
      for (const seed of [1, 2]) {
        const { design } = FAMILIES[family](seed);
        const widened = (from: typeof design) => {
          const { stitches, objects } = read(from);
          const all = objects.filter(({ kind }) => kind === 'satin').map(({ id }) => by(id, [0.1, 0.1]));
          const now = penetrations(compensated(from, stitches, objects, all));
          return objects.flatMap((object) =>
            object.kind === 'satin'
              ? [measureObject(now, object).widthMm!.median - measureObject(stitches, object).widthMm!.median]
              : [],
          );
        };
        const wider = widened(design);
        expect(wider.length).toBeGreaterThan(0);
        for (const mm of wider) expect(Math.abs(mm - 0.2)).toBeLessThan(0.06);
        widened(moved(design, (x, y) => [-y, x])).forEach((mm, k) => {
          expect(mm).toBeCloseTo(wider[k], 3);
        });
      }
    },
  );
});

describe('the proof of a design drawn out', () => {
  const all = [by(1, [0.2, 0.2]), by(2, [0.2, 0.2])];
  const drawnOut = () => {
    const before = columns();
    const design = written(compensated(before.design, before.stitches, before.objects, all))!;
    return { before, design, stitches: penetrations(design) };
  };
  const faults = (change: (after: ReturnType<typeof drawnOut>) => void) => {
    const after = drawnOut();
    change(after);
    return proveCompensated(
      after.before,
      { design: after.design, stitches: penetrations(after.design) },
      after.before.objects,
      all,
    ).map(({ proof, because }) => because ?? proof);
  };

  it('holds where only edges moved, as far as they were to', () => {
    expect(faults(() => {})).toEqual(['covered', 'covered']);
  });

  it('fails where a needle point went elsewhere, a stitch is gone or a trim is', () => {
    const middle = ({ before: { objects } }: ReturnType<typeof drawnOut>) =>
      Math.round((objects[0].range[0] + objects[0].range[1]) / 2);
    expect(
      faults((after) => {
        after.design.x[after.stitches.record[middle(after)]] += 0.8;
      }),
    ).toEqual(['changed', 'covered']);
    expect(
      faults((after) => {
        after.design.kind[after.stitches.record[middle(after)]] = Kind.jump;
      }),
    ).toEqual(['machine', 'machine']);
    expect(
      faults(({ design }) => {
        design.kind[design.kind.lastIndexOf(Kind.trim)] = Kind.jump;
      }),
    ).toContain('machine');
  });
});

describe('lieflat relay --compensate', () => {
  it('comes out as wide as it was drawn, by the file that was written, read and worked out again', async () => {
    const design = written(
      new Needle()
        .column(0, 0, { width: 5, height: 9, underlay: 'center-run' })
        .column(9, 0, { width: 3, height: 9, underlay: 'center-run' })
        .fill(14, 0, { width: 9, height: 9 })
        .end(),
    )!;
    const conditions = SHOP.conditions({ fabric: 'performance-knit', stack: 'cutaway-2.5oz' });
    const { after, before, report } = await SHOP.relay(
      design,
      { file },
      { to: 'keep', compensate: true, conditions },
    );
    expect(report.objects).toEqual([]);
    expect(report.compensation!.left).toEqual([]);
    expect(report.compensation!.objects.map(({ object }) => object)).toEqual([1, 2, 3]);
    expect(after.stitches.count).toBe(before.stitches.count);
    const objects = findObjects(after.stitches);
    const pulls = pullsInHoop(
      prepare({ stitches: after.stitches, objects }, SHOP.catalogue),
      conditions,
      SHOP,
    );
    report.compensation!.objects.forEach(({ drawnMm, sewnMm, alongMm }, k) => {
      const sewn = sewnWidthMm(after.stitches, objects[k], pulls[k])!;
      expect(Math.abs(sewn - drawnMm)).toBeLessThan(1.5 * STEP);
      expect(sewnMm.after).toBeCloseTo(sewn, 1);
      expect(drawnMm - sewnMm.before).toBeGreaterThan(STEP);
      for (const mm of alongMm) expect(Math.round(mm / STEP) * STEP).toBeCloseTo(mm, 9);
    });
  });

  itInFull('draws out the objects that are named alone, over the underlay that is laid', async () => {
    const design = written(
      new Needle()
        .column(0, 0, { width: 5, height: 9, underlay: 'zigzag' })
        .column(9, 0, { width: 5, height: 9, underlay: 'zigzag' })
        .end(),
    )!;
    const conditions = SHOP.conditions({ fabric: 'fleece' });
    const { report, after } = await SHOP.relay(
      design,
      { file },
      { objects: [2], to: 'edge-run', compensate: true, conditions },
    );
    expect(report.compensation!.objects.map(({ object }) => object)).toEqual([2]);
    expect(after.objects.map(({ underlay }) => underlay.kinds)).toEqual([['double-zigzag'], ['edge-run']]);
  });
});
