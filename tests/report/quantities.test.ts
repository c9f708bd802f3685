import { describe, expect, it } from 'vitest';
import {
  bareLength,
  count,
  counted,
  duration,
  fixed,
  place,
  size,
  threadLength,
} from '../../lib/report/quantities.js';

describe('figures for people', () => {
  // 1 in = 25.4 mm and 1 yd = 0.9144 m exactly (international yard and pound agreement, 1959).
  it('gives lengths in both systems', () => {
    expect(bareLength(25.4, 'in')).toBe('1.000');
    expect(bareLength(25.4, 'mm')).toBe('25.40');
    expect(size(50.8, 25.4, 'mm')).toBe('50.8 x 25.4 mm (2.00 x 1.00 in)');
    expect(size(50.8, 25.4, 'in')).toBe('2.00 x 1.00 in (50.8 x 25.4 mm)');
    expect(threadLength(91_440, 'mm')).toBe('91.4 m (100.0 yd)');
    expect(place(-25.4, 12.7, 'in')).toBe('-1.00, 0.50');
  });

  it('never prints a negative zero', () => {
    expect(fixed(-0.0001, 2)).toBe('0.00');
    expect(place(-0.01, -0, 'mm')).toBe('0.0, 0.0');
  });

  it('sets thousands apart and minds the plural', () => {
    expect(count(999)).toBe('999');
    expect(count(1_234_567)).toBe('1,234,567');
    expect(counted(1, 'trim')).toBe('1 trim');
    expect(counted(0, 'trim')).toBe('0 trims');
    expect(counted(2, 'stitch', 'stitches')).toBe('2 stitches');
  });

  it('gives times to plan with', () => {
    expect(duration(40.4)).toBe('40 s');
    expect(duration(18 * 60 + 10)).toBe('18 min');
    expect(duration(65 * 60)).toBe('1 h 05 min');
    expect(duration(59.6 * 60)).toBe('1 h 00 min');
  });
});
