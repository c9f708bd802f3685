import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { findSections, type Section } from '../../lib/stitch/find-sections.js';
import { shapeOf } from '../../lib/stitch/section-shape.js';
import { findStretches } from '../../lib/stitch/stretches.js';
import { vec } from '../generators/plane.js';
import { Board, block, rows, walk, zigzag } from '../segment/board.js';

const read = (board: Board) => {
  const { stitches } = board;
  const objects = findObjects(stitches);
  const sections = findSections(stitches, objects);
  return { stitches, objects, sections, stretches: findStretches(stitches, objects, sections) };
};

const ends = ({ from, to }: Section) => [from[0], to[to.length - 1]];

describe('a column', () => {
  const column = zigzag(vec(0, 0), vec(20, 0), 3, 0.4);
  const { stitches, sections } = read(new Board().sew(column));

  it('is one section of swings that share their ends', () => {
    expect(sections).toHaveLength(1);
    const [section] = sections;
    expect(section).toMatchObject({ role: 'top', swings: true, joined: true });
    expect(ends(section)).toEqual([0, column.length - 1]);
    expect(section.from.every((i, k) => k === 0 || i === section.to[k - 1])).toBe(true);
  });

  it('has two edges a width apart, and no end off them', () => {
    const { a, b, span, swings } = shapeOf(stitches, sections[0]);
    expect(swings).toBe(true);
    expect(span).toBe(sections[0].from.length);
    expect(a.ends.every((t) => t % 2 === 0)).toBe(true);
    expect(b.ends.every((t) => t % 2 === 1)).toBe(true);
    expect(a.line.y.every((y) => Math.abs(y - 1.5) < 0.06)).toBe(true);
    expect(b.line.y.every((y) => Math.abs(y + 1.5) < 0.06)).toBe(true);
    expect([a.off.size, b.off.size]).toEqual([0, 0]);
  });
});

describe('a column with short stitches on one side', () => {
  const column = zigzag(vec(0, 0), vec(20, 0), 4, 0.4).map((p, k) => (k % 4 === 3 ? vec(p.x, -0.8) : p));
  const { stitches, sections } = read(new Board().sew(column));

  it('has them told apart from the edge', () => {
    const { a, b } = shapeOf(stitches, sections[0]);
    expect(a.off.size).toBe(0);
    const short = [...b.off.keys()].map((n) => b.ends[n]);
    expect(short.length).toBeGreaterThan(0.9 * (column.length / 4));
    expect(short.every((t) => t % 4 === 3)).toBe(true);
    for (const [, dy] of b.off.values()) expect(dy).toBeCloseTo(1.2, 1);
    // the last end has no neighbor to be told short by
    expect(b.line.y.slice(0, -1).every((y) => y < -1.9)).toBe(true);
  });
});

describe('a column that is broken by needle points', () => {
  const column = zigzag(vec(0, 0), vec(20, 0), 9, 0.4, 1);
  const { stitches, sections } = read(new Board().sew(column));

  it('has them inside its rows, and its longest stitch is half a swing', () => {
    const { rows, longestMm } = shapeOf(stitches, sections[0]);
    expect(rows.every(({ inside }) => inside.length === 1)).toBe(true);
    for (const { inside, aside } of rows) {
      expect(inside[0]).toBeCloseTo(4.5, 0);
      expect(Math.abs(aside[0])).toBeLessThan(0.1);
    }
    expect(longestMm).toBeCloseTo(4.5, 0);
  });

  it('has no longest stitch where swings are whole', () => {
    const whole = read(new Board().sew(zigzag(vec(0, 0), vec(20, 0), 4, 0.4)));
    expect(shapeOf(whole.stitches, whole.sections[0]).longestMm).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('an area', () => {
  const area = rows(0.4, 16, block(0, 24));
  const { stitches, sections } = read(new Board().sew(area));

  it('is one section of rows, the short steps over left out', () => {
    expect(sections).toHaveLength(1);
    const [section] = sections;
    expect(section).toMatchObject({ role: 'top', swings: false, joined: false });
    section.from.forEach((i, k) => {
      expect(stitches.y[section.to[k]]).toBeCloseTo(stitches.y[i], 6);
    });
    const { rows: shaped, span, leastStepMm } = shapeOf(stitches, section);
    expect(span).toBe(shaped.length - 1);
    // a step of a row's distance is what is usual there
    expect(leastStepMm).toBeLessThanOrEqual(0.4);
    expect(leastStepMm).toBeGreaterThan(0.2);
    for (const { ax, bx } of shaped) expect(Math.abs(bx - ax)).toBeCloseTo(24, 6);
  });

  it('of which each row leads to the next is joined', () => {
    const direct = read(new Board().sew(rows(0.4, 16, block(0, 24), { direct: true })));
    expect(direct.sections).toHaveLength(1);
    expect(direct.sections[0]).toMatchObject({ joined: true, swings: false });
  });
});

describe('underlay', () => {
  const under = zigzag(vec(19.5, 0), vec(0.5, 0), 3, 2.6);
  const { sections, objects } = read(
    new Board().sew(walk(2, vec(0.5, 0), vec(19.5, 0)), under, zigzag(vec(0, 0), vec(20, 0), 4, 0.4)),
  );

  it('that swings is a section of its own, of the object that it lies under', () => {
    const below = sections.filter(({ role }) => role === 'underlay');
    expect(below).toHaveLength(1);
    expect(below[0].object).toBe(objects.find(({ kind }) => kind === 'satin'));
    expect(below[0].swings).toBe(true);
  });
});

describe('stretches', () => {
  const board = new Board().sew(walk(2, vec(0, 0), vec(10, 0)));
  board.move('trim');
  board.sew([vec(20, 0), vec(20.7, 0), vec(20, 0)], zigzag(vec(20, 0), vec(40, 0), 4, 0.4));
  const { stitches, stretches, sections } = read(board);

  it('hold every needle point once, in order', () => {
    let next = 0;
    for (const { first, last } of stretches) {
      expect(first).toBe(next);
      expect(last).toBeGreaterThanOrEqual(first);
      next = last + 1;
    }
    expect(next).toBe(stitches.count);
  });

  it('are a path for the run, a lock for the tiny stitches, a section for the swings', () => {
    expect(stretches.map(({ kind }) => kind)).toEqual(['path', 'lock', 'section']);
    const [path, lock, swings] = stretches;
    expect(path.kind === 'path' && path.run?.kind).toBe('run');
    // the lock moves with the first needle point that it holds
    expect(lock.kind === 'lock' && lock.anchor).toBe(swings.first);
    expect(swings.kind === 'section' && swings.section).toBe(sections[0]);
  });

  it('begin where the machine does anything but sew', () => {
    const cut = new Board().sew(walk(2, vec(0, 0), vec(10, 0)));
    cut.move('jump');
    cut.sew(walk(2, vec(11, 3), vec(20, 3)));
    const pieces = read(cut).stretches;
    expect(pieces.some(({ first }) => first === 6)).toBe(true);
  });
});
