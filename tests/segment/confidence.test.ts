import { describe, expect, it } from 'vitest';
import { wordsOf } from '../../lib/report/phrases/words-of.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { UNSURE } from '../../lib/segment/objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { Sketch } from '../measure/sketch.js';
import { vetted } from '../vetting/vetted.js';
import { block, ringZigzag, rows, sewn, TURNS, turned, walk, zigzag } from './board.js';

describe.each(TURNS)('turned by $degrees, mirrored $mirror', (turn) => {
  const only = (points: readonly Vec[]) => {
    const [object, ...more] = findObjects(sewn(turned(points, turn)));
    expect(more).toEqual([]);
    return object;
  };

  it('a plain column, a plain area and a long run are sure', () => {
    for (const points of [
      zigzag(vec(0, 0), vec(24, 0), 4, 0.4),
      rows(0.4, 14, block(0, 18)),
      walk(2.5, vec(0, 0), vec(40, 0), vec(40, 40)),
    ]) {
      const { confidence, doubt } = only(points);
      expect([confidence, doubt]).toEqual([1, null]);
    }
  });

  it('the nearer a zigzag is to covering, the less sure it is what for', () => {
    const at = (spacing: number) => only(zigzag(vec(0, 0), vec(40, 0), 3.4, spacing));
    const [near, far] = [at(1.06), at(2)];
    expect(near.doubt?.could).toBe('top');
    expect(near.doubt?.margin).toBeLessThan(0.3);
    expect(near.confidence).toBeLessThan(UNSURE);
    expect(far.confidence).toBeGreaterThan(0.9);
    expect(only(zigzag(vec(0, 0), vec(40, 0), 3.4, 0.94)).doubt?.could).toBe('decorative');
  });

  it('a few swings, or a few stitches, may be something else', () => {
    const few = only(zigzag(vec(0, 0), vec(1.4, 0), 3, 0.4));
    expect(few.confidence).toBeLessThan(0.9);
    const short = only(walk(2, vec(0, 0), vec(12, 0)));
    expect(short.doubt?.could).toBe('underlay');
    expect(short.confidence).toBeLessThan(UNSURE);
  });

  it('a confidence is at least a half, and what is doubted is something else', () => {
    for (const points of [
      zigzag(vec(0, 0), vec(30, 0), 3, 1),
      ringZigzag(9, 3, 1.2),
      rows(1.7, 22, block(0, 18)),
    ]) {
      const { confidence, doubt, purpose, kind } = only(points);
      expect(confidence).toBeGreaterThanOrEqual(0.5);
      expect(confidence).toBeLessThanOrEqual(1);
      expect([purpose, kind]).not.toContain(doubt?.could);
    }
  });
});

describe('what is said of an object that may be something else', () => {
  const said = (confidence: number) =>
    vetted(new Sketch(0).satin([0, 0], { width: 4, length: 16 }, { confidence })).map((finding) => ({
      unsure: finding.unsure ?? false,
      words: wordsOf(finding, { units: 'mm', detail: 'full' }),
    }));

  it('is said as a guess', () => {
    expect(said(0.6).length).toBeGreaterThan(0);
    for (const { unsure, words } of said(0.6)) {
      expect(unsure).toBe(true);
      expect(words).toMatch(/^Look at the design first, this object may be something else\. [A-Z0-9]/);
    }
    for (const { unsure, words } of said(0.9)) {
      expect(unsure).toBe(false);
      expect(words).not.toMatch(/something else/);
    }
  });
});
