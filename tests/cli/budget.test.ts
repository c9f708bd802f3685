import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { BatchJob } from '../../cli/batch/job.js';
import { poolOf } from '../../cli/batch/worker-pool.js';
import { budgetOf } from '../../cli/budget.js';
import type { Watchdog } from '../../cli/watchdog.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { LieflatError } from '../../lib/index.js';
import { BUILT_IN_FIGURES } from '../../lib/profile.js';
import { mixedDesign } from '../generators/mixed-design.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

const LIMITS = { seconds: 10, bytes: 5e6 };

/** A clock that a test turns on. */
function clock(): Watchdog & { at: number; allowed: number[] } {
  return {
    at: 1000,
    allowed: [],
    now() {
      return this.at;
    },
    within(ms, work) {
      this.allowed.push(ms);
      return work();
    },
  };
}

const thrownBy = (work: () => unknown): unknown => {
  try {
    work();
  } catch (error) {
    return error;
  }
  throw new Error('nothing was thrown');
};

describe('the budget of a file', () => {
  it('gives every piece of work what is left of the time, and none of it when that is gone', () => {
    const watch = clock();
    const budget = budgetOf('name.dst', LIMITS, watch);
    watch.at += 4000;
    expect(budget.run(() => 'done')).toBe('done');
    watch.at += 5000;
    // A piece within a piece has no watchdog of its own.
    expect(budget.run(() => budget.run(() => 'within'))).toBe('within');
    expect(watch.allowed).toEqual([6000, 1000]);
    watch.at += 1000;
    let begun = false;
    const error = thrownBy(() =>
      budget.run(() => {
        begun = true;
      }),
    );
    expect(begun).toBe(false);
    expect(error).toBeInstanceOf(LieflatError);
    expect((error as LieflatError).code).toBe('over-budget');
    expect((error as LieflatError).message).toBe(
      'name.dst: not done within 10 seconds; allow more time with --max-seconds, or split the design',
    );
  });

  it('looks at the clock between pieces that lie within one, too', () => {
    const watch = clock();
    const budget = budgetOf('name.dst', LIMITS, watch);
    const error = thrownBy(() =>
      budget.run(() => {
        watch.at += 10_001;
        budget.run(() => 'never');
      }),
    );
    expect((error as LieflatError).code).toBe('over-budget');
  });

  it('passes on what goes wrong in the work itself, and is there for the next piece', () => {
    const budget = budgetOf('name.dst', LIMITS);
    const mistake = new RangeError('ours');
    expect(thrownBy(() => budget.run(() => thrownBy2(mistake)))).toBe(mistake);
    expect(budget.run(() => 'still there')).toBe('still there');
  });

  it('refuses memory before it is filled, and says how much it would be', () => {
    const budget = budgetOf('name.dst', LIMITS, clock());
    budget.reserve(5e6);
    expect((thrownBy(() => budget.reserve(7.2e6)) as LieflatError).message).toBe(
      'name.dst: it would take about 8 MB of memory, more than the 5 MB it may; split the design, or allow more with --max-memory',
    );
  });

  it('ends work that never ends by itself', () => {
    const budget = budgetOf('name.dst', { seconds: 0.05, bytes: 1 });
    const error = thrownBy(() =>
      budget.run(() => {
        for (;;);
      }),
    );
    expect((error as LieflatError).message).toContain('not done within 0.05 seconds; allow more time');
  });
});

function thrownBy2(error: Error): never {
  throw error;
}

/** What each command that reads a design needs beside `crest.dst`. */
const READERS: Readonly<Record<string, readonly string[]>> = {
  vet: ['crest.dst'],
  columns: ['crest.dst'],
  pucker: ['crest.dst', '--fabric', 'denim'],
  advise: ['crest.dst', '--fabric', 'denim'],
  compare: ['crest.dst', 'plain.dst'],
  card: ['crest.dst', '--fabric', 'denim', '-o', 'card.html'],
  draw: ['crest.dst', '-o', 'crest.svg'],
  proof: ['crest.dst', '-o', 'proof.svg'],
  reply: ['crest.dst'],
  order: ['crest.dst', '--fabric', 'denim', '--out-dir', 'done'],
  relay: ['crest.dst', '--dry-run'],
  resew: ['crest.dst', '--dry-run'],
  convert: ['crest.dst', '-o', 'crest.csv'],
};

describe.each(Object.entries(READERS))('%s keeps to the budget of a file', (name, args) => {
  it.each([
    ['--max-seconds', '0.000001', 'not done within 0.000001 seconds'],
    ['--max-memory', '10kB', 'would take about 1 MB of memory, more than the 1 MB it may'],
  ])('%s', async (option, value, said) => {
    const { folder } = shopFolder();
    const { code, out, err } = await lieflat([name, ...args, option, value], { cwd: folder });
    expect(code).toBe(2);
    // An order lists on its page what could not be done.
    if (name !== 'order') expect(out).not.toContain('crest.dst');
    expect(err.split('\n')).toHaveLength(2);
    expect(err).toMatch(/^lieflat: \S*crest\.dst: /);
    expect(err).toContain(said);
    expect(err).toContain(option);
  });
});

describe('the options', () => {
  it.each(['0', '-1', 'soon', '', 'NaN', '1e3', '86401', '1m'])(
    '--max-seconds cannot be %j',
    async (value) => {
      const { code, err } = await lieflat(['vet', 'x.dst', `--max-seconds=${value}`]);
      expect(code).toBe(2);
      expect(err).toMatch(/^lieflat: command line: --max-seconds cannot be .+; give seconds above 0 .+\n$/);
    },
  );

  it('take seconds with their sign, and sizes as --max-bytes does', async () => {
    const { folder } = shopFolder();
    const enough = ['--max-seconds', '90s', '--max-memory', '1.5GB', '--fail-on', 'never'];
    expect((await lieflat(['vet', 'crest.dst', ...enough], { cwd: folder })).code).toBe(0);
    const { err } = await lieflat(['vet', 'crest.dst', '--max-memory', 'lots'], { cwd: folder });
    expect(err).toBe('lieflat: command line: --max-memory cannot be lots; give a size, as 5MB\n');
  });
});

describe('a batch', () => {
  it('goes on past files that are over their budget', async () => {
    const shop = shopFolder();
    for (const [at, size] of [300, 9000, 300, 12_000, 300].entries())
      writeFileSync(shop.at(`d${at}.dst`), encodeDst(mixedDesign(at, size)));
    const names = [0, 1, 2, 3, 4].map((at) => `d${at}.dst`);
    const args = ['--format', 'jsonl', '--fail-on', 'never', '--max-memory', '1MB'];
    const { code, out, err } = await lieflat(['vet', ...names, ...args], { cwd: shop.folder });
    expect(code).toBe(2);
    const reported = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line).file.path as string);
    expect(reported.map((path) => path.slice(-6))).toEqual(['d0.dst', 'd2.dst', 'd4.dst']);
    const lines = err.trim().split('\n');
    expect(lines).toHaveLength(2);
    expect(lines[0]).toMatch(
      /d1\.dst: it would take about \d MB of memory, more than the 1 MB it may; split/,
    );
    expect(lines[1]).toMatch(
      /d3\.dst: it would take about \d MB of memory, more than the 1 MB it may; split/,
    );
  });

  it('gives a thread up that does not come back, and loses nothing else', async () => {
    const { at } = shopFolder();
    writeFileSync(
      at('thread.mjs'),
      `export default async ({ path }) => {
        if (path.startsWith('stuck')) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
        return { pieces: [path], digest: null };
      };`,
    );
    const job: BatchJob = {
      name: 'columns',
      debug: false,
      setup: {
        figures: BUILT_IN_FIGURES,
        conditions: null,
        overMm: null,
        format: 'text',
        look: { width: 80, units: 'mm', coloured: false },
        maxBytes: undefined,
        answers: undefined,
        limits: { seconds: 0.1, bytes: 1e8 },
      },
    };
    // More than it takes a thread to start on the busiest machine.
    const pool = await poolOf(job, 2, pathToFileURL(at('thread.mjs')), undefined, 20);
    const names = ['a', 'stuck-1', 'b', 'c', 'stuck-2', 'd', 'e'];
    try {
      const outcomes = await Promise.all(names.map((path, i) => pool.work({ path, number: i + 1 })));
      for (const [i, path] of names.entries())
        expect(outcomes[i]).toMatchObject(
          path.startsWith('stuck')
            ? {
                error: `lieflat: ${path}: not done within 0.1 seconds; allow more time with --max-seconds, or split the design\n`,
              }
            : { pieces: [path], digest: null },
        );
    } finally {
      await pool.end();
    }
  });
});
