import { describe, expect, it } from 'vitest';
import { Sketch, type Vec } from '../measure/sketch.js';
import { said } from './said.js';
import { found } from './vetted.js';

const open = { start: false, end: false };
const dash = (x: number): Vec[] => [
  [x, 0],
  [x + 3, 0],
  [x + 6, 0],
];

describe('jumps without a trim', () => {
  const over = (mm: number) =>
    new Sketch()
      .run(dash(0))
      .jump([6 + mm / 2, 0])
      .run(dash(6 + mm));

  it('are said from 5 mm on, with length and place', () => {
    expect(found('jump-not-trimmed', over(4.9))).toEqual([]);
    expect(found('jump-not-trimmed', over(11))).toMatchObject([
      { severity: 'warn', object: 2, stitch: 3, at: { x: 17, y: 0 }, measured: 11, limit: 5, unit: 'mm' },
    ]);
  });

  it('are one finding for each object they lead to, at the longest', () => {
    const sketch = new Sketch()
      .run(dash(0))
      .jump([10, 0])
      .sew([12, 0])
      .jump([20, 0])
      .sew([22, 0])
      .jump([25, 0]);
    sketch.run(dash(28)).jump([38, 0]).run(dash(44));
    const findings = found('jump-not-trimmed', sketch);
    expect(findings).toMatchObject([
      { object: 2, stitch: 4, measured: 10 },
      { object: 3, measured: 10 },
    ]);
    expect(said(findings[0])).toContain('3 moves are not trimmed');
    expect(said(findings[1])).toContain('is not trimmed');
  });

  it('are moves over a pause too, but not behind a trim or colour change', () => {
    const cut = (kind: 'trim' | 'colour' | 'stop') =>
      found('jump-not-trimmed', new Sketch().run(dash(0)).cut([20, 0], kind).jump([25, 0]).run(dash(30)));
    expect(cut('stop')).toMatchObject([{ object: 2, measured: 24 }]);
    expect(cut('trim')).toEqual([]);
    expect(cut('colour')).toEqual([]);
  });

  it('are not the swings of a column too wide for one record', () => {
    const sketch = new Sketch();
    const from: Vec[] = [];
    for (let i = 0; i < 20; i++) from.push([(i % 2) * 14, i * 0.2]);
    sketch.column(from);
    const plain = sketch.design();
    // the same column, each swing reached by a jump
    const broken = new Sketch();
    broken.sew(from[0]);
    for (const end of from.slice(1)) broken.jump([7, end[1]]).sew(end);
    broken.objects.push(sketch.objects[0]);
    expect(plain.kind).toHaveLength(20);
    expect(found('satin-too-wide', broken)).toMatchObject([{ severity: 'fail' }]);
    expect(found('jump-not-trimmed', broken)).toEqual([]);
    expect(found('no-trims', broken)).toEqual([]);
  });

  it('are not the way from the underlay to the top stitching that hides it', () => {
    const sketch = new Sketch().sew([2, 0], [2, 15]).jump([2, 8]);
    const rails = Array.from({ length: 81 }, (_, i): Vec => [(i % 2) * 4, i * 0.2]);
    sketch.column(rails, {
      underlay: { id: 1, kinds: ['center-run'], range: [0, 1], stitches: 2, spacingMm: null, also: [] },
    });
    expect(found('jump-not-trimmed', sketch)).toEqual([]);
  });

  it('are of no object where none was found', () => {
    const sketch = new Sketch().sew([0, 0]).jump([9, 0]).sew([9, 0]);
    expect(found('jump-not-trimmed', sketch)).toMatchObject([{ object: null, stitch: 1 }]);
  });
});

describe('no trims at all', () => {
  const moves = (...cuts: boolean[]) => {
    const sketch = new Sketch().run(dash(0));
    cuts.forEach((cut, i) => {
      const to: Vec = [20 * (i + 1), 0];
      if (cut) sketch.cut(to);
      else sketch.jump(to);
      sketch.run(dash(20 * (i + 1)));
    });
    return found('no-trims', sketch);
  };

  it('is a note where the design moves about', () => {
    expect(moves(false, false)).toMatchObject([{ severity: 'note', object: null, measured: 0 }]);
    expect(said(moves(false, false)[0])).toContain('2 long moves');
  });

  it('is not said with a trim in it, nor of a single move', () => {
    expect(moves(false, false, true)).toEqual([]);
    expect(moves(false)).toEqual([]);
    expect(moves()).toEqual([]);
  });
});

describe('missing locks', () => {
  const two = (a: typeof open, b: typeof open, kind: 'trim' | 'colour' | 'jump' | 'stop') => {
    const sketch = new Sketch().run(dash(0), { locks: a });
    if (kind === 'jump') sketch.jump([9, 0]);
    else sketch.cut([9, 0], kind);
    return found('missing-lock', sketch.run(dash(9), { locks: b }));
  };
  const locked = { start: true, end: true };

  it('are said at a trim, at a colour change and at the ends of the design', () => {
    expect(two(locked, locked, 'trim')).toEqual([]);
    expect(two({ start: true, end: false }, locked, 'trim')).toMatchObject([
      { severity: 'warn', object: 1, stitch: 2, at: { x: 6, y: 0 } },
    ]);
    expect(two(locked, { start: false, end: true }, 'colour')).toMatchObject([{ object: 2, stitch: 3 }]);
    expect(two(open, open, 'trim').map((f) => [f.object, f.measured])).toEqual([
      [1, 2],
      [2, 2],
    ]);
    expect(said(two(open, open, 'trim')[0])).toContain('starts and ends');
  });

  it('are not said where the thread runs on', () => {
    for (const kind of ['jump', 'stop'] as const) {
      expect(two({ start: true, end: false }, { start: false, end: true }, kind)).toEqual([]);
      expect(two(open, open, kind).map((f) => [f.object, f.stitch])).toEqual([
        [1, 0],
        [2, 5],
      ]);
    }
  });

  it('are looked for at the underlay where that is sewn first', () => {
    const rails = Array.from({ length: 21 }, (_, i): Vec => [(i % 2) * 2, i * 0.2]);
    const sketch = new Sketch().run(dash(0)).cut([1, 0]).sew([1, 0], [1, 4]);
    const underlay = {
      id: 1,
      kinds: ['center-run'] as const,
      range: [3, 4] as const,
      stitches: 2,
      spacingMm: null,
      also: [],
    };
    sketch.column(rails, { locks: { start: false, end: true }, underlay });
    expect(found('missing-lock', sketch)).toMatchObject([{ object: 2, stitch: 3 }]);
  });

  describe('where the underlay of all is sewn ahead', () => {
    const rails = (x: number) => Array.from({ length: 21 }, (_, i): Vec => [x + (i % 2) * 2, i * 0.2]);
    const beneath = (id: number, range: readonly [number, number]) => ({
      id,
      kinds: ['center-run'] as const,
      range,
      stitches: 2,
      spacingMm: null,
      also: [],
    });
    /** Underlay of two columns on one thread, then the columns, each on its own or both on that. */
    const ahead = (cut: boolean, first: typeof open, second: typeof open) => {
      const sketch = new Sketch().sew([1, 0], [1, 4], [9, 4], [9, 0]);
      if (cut) sketch.cut([0, 0]);
      sketch.column(rails(0), { locks: first, underlay: beneath(1, [0, 1]) });
      if (cut) sketch.cut([8, 0]);
      sketch.column(rails(8), { locks: second, underlay: beneath(2, [2, 3]) });
      return found('missing-lock', sketch).map((f) => [f.object, f.stitch, f.measured]);
    };

    it('they are looked for where the columns themselves begin and end', () => {
      expect(ahead(true, locked, locked)).toEqual([]);
      expect(ahead(true, { start: true, end: false }, { start: false, end: true })).toEqual([
        [1, 24, 1],
        [2, 25, 1],
      ]);
      expect(ahead(true, open, open)).toEqual([
        [1, 4, 2],
        [2, 25, 2],
      ]);
    });

    it('they are no matter where the thread runs on to them', () => {
      expect(ahead(false, open, { start: false, end: true })).toEqual([]);
      expect(ahead(false, open, open)).toEqual([[2, 45, 1]]);
    });
  });
});
