import { describe, expect, it } from 'vitest';
import { misreadings } from '../../lib/rework/relay-check.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import type { LayWay } from '../../lib/stitch/thread-under.js';
import { vec } from '../generators/plane.js';
import { Board, walk, zigzag } from '../segment/board.js';

const board = new Board().sew(walk(2, vec(0.5, 0), vec(19.5, 0)), zigzag(vec(20, 0), vec(0, 0), 4, 0.4));
board.move('trim');
const { stitches } = board.sew(zigzag(vec(0, 20), vec(20, 20), 4, 0.4));
const before = findObjects(stitches);
const relaid = {
  movedTo: Int32Array.from({ length: stitches.count }, (_, i) => i),
  laid: new Map(),
  leading: new Map<number, number>(),
  ways: new Map([[1, { to: 'center-run' } as LayWay]]),
};
const found = (after: readonly StitchObject[], exactly?: (id: number) => boolean) =>
  Object.fromEntries(misreadings(before, after, relaid, exactly));
const changed = (k: number, by: Partial<StitchObject>) =>
  before.map((object, n) => (n === k ? { ...object, ...by } : object));

describe('a relaid design read again', () => {
  it('is as meant where it reads as the same objects with what was asked for', () => {
    expect(before.map(({ underlay }) => underlay.kinds)).toEqual([['center-run'], []]);
    expect(found(before)).toEqual({});
  });

  it('reads otherwise where the underlay is another, or none', () => {
    expect(found(changed(0, { underlay: { ...before[0].underlay, kinds: ['zigzag'] } }))).toEqual({
      1: 'underlay',
    });
    expect(found(changed(0, { underlay: { ...before[0].underlay, kinds: [] } }))).toEqual({ 1: 'underlay' });
  });

  it('reads otherwise where an object is another, gone, or new; it is put down to the nearest column that was relaid', () => {
    expect(found(changed(0, { kind: 'fill' }))).toEqual({ 1: 'objects' });
    expect(found(changed(1, { split: true }))).toEqual({ 1: 'objects' });
    expect(found(before.slice(0, 1))).toEqual({ 1: 'objects' });
    expect(found([...before, { ...before[1], range: [stitches.count - 3, stitches.count - 1] }])).toEqual({
      1: 'objects',
    });
  });

  it('reads otherwise where a lock is lost, not where one is won', () => {
    const locked = changed(0, { locks: { start: true, end: true } });
    expect(Object.fromEntries(misreadings(locked, before, relaid))).toEqual({ 1: 'locks' });
    expect(found(locked)).toEqual({});
  });

  it('lets one needle point change sides where that is allowed', () => {
    const [first, last] = before[0].range;
    const shifted = changed(0, { range: [first - 1, last] });
    expect(found(shifted, () => false)).toEqual({});
    expect(found(shifted)).toEqual({ 1: 'objects' });
    expect(
      Object.fromEntries(misreadings(before, shifted, { ...relaid, leading: new Map([[1, 1]]) })),
    ).toEqual({});
  });
});
