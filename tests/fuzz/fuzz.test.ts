import { describe, expect, it } from 'vitest';
import type { Design } from '../../lib/format/design.js';
import { someOf } from '../in-full.js';
import { Broken } from './broken.js';
import { hold, LIEFLAT, type Outcome, type Subject } from './hold.js';
import { type InputKind, inputOf } from './inputs.js';

/** A stretch of what `npm run fuzz` goes through; there the same seeds make the same inputs. */
const SEEDS = Array.from({ length: someOf(1200) }, (_, n) => 7_000_000 + n);

describe('spoiled and random input', () => {
  it('ends in a sound report or in one clear error', async () => {
    const outcomes = new Map<Outcome, number>();
    for (const seed of SEEDS) {
      const outcome = await hold(inputOf(seed)).catch((error) => {
        throw new Error(`seed ${seed}: ${error}`, { cause: error });
      });
      outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
    }
    // Every way that an input can end was met often enough to say something.
    expect([...outcomes.keys()].sort()).toEqual(['bad-profile', 'design', 'profile', 'undecodable']);
    for (const count of outcomes.values()) expect(count).toBeGreaterThan(someOf(20));
  });

  it('is made again from its seed', () => {
    for (const seed of SEEDS.slice(0, 30)) expect(inputOf(seed)).toEqual(inputOf(seed));
    expect(inputOf(SEEDS[0])).not.toEqual(inputOf(SEEDS[1]));
  });
});

describe('what is held against it', () => {
  /** Seeds whose input decodes. */
  const sound = async (kind: InputKind, subject: Partial<Subject>): Promise<unknown[]> => {
    const thrown: unknown[] = [];
    for (let seed = 0; thrown.length < 5; seed++) {
      const input = inputOf(seed, kind);
      if ((await hold(input)) !== 'design') continue;
      thrown.push(await hold(input, false, { ...LIEFLAT, ...subject }).catch((error: unknown) => error));
    }
    return thrown;
  };

  it('finds a crash', async () => {
    const decode: Subject['decode'] = async () => {
      throw new TypeError('x is not a function');
    };
    for (const error of await sound('dst', { decode })) expect(error).toBeInstanceOf(TypeError);
  });

  it('finds a position that is no number', async () => {
    const decode: Subject['decode'] = async (bytes, format) => {
      const design = await LIEFLAT.decode(bytes, format);
      return { ...design, x: design.x.map((x, i) => (i === design.x.length - 1 ? Number.NaN : x)) };
    };
    for (const error of await sound('dst', { decode })) expect(error).toBeInstanceOf(Broken);
  });

  it('finds a figure of the report that is none', async () => {
    const vet: Subject['vet'] = (...args) => {
      const vetting = LIEFLAT.vet(...args);
      return {
        ...vetting,
        report: {
          ...vetting.report,
          design: { ...vetting.report.design, threadMm: Number.POSITIVE_INFINITY },
        },
      };
    };
    for (const error of await sound('csv', { vet })) expect(error).toBeInstanceOf(Broken);
  });

  it('finds what is not written as it was read', async () => {
    const encode: Subject['encode'] = (design: Design, format) =>
      LIEFLAT.encode({ ...design, x: design.x.map((x) => x + 0.2) }, format);
    const thrown = await sound('dst', { encode });
    expect(thrown.filter((error) => error instanceof Broken).length).toBeGreaterThan(3);
  });
});
