import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keptAnswers } from '../../lib/io/index.js';

let home: string;
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'lieflat-test-'));
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

const at = (...names: string[]) => join(home, 'answers', ...names);
const place = (more = {}) => ({ folder: at(), by: 'this program', ...more });

/** Asks, and says whether it was worked out. */
function ask(asked: readonly unknown[], answer: unknown, where: Parameters<typeof keptAnswers>[0] = place()) {
  let worked = false;
  const got = keptAnswers(where).of(asked, () => {
    worked = true;
    return answer;
  });
  return { got, worked };
}

describe('answers that are kept', () => {
  it('come back as they were, to whoever asks the same', () => {
    const plan = { stack: 'cutaway', mm: Float64Array.of(0.1, Number.NaN, -0), none: null };
    // Asked for again by name, an object is the same one.
    const answer = { plans: [plan], recommended: plan, said: new Map([[1, 'satin']]), left: undefined };
    expect(ask(['advice', { fabric: 'denim' }, 3], answer)).toEqual({ got: answer, worked: true });
    const { got, worked } = ask(['advice', { fabric: 'denim' }, 3], 'another');
    expect(worked).toBe(false);
    expect(got).toEqual(answer);
    const { plans, recommended } = got as typeof answer;
    expect(plans[0]).toBe(recommended);
  });

  it('are of one question each', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.jsonValue(), {
          maxLength: 6,
          comparator: 'SameValue',
          selector: (v) => JSON.stringify(v),
        }),
        (values) => {
          rmSync(at(), { recursive: true, force: true });
          for (const value of values) ask(['kind', value], JSON.stringify(value));
          for (const value of values)
            expect(ask(['kind', value], 'anew')).toEqual({ got: JSON.stringify(value), worked: false });
        },
      ),
      { numRuns: 40 },
    );
    rmSync(at(), { recursive: true, force: true });
    for (const [asked, where] of [
      [['kind', '1'], place()],
      [['kind', 1], place()],
      [['kind', undefined], place()],
      [['kind', { a: undefined }], place()],
      [['kind', {}], place()],
      [['kind', { a: -0 }], place()],
      [['kind', { a: 0 }], place()],
      [['kind', { a: null }], place()],
      [['kind', { a: Number.NaN }], place()],
      [['kind', new Map([['a', 0]])], place()],
      [['kind', 'undefined'], place()],
      [['kind', 1, null], place()],
      [['other', 1], place()],
      [['kind', 1], place({ by: 'another program' })],
      [['kind', Float64Array.of(1)], place()],
      [['kind', Float32Array.of(1)], place()],
      [['kind', new Float64Array([0, 1]).subarray(0, 1)], place()],
    ] as const)
      expect(ask(asked, 'mine', where).worked).toBe(true);
  });

  it('are of the same question however its numbers came about', () => {
    const worked = [0.5, 1.5].map((half) => half * 2);
    expect(ask([{ of: [1, 3], on: Int32Array.of(1, 2, 3).subarray(1) }], 1).worked).toBe(true);
    expect(ask([{ of: worked, on: Int32Array.of(2, 3) }], 1).worked).toBe(false);
    expect(() => ask([{ of: () => 1 }], 1)).toThrow(TypeError);
  });

  it('are none where the work throws', () => {
    const fails = () =>
      keptAnswers(place()).of(['a'], () => {
        throw new RangeError('no');
      });
    expect(fails).toThrow('no');
    expect(ask(['a'], 1).worked).toBe(true);
  });

  it('are worked out anew where the file was cut off, filled up, emptied or changed', () => {
    ask(['a'], { x: [1, 2, 3] });
    const [file] = readdirSync(at());
    const whole = readFileSync(at(file));
    fc.assert(
      fc.property(
        fc.oneof(
          fc.nat(whole.length - 1).map((n) => whole.subarray(0, n)),
          fc.uint8Array({ minLength: 1, maxLength: 9 }).map((more) => Buffer.concat([whole, more])),
          fc.tuple(fc.nat(whole.length - 1), fc.integer({ min: 1, max: 255 })).map(([n, by]) => {
            const other = Buffer.from(whole);
            other[n] ^= by;
            return other;
          }),
        ),
        (damaged) => {
          writeFileSync(at(file), damaged);
          expect(ask(['a'], { x: [1, 2, 3] })).toEqual({ got: { x: [1, 2, 3] }, worked: true });
          expect(ask(['a'], 'anew').worked).toBe(false);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('are not kept, and nothing is said, where the folder cannot be', () => {
    writeFileSync(at(), 'a file is in the way');
    for (let n = 0; n < 2; n++) expect(ask(['a'], 1)).toEqual({ got: 1, worked: true });
    expect(readdirSync(home)).toEqual(['answers']);
  });

  it('are for their owner alone', () => {
    ask(['a'], 1);
    const mode = (path: string) => statSync(path).mode & 0o777;
    expect(readdirSync(at()).map((file) => mode(at(file)))).toEqual([0o600]);
    expect(mode(at())).toBe(0o700);
  });

  it('never fill more than they may: what was not asked for longest goes', async () => {
    const bounded = keptAnswers(place({ mostBytes: 20_000 }));
    // Of numbers that no packing makes smaller.
    const large = (n: number) => Float64Array.from({ length: 100 }, (_, k) => Math.sin(n * 1000 + k));
    const size = () => readdirSync(at()).reduce((sum, file) => sum + statSync(at(file)).size, 0);
    const made: string[] = [];
    for (let n = 0; n < 60; n++) {
      bounded.of([n], () => large(n));
      const [file] = readdirSync(at()).filter((name) => !made.includes(name));
      made.push(file);
      // The clock of a disk stands still for some milliseconds; the first is asked for each time.
      await setTimeout(15);
      expect(ask([0], 'anew').worked).toBe(false);
      await setTimeout(15);
      // Looked through after every sixteenth part that is written.
      expect(size()).toBeLessThan(22_500);
    }
    const kept = made.map((file) => readdirSync(at()).includes(file));
    expect(kept.lastIndexOf(false)).toBeLessThan(kept.indexOf(true, 1));
    expect(kept.filter(Boolean).length).toBeGreaterThan(15);
  });

  it('leave nothing half-written behind: what a killed process left goes after an hour', () => {
    mkdirSync(at());
    const [old, fresh] = ['a.answer.01.part', 'b.answer.02.part'];
    for (const name of [old, fresh]) writeFileSync(at(name), 'part');
    const twoHoursAgo = Date.now() / 1000 - 7200;
    utimesSync(at(old), twoHoursAgo, twoHoursAgo);
    ask(['a'], 1);
    expect(readdirSync(at()).filter((name) => name.endsWith('.part'))).toEqual([fresh]);
  });
});
