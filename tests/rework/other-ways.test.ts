import { describe, expect, it } from 'vitest';
import { FAMILIES } from '../generators/families/index.js';
import { PRODUCTION } from '../generators/production/index.js';
import { asFile } from './figures.js';
import { relayAll } from './rewrites.js';

/** What becomes of every wide column of a design that is asked for, held against the truth of who laid it. */
const relaying = (family: string, seed: number) => {
  const { design, role } = { ...FAMILIES, ...PRODUCTION }[family](seed);
  return relayAll({ name: family, design: asFile(design)!, isTop: (i) => role[i] === 'top' });
};

const ALL = { lost: 0, why: [] };

describe('new underlay is laid in another way', () => {
  it('where that in the usual one would show at a ragged edge', async () => {
    expect(await relaying('satin-ragged', 3)).toMatchObject(ALL);
  });

  it('beside a tie where the thread has come without a cut, in a move as short as a stitch', async () => {
    const { lost, why } = await relaying('word-jumps', 0);
    // a column as short as it is wide has no room for three rows
    expect({ lost, why }).toEqual({ lost: 0, why: ['3 no-room'] });
  });
});
