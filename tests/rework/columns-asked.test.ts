import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import { columnsAsked } from '../../lib/rework/columns-asked.js';
import type { StitchObject } from '../../lib/segment/objects.js';

const objects = (['satin', 'fill', 'satin', 'run'] as const).map(
  (kind, k) => ({ id: k + 1, kind }) as StitchObject,
);

const mistake = (asked: readonly number[]): LieflatError => {
  try {
    columnsAsked(objects, asked);
  } catch (error) {
    if (error instanceof LieflatError) return error;
  }
  throw new Error('no mistake was found');
};

describe('columns named by their ids', () => {
  it('are those columns in sewing order, each once', () => {
    expect(columnsAsked(objects, [3, 1, 3])).toEqual([1, 3]);
    expect(columnsAsked(objects, [])).toEqual([]);
  });

  it('are all where nobody names any', () => {
    expect(columnsAsked(objects, undefined)).toBeNull();
  });

  it('are refused where there is no such object, with how many there are', () => {
    for (const id of [0, 5, -1]) {
      expect(mistake([1, id]).code).toBe('unknown-id');
      expect(mistake([1, id]).message).toContain(`no object ${id}, the design has 4`);
    }
  });

  it('are refused where the object is no column, with what it is', () => {
    expect(mistake([2]).code).toBe('bad-argument');
    expect(mistake([2]).message).toContain('object 2 is a fill');
    expect(mistake([4]).message).toContain('object 4 is a run');
  });
});
