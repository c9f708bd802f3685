import { describe, expect, it } from 'vitest';
import { axisDifferenceDeg, foldDeg180 } from '../../lib/core/axis.js';
import * as units from '../../lib/core/units.js';

describe('units, against NIST Special Publication 811, appendix B (from memory)', () => {
  it('turns inches into millimetres and back, exactly', () => {
    expect(units.inchToMm(1)).toBe(25.4);
    expect(units.mmToInch(25.4)).toBe(1);
    expect(units.inchToMm(0.75)).toBeCloseTo(19.05, 12);
  });

  it('turns ounces a square yard into grams a square metre', () => {
    expect(units.ozPerYd2ToGsm(1)).toBeCloseTo(33.90575, 5);
    expect(units.ozPerYd2ToGsm(2.5)).toBeCloseTo(84.764, 3);
  });

  it('turns gram-force and pound-force into newtons', () => {
    expect(units.NEWTON_PER_GRAM_FORCE).toBe(9.80665e-3);
    expect(units.NEWTON_PER_POUND_FORCE).toBeCloseTo(4.448222, 6);
    // A-A-52095B (2008): 1.9 lbf
    expect(1.9 * units.NEWTON_PER_POUND_FORCE).toBeCloseTo(8.452, 3);
  });

  it('turns degrees into radians and back', () => {
    expect(units.degToRad(180)).toBe(Math.PI);
    expect(units.radToDeg(Math.PI / 4)).toBeCloseTo(45, 12);
  });
});

describe('axes', () => {
  it('folds into half a turn', () => {
    expect([190, -10, 180, 0, 540, 359].map(foldDeg180)).toEqual([10, 170, 0, 0, 0, 179]);
    expect(foldDeg180(-1e-18)).toBe(0);
  });

  it('takes the smaller angle between two lines', () => {
    expect(axisDifferenceDeg(179, 1)).toBe(2);
    expect(axisDifferenceDeg(10, 100)).toBe(90);
    expect(axisDifferenceDeg(30, 210)).toBe(0);
  });
});
