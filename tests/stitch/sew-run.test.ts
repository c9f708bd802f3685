import { describe, expect, it } from 'vitest';
import type { EdgePoint } from '../../lib/stitch/edge.js';
import { keepLength, layRun } from '../../lib/stitch/sew-run.js';

const never = () => false;
const twice = (x: number, y: number): EdgePoint => [2 * x, 2 * y];
const asItIs = (x: number, y: number): EdgePoint => [x, y];

describe('a run divided anew', () => {
  it('is what it was where it stays as it is', () => {
    const [x, y] = [Float64Array.of(0, 2, 4, 4, 4), Float64Array.of(0, 0, 0, 2, 4)];
    expect(layRun(x, y, never, asItIs, keepLength)).toEqual({
      x: [...x],
      y: [...y],
      at: Int32Array.of(0, 1, 2, 3, 4),
    });
  });

  it('has more stitches of the same length along a longer way, and its corner where that comes to lie', () => {
    const [x, y] = [Float64Array.of(0, 2, 4, 4, 4), Float64Array.of(0, 0, 0, 2, 4)];
    const run = layRun(x, y, never, twice, keepLength);
    expect(run.x).toEqual([0, 2, 4, 6, 8, 8, 8, 8, 8]);
    expect(run.y).toEqual([0, 0, 0, 0, 0, 2, 4, 6, 8]);
    expect([...run.at]).toEqual([0, 2, 4, 6, 8]);
  });

  it('keeps a needle point that is fixed', () => {
    const x = Float64Array.of(0, 2, 4, 6, 8, 10);
    const y = new Float64Array(6);
    const grown = (px: number, py: number): EdgePoint => [1.2 * px, py];
    const free = layRun(x, y, never, grown, keepLength);
    expect(free.x).toHaveLength(7);
    expect(free.x).not.toContain(1.2 * 2);
    const held = layRun(x, y, (k) => k === 1, grown, keepLength);
    expect(held.x).toContain(1.2 * 2);
  });

  it('goes round a bend on a curve, not across it', () => {
    const n = 13;
    const angle = (k: number) => (Math.PI * k) / (2 * (n - 1));
    const x = Float64Array.from({ length: n }, (_, k) => 10 * Math.cos(angle(k)));
    const y = Float64Array.from({ length: n }, (_, k) => 10 * Math.sin(angle(k)));
    const run = layRun(x, y, never, (px, py) => [1.5 * px, 1.5 * py], keepLength);
    expect(run.x.length).toBe(19);
    run.x.forEach((px, k) => {
      expect(Math.hypot(px, run.y[k])).toBeCloseTo(15, 1);
    });
  });

  it('sewn three times stays so, stitch by stitch', () => {
    const x = Float64Array.of(0, 2, 0, 2, 4, 2, 4, 6, 4, 6);
    const y = new Float64Array(10);
    const run = layRun(x, y, never, twice, keepLength);
    // 12 mm in stitches of 2 mm, each there, back and there again
    expect(run.x).toEqual([0, 2, 0, 2, 4, 2, 4, 6, 4, 6, 8, 6, 8, 10, 8, 10, 12, 10, 12]);
  });
});
