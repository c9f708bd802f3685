import { describe, expect, it } from 'vitest';
import { inchToMm } from '../../lib/core/units.js';
import { USUAL_THREAD_USE } from '../../lib/materials/thread-use.js';
import { lockstitchMm, threadLength } from '../../lib/measure/thread-length.js';
import { rowsOf, Sketch } from './sketch.js';

const exact = (value: number) => ({ value, low: value, high: value, unit: '', basis: 'test' });

describe('lockstitch', () => {
  it('is the published 2 + 2TS inch an inch of type 301 (ISO 4915), both threads: 2.2 at T 0.01 in and 10 stitches', () => {
    const stitchesAnInch = 10;
    const an = stitchesAnInch * lockstitchMm(inchToMm(1 / stitchesAnInch), inchToMm(0.01));
    expect(an / inchToMm(1)).toBeCloseTo(2.2, 12);
  });

  it('takes 7 mm for a stitch of 3 mm through 0.5 mm', () => {
    expect(lockstitchMm(3, 0.5)).toBe(7);
  });
});

describe('thread of a design', () => {
  const use = { thicknessMm: exact(0.5), bobbinPerTop: exact(0.4) };

  it('is shared out between top and bobbin', () => {
    const line = new Sketch().sew([0, 0], [3, 0], [6, 0]).penetrations();
    // two stitches of 7 mm: 14 mm in 1 + 0.4 parts
    expect(threadLength(line, use).threadMm).toBeCloseTo(10, 12);
    expect(threadLength(line, use).bobbinMm).toBeCloseTo(4, 12);
  });

  it('lies over jumps and stops and not behind trims and colour changes', () => {
    const both = (sketch: Sketch) => {
      const { threadMm, bobbinMm } = threadLength(sketch.penetrations(), use);
      return threadMm + bobbinMm;
    };
    expect(both(new Sketch().sew([0, 0]).jump([5, 0]).sew([9, 0]))).toBeCloseTo(19, 12);
    expect(both(new Sketch().sew([0, 0]).cut([0, 0], 'stop').sew([9, 0]))).toBeCloseTo(19, 12);
    expect(both(new Sketch().sew([0, 0]).cut([9, 0]).sew([9, 0]))).toBe(0);
    expect(both(new Sketch().sew([0, 0]).cut([9, 0], 'colour').sew([9, 0]))).toBe(0);
    expect(both(new Sketch())).toBe(0);
  });

  it('is 4.5 to 6 m a thousand stitches in ordinary designs, a third of it bobbin (common practice, no source)', () => {
    const ordinary = new Sketch().rows(
      rowsOf(0.4, 40, () => [0, 60]),
      { stitch: 3.2 },
    );
    ordinary.satin([80, 0], { width: 3, length: 60 });
    const stitches = ordinary.penetrations();
    const { threadMm, bobbinMm } = threadLength(stitches, USUAL_THREAD_USE);
    const metresAThousand = threadMm / stitches.count;
    expect(metresAThousand).toBeGreaterThan(4.5);
    expect(metresAThousand).toBeLessThan(6);
    expect(bobbinMm / threadMm).toBeCloseTo(1 / 3, 9);
  });
});
