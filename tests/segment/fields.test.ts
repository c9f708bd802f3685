import { describe, expect, it } from 'vitest';
import { measureObject } from '../../lib/measure/measure-object.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { block, ringRun, rows, sewn, TURNS, turned, walk, zigzag } from './board.js';

/** A spiral inward from `radius` to 1 mm, its rings `apart`. */
function spiral(radius: number, apart: number, stitch = 2.2): Vec[] {
  const points: Vec[] = [];
  for (let a = 0, r = radius; r > 1; a += stitch / r, r = radius - (apart * a) / (2 * Math.PI))
    points.push(vec(r * Math.cos(a), r * Math.sin(a)));
  return points;
}

/** Rings that follow a rectangle inward, each sewn round and left by a step to the next. */
function outline(width: number, height: number, apart: number): Vec[] {
  const points: Vec[] = [];
  for (let inset = 0; inset < height / 2 - apart; inset += apart) {
    const [w, h] = [width / 2 - inset, height / 2 - inset];
    points.push(...walk(2.4, vec(-w, -h), vec(w, -h), vec(w, h), vec(-w, h), vec(-w, -h)));
  }
  return points;
}

/** Rays out and in between two rings, `count` of them. */
const rays = (count: number, inner: number, outer: number): Vec[] =>
  Array.from({ length: count }, (_, k) => {
    const a = (2 * Math.PI * k) / count;
    const b = (2 * Math.PI * (k + 0.5)) / count;
    const at = (r: number, angle: number) => vec(r * Math.cos(angle), r * Math.sin(angle));
    const steps = [inner, inner + 3, inner + 6, inner + 9, outer];
    return [...steps.map((r) => at(r, a)), ...[...steps].reverse().map((r) => at(r, b))];
  }).flat();

/** Rows along x that bend up by `rise` in their middle. */
const bent = (points: readonly Vec[], width: number, rise: number): Vec[] =>
  points.map((p) => vec(p.x, p.y + rise * Math.sin((Math.PI * p.x) / width)));

describe.each(TURNS)('turned by $degrees, mirrored $mirror', (turn) => {
  const only = (points: readonly Vec[]) => {
    const stitches = sewn(turned(points, turn));
    const objects = findObjects(stitches);
    expect(objects.map(({ kind }) => kind)).toEqual(['fill']);
    return { object: objects[0], measures: measureObject(stitches, objects[0]), count: points.length };
  };

  it.each([0.4, 0.5, 0.8])('a spiral with rings %s mm apart is an area', (apart) => {
    const { object, measures, count } = only(spiral(12, apart));
    expect(object.pattern).toBe('spiral');
    expect(object.range).toEqual([0, count - 1]);
    expect(measures.spacingMm?.median).toBeCloseTo(apart, 1);
    expect(measures.angleDeg).toBeNull();
    expect(measures.areaMm2 / (Math.PI * 12 * 12)).toBeGreaterThan(0.9);
    expect(measures.areaMm2 / (Math.PI * 12 * 12)).toBeLessThan(1.1);
  });

  it.each([0.4, 0.6])('so are rings %s mm apart that follow its outline', (apart) => {
    const { object, measures } = only(outline(26, 18, apart));
    expect(object.pattern).toBe('outline');
    expect(Math.abs((measures.spacingMm?.median ?? 0) - apart)).toBeLessThan(0.03);
    expect(measures.angleDeg).toBeNull();
    expect(measures.areaMm2 / (26 * 18)).toBeGreaterThan(0.9);
    expect(measures.areaMm2 / (26 * 18)).toBeLessThan(1.1);
  });

  it('rays are an area without a direction', () => {
    const { object, measures } = only(rays(120, 4, 15));
    expect(object.pattern).toBe('radial');
    expect(measures.angleDeg).toBeNull();
  });

  it('bent rows are, and straight ones have theirs', () => {
    const straight = rows(0.4, 14, block(0, 24));
    const curved = only(bent(straight, 24, 3));
    expect(curved.object.pattern).toBe('curved');
    expect(curved.measures.angleDeg).toBeNull();
    expect(Math.abs((curved.measures.spacingMm?.median ?? 0) - 0.4)).toBeLessThan(0.03);
    const plain = only(straight);
    expect(plain.object.pattern).toBe('rows');
    expect(plain.measures.angleDeg).not.toBeNull();
  });

  it('open rows are loose', () => {
    expect(only(rows(1.2, 20, block(0, 20))).object.pattern).toBe('loose');
  });

  it.each([1, 2, 3])('a ring sewn %s times over is a run', (times) => {
    const objects = findObjects(sewn(turned(ringRun(14, 2.4, times), turn)));
    expect(objects).toMatchObject([{ kind: 'run', pattern: null, passes: times }]);
  });

  it('rings too far apart to cover are runs', () => {
    expect(findObjects(sewn(turned(spiral(16, 2.2), turn))).map(({ kind }) => kind)).toEqual(['run']);
  });

  it('rings that lie near to each other here and far there cover nothing evenly, and are a run', () => {
    const winding = (uneven: number) => {
      const points: Vec[] = [];
      for (let a = 0, r = 12; r > 1; a += 2.2 / r) {
        points.push(vec(r * Math.cos(a), r * Math.sin(a)));
        r -= (0.7 * (1 + uneven * Math.sin(4 * r)) * (2.2 / r)) / (2 * Math.PI);
      }
      return findObjects(sewn(turned(points, turn))).map(({ kind }) => kind);
    };
    expect(winding(0.3)).toEqual(['fill']);
    expect(winding(0.6)).toEqual(['run']);
  });

  it('a column or an area under a spiral stays its underlay', () => {
    const under = rows(3, 14, block(-7, 7)).map((p) => vec(p.x, p.y - 7));
    const objects = findObjects(sewn(turned(under, turn), turned(spiral(12, 0.4), turn)));
    expect(objects).toMatchObject([{ kind: 'fill', pattern: 'spiral', underlay: { kinds: ['fill'] } }]);
  });

  it('nothing but areas has a pattern', () => {
    const objects = findObjects(
      sewn(
        turned(zigzag(vec(0, 0), vec(20, 0), 4, 0.4), turn),
        turned(walk(2.5, vec(24, 0), vec(40, 9)), turn),
      ),
    );
    expect(objects.map(({ pattern }) => pattern)).toEqual(objects.map(() => null));
  });
});
