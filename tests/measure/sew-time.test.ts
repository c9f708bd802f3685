import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COMMERCIAL_HEAD } from '../../lib/materials/machine.js';
import { type MachineProfile, secondsPerStitch, sewSeconds } from '../../lib/measure/sew-time.js';
import { Sketch } from './sketch.js';

const exact = (value: number) => ({ value, low: value, high: value, unit: '', basis: 'test' });
const machine: MachineProfile = {
  id: 'test',
  name: 'test',
  speedSpm: exact(600),
  fullSpeedMm: exact(4),
  longestMm: exact(12),
  slowestSpm: exact(200),
  trimSeconds: exact(7),
  colourSeconds: exact(9),
  stopSeconds: exact(20),
};

describe('seconds a stitch', () => {
  it('are those of full speed up to the longest stitch that allows it', () => {
    expect(secondsPerStitch(0, machine)).toBe(0.1);
    expect(secondsPerStitch(4, machine)).toBe(0.1);
  });

  it('follow a speed that falls in a straight line', () => {
    expect(secondsPerStitch(8, machine)).toBeCloseTo(60 / 400, 12);
    expect(secondsPerStitch(6, machine)).toBeCloseTo(60 / 500, 12);
    expect(secondsPerStitch(12, machine)).toBeCloseTo(60 / 200, 12);
  });

  it('take one turn of the machine more for every further record', () => {
    expect(secondsPerStitch(24, machine)).toBeCloseTo(0.6, 12);
    expect(secondsPerStitch(24.1, machine)).toBeCloseTo(0.9, 12);
  });

  it('never fall with the length', () => {
    const length = fc.double({ min: 0, max: 60, noNaN: true });
    fc.assert(
      fc.property(length, length, (a, b) => {
        const [short, long] = [Math.min(a, b), Math.max(a, b)];
        expect(secondsPerStitch(short, COMMERCIAL_HEAD)).toBeLessThanOrEqual(
          secondsPerStitch(long, COMMERCIAL_HEAD) + 1e-12,
        );
      }),
    );
  });

  it('stay finite for a machine that is never slowed', () => {
    const steady = { ...machine, slowestSpm: exact(900), fullSpeedMm: exact(15) };
    expect(secondsPerStitch(14, steady)).toBe(0.1);
    expect(secondsPerStitch(16, steady)).toBeCloseTo(0.2, 12);
  });
});

describe('seconds of a design', () => {
  const seconds = (sketch: Sketch) => sewSeconds(sketch.design(), machine);

  it('add up stitches and jumps', () => {
    expect(seconds(new Sketch())).toBe(0);
    // the head starts from the origin
    expect(seconds(new Sketch().sew([8, 0]))).toBeCloseTo(0.15, 12);
    expect(seconds(new Sketch().sew([0, 8]))).toBeCloseTo(0.15, 12);
    expect(seconds(new Sketch().sew([0, 0], [3, 0], [6, 0]))).toBeCloseTo(0.3, 12);
    expect(seconds(new Sketch().sew([0, 0]).jump([8, 0]).sew([8, 0]))).toBeCloseTo(0.1 + 0.15 + 0.1, 12);
  });

  it('count a trim, a colour change and a stop, and a trim before either only once', () => {
    const pauseOf = (...kinds: ('trim' | 'colour' | 'stop')[]) => {
      const sketch = new Sketch().sew([0, 0]);
      for (const kind of kinds) sketch.cut([0, 0], kind);
      return seconds(sketch.sew([0, 0])) - 0.2;
    };
    expect(pauseOf('trim')).toBeCloseTo(7, 12);
    expect(pauseOf('colour')).toBeCloseTo(9, 12);
    expect(pauseOf('stop')).toBeCloseTo(20, 12);
    expect(pauseOf('trim', 'colour')).toBeCloseTo(9, 12);
    expect(pauseOf('colour', 'trim')).toBeCloseTo(9, 12);
  });

  it('count the trim at the end too', () => {
    expect(seconds(new Sketch().sew([0, 0], [1, 0]).cut([1, 0]))).toBeCloseTo(7.2, 12);
  });

  it('count the move behind a trim to the trim', () => {
    expect(seconds(new Sketch().sew([0, 0]).cut([80, 0]).sew([80, 0]))).toBeCloseTo(7.2, 12);
  });

  it('lie at 600 to 1,000 stitches a minute for short stitches (common practice, no source)', () => {
    const sketch = new Sketch();
    for (let i = 0; i < 3000; i++) sketch.sew([3 * (i % 2), 0]);
    const spm = (3000 / sewSeconds(sketch.design(), COMMERCIAL_HEAD)) * 60;
    expect(spm).toBeGreaterThan(600);
    expect(spm).toBeLessThan(1000);
  });
});
