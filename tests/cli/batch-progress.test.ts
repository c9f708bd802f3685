import { truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { Pace } from '../../cli/batch/pace.js';
import { BYTES_EACH, progressLine } from '../../cli/batch/progress.js';
import { WorkDone } from '../../cli/batch/work-done.js';
import { Random } from '../generators/random.js';
import { lieflat, shopFolder, sinkInto } from './at-a-terminal.js';

afterEach(() => {
  vi.restoreAllMocks();
});

describe('the bar', () => {
  it.each([
    [1, 4, 0.25, 3000, '[######..................] 1 of 4 files, about 3 s left'],
    [1000, 2000, 0.5, 240_000, '[############............] 1,000 of 2,000 files, about 4 min left'],
    [1, 1000, 0.001, 19_980_000, '[........................] 1 of 1,000 files, about 5.6 h left'],
    [7, 7, 1, 0, '[########################] 7 of 7 files, about 1 s left'],
    [9, 10, 0.25, 3000, '[######..................] 9 of 10 files, about 3 s left'],
    [3, 9, 0, null, '[........................] 3 of 9 files'],
  ])('after %i of %i files, %f of the work and %s ms before the end', (done, total, part, leftMs, line) => {
    expect(progressLine({ done, total, part, leftMs })).toBe(line);
  });

  /** Vets two designs at a terminal where each look at the clock takes a second. */
  async function drawn(...more: string[]) {
    const { at } = shopFolder();
    let seconds = 0;
    vi.spyOn(performance, 'now').mockImplementation(() => 1000 * seconds++);
    const err: string[] = [];
    const stderr = { ...sinkInto(err), isTTY: true };
    const args = ['vet', at('wide.dst'), at('plain.dst'), '--format', 'jsonl', '--quiet', ...more];
    await lieflat(args, { stderr, isTTY: true, columns: 80, cwd: at('.') });
    return { at, err };
  }

  it('stays off streams that are no terminal, and off a terminal that the report goes to', async () => {
    expect((await drawn()).err).toEqual([]);
  });

  it('says how many files are done and how long the others take', async () => {
    const { err } = await drawn('--out', 'out.jsonl');
    expect(err[0]).toMatch(/^\r\[#+\.+\] 1 of 2 files, about \d+ s left/);
    expect(err[1]).toMatch(/^\r\[#{24}\] 2 of 2 files, about 1 s left/);
  });
});

describe('work on files', () => {
  it('goes with their bytes and with what each takes whatever its size', () => {
    const work = new WorkDone(['a', 'b', 'c'], 100);
    work.sized('a', 300);
    work.sized('b', 500);
    work.sized('c', 100);
    expect(work.part).toBe(0);
    work.done('b');
    expect(work.part).toBeCloseTo(600 / 1200, 12);
    work.done('c');
    work.done('a');
    expect(work.part).toBe(1);
  });

  it('counts a file whose size nobody knows as the mean of the others', () => {
    const work = new WorkDone(['a', 'b', 'c', 'd'], 100);
    work.done('a');
    expect(work.part).toBe(1 / 4);
    // Known too late to matter.
    work.sized('a', 1e9);
    work.sized('b', 700);
    work.sized('c', 100);
    expect(work.part).toBeCloseTo(500 / (500 + 800 + 200 + 500), 12);
    work.done('b');
    expect(work.part).toBeCloseTo((500 + 800) / 2000, 12);
  });

  it('is less by files that are passed over', () => {
    const work = new WorkDone(['a', 'b', 'c'], 0);
    for (const file of ['a', 'b', 'c']) work.sized(file, 100);
    work.passedOver('a');
    expect(work.part).toBe(0);
    work.done('b');
    expect(work.part).toBe(1 / 2);
    work.passedOver('c');
    expect(work.part).toBe(1);
    expect(new WorkDone([], 5).part).toBe(1);
  });
});

type Timed = readonly [bytes: number, ms: number];
/** Bytes of designs of `generators/mixed-design.ts`, and for how many ms two workers were busy with each, measured over 40 to 600 copies. */
const VETTED: readonly Timed[] = [
  [1736, 7.9],
  [3641, 22],
  [6047, 22],
  [10_610, 49],
  [13_313, 42],
  [31_340, 121],
  [39_947, 170],
  [62_657, 199],
];
/** The same with the advice on performance knit, of one copy each. */
const ADVISED: readonly Timed[] = [
  [12_104, 91_500],
  [13_313, 28_000],
  [40_178, 103_700],
];

describe('the time that is left', () => {
  const bySize = (files: readonly Timed[]) => files.toSorted((a, b) => a[0] - b[0]);
  const orders: [string, (files: readonly Timed[]) => readonly Timed[]][] = [
    ['as they come', (files) => files],
    ['the smallest first', bySize],
    ['the largest first', (files) => bySize(files).reverse()],
  ];

  it.each(orders)('is right within a quarter after a tenth of 500 files, %s', async (_, order) => {
    const random = new Random(1, 'mixed batch');
    const files = order(Array.from({ length: 500 }, () => random.pick(VETTED)));
    const { said, true: left } = await afterATenth(files, BYTES_EACH.alone);
    expect(said / left).toBeGreaterThan(0.75);
    expect(said / left).toBeLessThan(1.25);
  });

  it('is so where the pucker is worked out', async () => {
    const random = new Random(2, 'mixed batch');
    const files = Array.from({ length: 500 }, () => random.pick(ADVISED));
    const { said, true: left } = await afterATenth(files, BYTES_EACH.onFabric);
    expect(said / left).toBeGreaterThan(0.75);
    expect(said / left).toBeLessThan(1.25);
  });

  /** Two workers go through the files, by a clock that is made up. */
  async function afterATenth(timed: readonly Timed[], bytesEach: number) {
    const { at } = shopFolder();
    const files = timed.map(([bytes], n) => {
      const path = join(at('.'), `${n}.dst`);
      writeFileSync(path, '');
      truncateSync(path, bytes);
      return path;
    });
    const work = new WorkDone(files, bytesEach);
    await work.askSizes(() => true);
    // Threads begin late.
    const free = [5 * timed[0][1], 5 * timed[0][1]];
    const ends = timed.map(([, ms], n) => {
      const worker = free[0] <= free[1] ? 0 : 1;
      free[worker] += ms;
      return { ms: free[worker], file: files[n] };
    });
    const pace = new Pace();
    let said: number | null = null;
    let now = 0;
    for (const { ms, file } of ends.toSorted((a, b) => a.ms - b.ms).slice(0, files.length / 10)) {
      work.done(file);
      now = ms;
      said = pace.leftAt(now, work.part);
    }
    return { said: said ?? Number.NaN, true: Math.max(...ends.map(({ ms }) => ms)) - now };
  }
});

describe('the pace', () => {
  it('is that of the later half of the work', () => {
    const pace = new Pace();
    expect(pace.leftAt(100, 0)).toBeNull();
    expect(pace.leftAt(10_000, 0.1)).toBeCloseTo(89_100, 6);
    // From here on ten times as fast.
    expect(pace.leftAt(11_000, 0.2)).toBeCloseTo(8000, 6);
    expect(pace.leftAt(13_000, 0.4)).toBeCloseTo(6000, 6);
    expect(pace.leftAt(19_000, 1)).toBe(0);
  });
});
