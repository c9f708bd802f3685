import { describe, expect, it } from 'vitest';
import { mutated, mutationsOf } from './mutations.js';

const all = (source: string) => mutationsOf(source).map((mutation) => mutated(source, mutation));

describe('the changes of a source', () => {
  it('move each limit, turn each comparison and each sign, one at a time', () => {
    expect(all('const LIMIT = 0.5;\nconst is = (a: number) => a + 3 < LIMIT;')).toEqual([
      'const LIMIT = 0.75;\nconst is = (a: number) => a + 3 < LIMIT;',
      'const LIMIT = 0.5;\nconst is = (a: number) => a + 3 > LIMIT;',
      'const LIMIT = 0.5;\nconst is = (a: number) => a - 3 < LIMIT;',
      'const LIMIT = 0.5;\nconst is = (a: number) => a + 4.5 < LIMIT;',
    ]);
  });

  it('take the other of two ways', () => {
    expect(all('f(a && b ? Math.min(a, b) : c)')).toEqual([
      'f(!(a && b) ? Math.min(a, b) : c)',
      'f(a || b ? Math.min(a, b) : c)',
      'f(a && b ? Math.max(a, b) : c)',
    ]);
  });

  it('leave counting, places in lists, types and imports alone', () => {
    expect(all("import a from './a3.js';\ntype T = [3, 4];\nlet i = 0;\ni = list[7];")).toEqual([]);
  });

  it('move a figure of a table to an end of its range', () => {
    expect(all("const T = { a: of(3, 2, 5, 'mm'), b: of(5, 3, 5, 'mm'), c: of(4, 4, 4, 'mm') };")).toEqual([
      "const T = { a: of(5, 2, 5, 'mm'), b: of(5, 3, 5, 'mm'), c: of(4, 4, 4, 'mm') };",
      "const T = { a: of(3, 2, 5, 'mm'), b: of(3, 3, 5, 'mm'), c: of(4, 4, 4, 'mm') };",
    ]);
  });

  it('leave figures alone that only bound the work', () => {
    expect(all("const T = { a: of(3, 2, 5, 'cells', WORK) };")).toEqual([]);
  });

  it('leave a step of one out where that is asked for', () => {
    const source = 'f(last + 1 < count, i - 1, k + 2)';
    const left = mutationsOf(source, { steps: true })
      .filter(({ what }) => /[a-z] [+-] 1 →/.test(what))
      .map((mutation) => mutated(source, mutation));
    expect(left).toEqual(['f(last < count, i - 1, k + 2)', 'f(last + 1 < count, i, k + 2)']);
    expect(mutationsOf(source).length + 2).toBe(mutationsOf(source, { steps: true }).length);
  });

  it('say where and what', () => {
    expect(mutationsOf('\n\nconst A = 4;')).toMatchObject([{ line: 3, what: '4 → 6' }]);
  });
});
