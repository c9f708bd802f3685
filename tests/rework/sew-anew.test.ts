/** A design taken apart and sewn together again by layers of our own, and what is told of it beforehand. */
import { describe, expect, it } from 'vitest';
import { squareToSegment } from '../../lib/core/distance.js';
import { Kind } from '../../lib/format/design.js';
import { type StretchLayer, TakenApart } from '../../lib/rework/sew-anew.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type EdgePoint, mapEdge } from '../../lib/stitch/edge.js';
import { findSections } from '../../lib/stitch/find-sections.js';
import { unchanged } from '../../lib/stitch/new-edges.js';
import { keepLength, layRun } from '../../lib/stitch/sew-run.js';
import { findStretches } from '../../lib/stitch/stretches.js';
import { vec } from '../generators/plane.js';
import { Board, block, rows, walk, zigzag } from '../segment/board.js';

/** A run, a trim, a column with locks, a color change, an area. */
function board(): Board {
  const all = new Board().sew(walk(2, vec(-20, 0), vec(-6, 0), vec(-6, 8)));
  all.move('trim');
  all.sew([vec(0, 0), vec(0.7, 0), vec(0, 0)], zigzag(vec(0, 0), vec(20, 0), 4, 0.4), [
    vec(19.3, 0),
    vec(20, 0),
  ]);
  all.move('colour');
  return all.sew(rows(0.4, 16, block(30, 54)));
}

/** Everything times so much as it was about the origin, and moved. */
const layer = (by: number, dx: number): StretchLayer => {
  const to = (x: number, y: number): EdgePoint => [by * x + dx, by * y];
  return {
    edges: (_, shape) => ({
      ...unchanged(shape),
      a: mapEdge(shape.a.line, to),
      b: mapEdge(shape.b.line, to),
      to,
      grown: new Float64Array(shape.span).fill(by),
      spacingMm: 0.4,
    }),
    path: ({ x, y, fixed }) => layRun(x, y, fixed, to, keepLength),
    carry: to,
    outMm: 0,
  };
};

const { design, stitches } = board();
const objects = findObjects(stitches);
const apart = new TakenApart(design, stitches, objects, true, new Set());
const controls = (kinds: Uint8Array) => kinds.filter((kind) => kind !== Kind.stitch && kind !== Kind.jump);

describe('a design sewn together again as it was', () => {
  const whole = apart.grow(layer(1, 0)).whole();

  it('has its needle points, what the machine does between them, and its objects where they were', () => {
    expect(whole.stitches.count).toBe(stitches.count);
    whole.stitches.x.forEach((x, i) => {
      expect(Math.hypot(x - stitches.x[i], whole.stitches.y[i] - stitches.y[i])).toBeLessThan(0.08);
    });
    expect([...whole.stitches.breakBefore]).toEqual([...stitches.breakBefore]);
    expect(controls(whole.design.kind)).toEqual(controls(design.kind));
    whole.objects.forEach((object, k) => {
      expect(object.range).toEqual(objects[k].range);
      expect([...object.from]).toEqual([...objects[k].from]);
      expect([...object.to]).toEqual([...objects[k].to]);
    });
    expect(whole.left).toEqual([]);
  });
});

describe('a design sewn together larger', () => {
  const growing = apart.grow(layer(1.4, 7));
  const whole = growing.whole();

  it('is larger, has more stitches, and the same done between them', () => {
    expect(whole.stitches.count).toBeGreaterThan(1.3 * stitches.count);
    expect(controls(whole.design.kind)).toEqual(controls(design.kind));
    expect(whole.objects.map(({ kind }) => kind)).toEqual(objects.map(({ kind }) => kind));
    expect(whole.stitches.x[0]).toBeCloseTo(1.4 * -20 + 7, 6);
  });

  it('has each object alone as it is in the whole, within the reach told beforehand', () => {
    objects.forEach((object, k) => {
      const alone = growing.alone(k);
      const [first, last] = alone.objects[0].range;
      const [start, end] = whole.objects[k].range;
      expect(last - first).toBe(end - start);
      const reach = growing.reach(k);
      for (let i = first; i <= last; i++) {
        const [x, y] = [alone.stitches.x[i], alone.stitches.y[i]];
        expect(x).toBe(whole.stitches.x[start + i - first]);
        expect(y).toBe(whole.stitches.y[start + i - first]);
        expect(x >= reach.minX && x <= reach.maxX && y >= reach.minY && y <= reach.maxY).toBe(true);
      }
      expect(object.id).toBe(alone.objects[0].id);
    });
  });

  it('never holds thread where it was told beforehand that none may be, and tells that of most places far off', () => {
    let far = 0;
    let told = 0;
    objects.forEach((_, k) => {
      const { stitches: made, objects: only } = growing.alone(k);
      const [first, last] = only[0].range;
      for (let px = -30; px <= 90; px += 4.7) {
        for (let py = -20; py <= 40; py += 4.3) {
          let square = Number.POSITIVE_INFINITY;
          for (let i = first + 1; i <= last; i++)
            square = Math.min(
              square,
              squareToSegment(px, py, made.x[i - 1], made.y[i - 1], made.x[i], made.y[i]),
            );
          const may = growing.mayHold(k, px, py, 0.2);
          if (square <= 0.2 ** 2) expect(may).toBe(true);
          if (square < 16) continue;
          far++;
          if (!may) told++;
        }
      }
    });
    expect(told).toBeGreaterThan(0.9 * far);
  });

  it('moves the tiny stitches of a lock along with what they lock', () => {
    const column = whole.objects.find(({ kind }) => kind === 'satin')!;
    const [lock] = findStretches(stitches, objects, findSections(stitches, objects)).filter(
      ({ kind }) => kind === 'lock',
    );
    const { x, y } = whole.stitches;
    const at = column.range[0] - (lock.last - lock.first + 1);
    for (let i = lock.first; i <= lock.last; i++) {
      const held = lock.last + 1;
      expect(x[at + i - lock.first] - x[column.range[0]]).toBeCloseTo(stitches.x[i] - stitches.x[held], 6);
      expect(y[at + i - lock.first] - y[column.range[0]]).toBeCloseTo(stitches.y[i] - stitches.y[held], 6);
    }
  });
});

describe('an object that is left', () => {
  it('keeps each of its stitches where everything is carried, while the rest is sewn anew', () => {
    const fill = objects.findIndex(({ kind }) => kind === 'fill');
    const left = new TakenApart(design, stitches, objects, true, new Set([objects[fill].id]));
    const whole = left.grow(layer(1.4, 7)).whole();
    const [first, last] = objects[fill].range;
    const [start, end] = whole.objects[fill].range;
    expect(end - start).toBe(last - first);
    expect(whole.stitches.count).toBeGreaterThan(stitches.count);
  });
});

describe('an object that is not what it was when it is sewn again', () => {
  it('is left, stitch by stitch, and named', () => {
    // needle points beyond the end of their row, told as points inside it: no row is sewn so
    const out = stitches.x.slice();
    const fill = objects.find(({ kind }) => kind === 'fill')!;
    for (let k = 0; k < fill.from.length; k += 4) {
      const [i, end] = [fill.to[k] - 1, fill.to[k]];
      out[i] = out[end] + 0.9 * Math.sign(out[end] - out[fill.from[k]]);
    }
    const apart = new TakenApart(design, { ...stitches, x: out }, objects, true, new Set());
    const whole = apart.grow(layer(1.4, 7)).whole();
    expect(whole.left?.filter(({ object }) => object === fill.id)).toEqual([
      { object: fill.id, part: 'top', because: 'no-rule' },
    ]);
    const [start, end] = whole.objects[fill.id - 1].range;
    expect(end - start).toBe(fill.range[1] - fill.range[0]);
    for (let i = start; i <= end; i++)
      expect(whole.stitches.x[i]).toBeCloseTo(1.4 * out[fill.range[0] + i - start] + 7, 6);
  });
});
