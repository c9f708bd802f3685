/** What a shop says of an object goes before what was found, as far as its stitches bear it out. */
import { describe, expect, it } from 'vitest';
import { measureObject } from '../../lib/measure/measure-object.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import { type Saying, saidToo } from '../../lib/segment/set-right/saying.js';
import { movedSaid, numberedAs, saidAnew, setRight } from '../../lib/segment/set-right/set-right.js';
import { vec } from '../generators/plane.js';
import { Board, block, rows, walk, zigzag } from './board.js';

/** An open zigzag in one color and a column over it in the next, then a column by itself. */
const overlaid = () => {
  const board = new Board()
    .sew(zigzag(vec(0, 0), vec(30, 0), 3.2, 2.4))
    .move('colour')
    .sew(zigzag(vec(0, 0), vec(30, 0), 4.2, 0.4))
    .move('trim')
    .sew(zigzag(vec(0, 20), vec(30, 20), 3, 0.4));
  return board.stitches;
};

const say = (stitches: ReturnType<typeof overlaid>, id: number, ...is: Saying[]) => {
  const found = findObjects(stitches);
  const object = found.find((one) => one.id === id)!;
  const right = setRight(stitches, found, [{ stitches: object.range, is }]);
  return { found, ...right, of: (n: number) => right.objects.find((one) => one.id === n) };
};

describe('an object set to underlay', () => {
  it('becomes underlay of what covers it, and the others keep their numbers', () => {
    const { found, objects, set, of } = say(overlaid(), 1, 'underlay');
    expect(found.map(({ kind }) => kind)).toEqual(['satin', 'satin', 'satin']);
    expect(found[1].underlay.kinds).toEqual([]);
    expect(objects.map(({ id }) => id)).toEqual([2, 3]);
    expect(of(2)?.underlay).toMatchObject({ id: 1, kinds: ['zigzag'], range: found[0].range });
    expect(of(2)?.underlay.spacingMm).toBeCloseTo(2.4, 1);
    expect(of(3)).toMatchObject({ underlay: { id: null, kinds: [] } });
    expect(set).toMatchObject([{ object: 1, is: ['underlay'], not: null }]);
  });

  it('serves every object above it where it is one net beneath several, own underlay or not', () => {
    const stitches = new Board()
      .sew(rows(1.6, 16, block(0, 40)))
      .move('colour')
      .sew(walk(2, vec(5, 3), vec(5, 13)), zigzag(vec(5, 13), vec(5, 3), 3, 0.4))
      .move('trim')
      .sew(zigzag(vec(15, 3), vec(15, 13), 3, 0.4)).stitches;
    const { found, of } = say(stitches, 1, 'underlay');
    expect(found[0].kind).toBe('fill');
    expect(of(2)?.underlay).toMatchObject({ kinds: ['center-run'], also: [{ kinds: ['fill'] }] });
    expect(of(3)?.underlay).toMatchObject({ kinds: ['fill'], range: found[0].range, also: [] });
    expect(of(2)?.underlay.also[0].id).toBe(of(3)?.underlay.id);
  });

  it('joins the underlay that its object has already, where nothing is sewn between', () => {
    const stitches = new Board()
      .sew(walk(2, vec(0, 0), vec(30, 0)))
      .move('colour')
      .sew(zigzag(vec(30, 0), vec(0, 0), 3, 2.4), zigzag(vec(0, 0), vec(30, 0), 4.2, 0.4)).stitches;
    const { found, of } = say(stitches, 1, 'underlay');
    expect(found[1].underlay.kinds).toEqual(['zigzag']);
    expect([...of(2)!.underlay.kinds].sort()).toEqual(['center-run', 'zigzag']);
    expect(of(2)?.underlay.range).toEqual([found[0].range[0], found[1].underlay.range![1]]);
  });

  it('takes what was told as its own underlay along', () => {
    const stitches = new Board()
      .sew(walk(2, vec(0, 0), vec(30, 0)), zigzag(vec(30, 0), vec(0, 0), 3.2, 1.2))
      .move('colour')
      .sew(zigzag(vec(0, 0), vec(30, 0), 4.2, 0.4)).stitches;
    const { found, of } = say(stitches, 1, 'underlay');
    expect(found[0].underlay.kinds).toEqual(['center-run']);
    expect([...of(2)!.underlay.kinds].sort()).toEqual(['center-run', 'zigzag']);
    expect(of(2)?.underlay.range).toEqual([0, found[0].range[1]]);
  });

  it('cannot be underlay of nothing, and stays what it was', () => {
    const { found, objects, set } = say(overlaid(), 3, 'underlay');
    expect(set).toMatchObject([{ object: 3, not: 'not-covered' }]);
    expect(objects).toEqual(found);
  });

  it('hands on a zigzag and the run below it, both set to underlay', () => {
    const stitches = new Board()
      .sew(walk(2, vec(0, 0), vec(30, 0)))
      .move('colour')
      .sew(zigzag(vec(30, 0), vec(0, 0), 3.2, 1.6))
      .move('colour')
      .sew(zigzag(vec(0, 0), vec(30, 0), 4.2, 0.4)).stitches;
    const found = findObjects(stitches);
    const said = [found[0], found[1]].map(({ range }) => ({ stitches: range, is: ['underlay'] as const }));
    const { objects, set } = setRight(stitches, found, said);
    expect(set.map(({ not }) => not)).toEqual([null, null]);
    expect(objects.map(({ id }) => id)).toEqual([3]);
    expect([...objects[0].underlay.kinds].sort()).toEqual(['center-run', 'zigzag']);
  });
});

describe('an object set to another kind', () => {
  const column = () => new Board().sew(zigzag(vec(0, 0), vec(30, 0), 4, 0.5)).stitches;
  const area = () => new Board().sew(rows(0.5, 12, block(0, 20))).stitches;
  const measure = (stitches: ReturnType<typeof column>, object: StitchObject) =>
    measureObject(stitches, object);

  it('gets the distance of its rows where a column is an area', () => {
    const stitches = column();
    const { of } = say(stitches, 1, 'fill');
    expect(of(1)).toMatchObject({ kind: 'fill', confidence: 1, doubt: null, setByShop: true });
    const { widthMm, spacingMm } = measure(stitches, of(1)!);
    expect(widthMm).toBeNull();
    expect(spacingMm?.median).toBeCloseTo(0.25, 1);
  });

  it('gets the width of its swings where an area is a column, with points in them', () => {
    const stitches = area();
    const { of } = say(stitches, 1, 'satin');
    expect(of(1)).toMatchObject({ kind: 'satin', split: true, pattern: null });
    expect(measure(stitches, of(1)!).widthMm?.median).toBeCloseTo(20, 0);
  });

  it('has neither where it is a run', () => {
    const stitches = column();
    const { of } = say(stitches, 1, 'run');
    expect(of(1)).toMatchObject({ kind: 'run', underlay: { kinds: [] }, split: false });
    expect(measure(stitches, of(1)!)).toMatchObject({ widthMm: null, spacingMm: null });
  });

  it('cannot be a column or an area where no thread turns back beside itself', () => {
    const stitches = new Board().sew(walk(2.5, vec(0, 0), vec(40, 0), vec(40, 30))).stitches;
    expect(say(stitches, 1, 'satin').set[0].not).toBe('no-swings');
    const { found, objects, set } = say(stitches, 1, 'fill');
    expect(set[0].not).toBe('no-rows');
    expect(objects).toEqual(found);
  });

  it('cannot be one column where it has several sections', () => {
    const ends = (y: number) => (y < 8 ? ([0, 30] as const) : ([0, 10] as const));
    const tower = (from: number) => rows(0.5, 8, block(from, from + 8)).map((p) => vec(p.x, p.y + 8.5));
    const stitches = new Board().sew(rows(0.5, 8, ends), tower(0), tower(22)).stitches;
    const found = findObjects(stitches);
    expect(found[0].sections.length).toBeGreaterThan(1);
    expect(say(stitches, 1, 'satin').set[0].not).toBe('several-sections');
  });

  it('is that for sure, and sewn for what is said, both at once', () => {
    const { of } = say(column(), 1, 'satin', 'decorative');
    expect(of(1)).toMatchObject({ kind: 'satin', purpose: 'decorative', doubt: null, setByShop: true });
  });
});

it('says nothing of stitches of which no object has most', () => {
  const stitches = overlaid();
  const found = findObjects(stitches);
  const { objects, set } = setRight(stitches, found, [{ stitches: [3, 9], is: ['run'] }]);
  expect(set).toEqual([{ stitches: [3, 9], is: ['run'], object: null, not: 'no-object' }]);
  expect(objects).toEqual(found);
});

it('knows an object again whose ends are drawn otherwise', () => {
  const stitches = overlaid();
  const [first, last] = findObjects(stitches)[1].range;
  const set = setRight(stitches, findObjects(stitches), [{ stitches: [first + 4, last - 3], is: ['fill'] }]);
  expect(set.objects[1].kind).toBe('fill');
});

it('adds a purpose to a kind, and lets the newer word go before the older', () => {
  expect(saidToo(['satin'], 'decorative')).toEqual(['satin', 'decorative']);
  expect(saidToo(['satin', 'decorative'], 'run')).toEqual(['run', 'decorative']);
  expect(saidToo(['run', 'decorative'], 'top')).toEqual(['run', 'top']);
  expect(saidToo(['run', 'decorative'], 'underlay')).toEqual(['underlay']);
  expect(saidToo(['underlay'], 'satin')).toEqual(['satin']);
});

describe('a design made from another', () => {
  const said = [
    { stitches: [2, 4], is: ['run'] },
    { stitches: [5, 6], is: ['underlay'] },
  ] as const;

  it('is told the same at the stitches that stayed', () => {
    expect(movedSaid(said, Int32Array.of(0, 1, 2, 3, 4, -1, 5))).toEqual([said[0]]);
    expect(movedSaid(said, Int32Array.of(0, -1, 1, 2, 3, 4, 5))).toEqual([
      { stitches: [1, 3], is: ['run'] },
      { stitches: [4, 5], is: ['underlay'] },
    ]);
  });

  it('keeps the numbers of as many objects', () => {
    const found = findObjects(overlaid());
    expect(numberedAs(found, [{ id: 2 }, { id: 5 }, { id: 6 }]).map(({ id }) => id)).toEqual([2, 5, 6]);
    expect(numberedAs(found, [{ id: 2 }])).toBe(found);
  });

  it('is told the same of objects and underlay that were laid anew', () => {
    const stitches = overlaid();
    const before = say(stitches, 1, 'underlay');
    const all = [
      { stitches: before.found[0].range, is: ['underlay'] as const },
      { stitches: before.found[2].range, is: ['run'] as const },
    ];
    const anew = before.objects.map((object) => ({
      ...object,
      range: [object.range[0] + 7, object.range[1] + 7] as const,
      underlay: { ...object.underlay, range: object.underlay.range && ([1, 9] as const) },
    }));
    const sewn = { stitches, objects: before.objects };
    const longer = { stitches: { count: stitches.count + 7 }, objects: anew };
    expect(saidAnew(all, sewn, longer)).toEqual([
      { stitches: [1, 9], is: ['underlay'] },
      { stitches: anew[1].range, is: ['run'] },
    ]);
    expect(saidAnew(all, sewn, { stitches, objects: anew })).toBe(all);
  });
});
