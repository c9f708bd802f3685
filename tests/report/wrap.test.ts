import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { displayWidth, wrap } from '../../lib/report/render/wrap.js';

describe('text set in columns', () => {
  it('breaks at spaces and hangs what follows', () => {
    expect(wrap('one two three four', 9, '- ', '  ')).toEqual(['- one two', '  three', '  four']);
  });

  it('breaks a word longer than the line where it must', () => {
    expect(wrap('abcdefghij', 4)).toEqual(['abcd', 'efgh', 'ij']);
  });

  it('counts wide characters as two columns and combining marks as none', () => {
    expect(displayWidth('刺繡')).toBe(4);
    expect(displayWidth('x̂y')).toBe(2);
    expect(displayWidth('🧵')).toBe(2);
    expect(displayWidth('mm²×—')).toBe(5);
  });

  it('keeps every line within the width and loses no letter', () => {
    const word = fc.string({
      unit: fc.constantFrom('a', 'B', '9', '-', '刺', 'é', '🧵', '²'),
      maxLength: 40,
    });
    fc.assert(
      fc.property(fc.array(word, { maxLength: 12 }), fc.integer({ min: 6, max: 90 }), (words, width) => {
        const lines = wrap(words.join(' '), width, '> ', '  ');
        for (const line of lines) expect(displayWidth(line)).toBeLessThanOrEqual(width);
        const letters = lines.join('').replace(/^> ?/, '').replace(/ /g, '');
        expect(letters.replace(/^>/, '')).toBe(words.join(''));
      }),
    );
  });

  it('refuses a width that leaves no room', () => {
    expect(() => wrap('text', 5, '     ')).toThrow(RangeError);
  });
});
