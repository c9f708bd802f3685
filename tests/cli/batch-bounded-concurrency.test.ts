import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withBoundedConcurrency } from '../../cli/batch/bounded-concurrency.js';

async function* from<T>(items: readonly T[]): AsyncGenerator<T> {
  yield* items;
}

/** Work that takes as many turns of the event loop as it is told; counts what is begun and not taken. */
async function results(turns: readonly number[], concurrency: number, ordered: boolean) {
  let begun = 0;
  let most = 0;
  const taken: number[] = [];
  const work = async (index: number) => {
    begun++;
    most = Math.max(most, begun - taken.length);
    for (let n = 0; n < turns[index]; n++) await new Promise((resolve) => setImmediate(resolve));
    return index;
  };
  for await (const index of withBoundedConcurrency(from([...turns.keys()]), work, { concurrency, ordered }))
    taken.push(index);
  return { taken, most };
}

const anyTurns = fc.array(fc.integer({ min: 0, max: 6 }), { maxLength: 25 });

describe('work of bounded concurrency', () => {
  it('are those of every item once, with no more under way than allowed', async () => {
    await fc.assert(
      fc.asyncProperty(
        anyTurns,
        fc.integer({ min: 1, max: 5 }),
        fc.boolean(),
        async (turns, many, ordered) => {
          const { taken, most } = await results(turns, many, ordered);
          expect(taken.toSorted((a, b) => a - b)).toEqual([...turns.keys()]);
          if (ordered || many === 1) expect(taken).toEqual([...turns.keys()]);
          expect(most).toBeLessThanOrEqual(many);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('come as they are finished where nobody asked for order', async () => {
    expect((await results([9, 0, 0, 0], 2, false)).taken).toEqual([1, 2, 3, 0]);
    expect((await results([9, 0, 0, 0], 2, true)).taken).toEqual([0, 1, 2, 3]);
  });

  it('come while the source has nothing more to give yet', async () => {
    let more: () => void = () => {};
    const wait = new Promise<void>((resolve) => {
      more = resolve;
    });
    async function* slow() {
      yield 1;
      await wait;
      yield 2;
    }
    const taken: number[] = [];
    for await (const n of withBoundedConcurrency(slow(), async (x) => x, {
      concurrency: 4,
      ordered: false,
    })) {
      taken.push(n);
      more();
    }
    expect(taken).toEqual([1, 2]);
  });

  it('let go of the source where the taker stops', async () => {
    let closed = false;
    async function* source() {
      try {
        for (let n = 0; ; n++) yield n;
      } finally {
        closed = true;
      }
    }
    for await (const n of withBoundedConcurrency(source(), async (x) => x, { concurrency: 3, ordered: true }))
      if (n === 5) break;
    expect(closed).toBe(true);
  });
});
