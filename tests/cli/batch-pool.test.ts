import { execFileSync, spawn } from 'node:child_process';
import { copyFileSync, mkdirSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { beforeAll, describe, expect, it } from 'vitest';
import type { BatchJob } from '../../cli/batch/job.js';
import type { FileOutcome } from '../../cli/batch/task.js';
import { poolOf } from '../../cli/batch/worker-pool.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { BUILT_IN_FIGURES } from '../../lib/profile.js';
import { builtProgram } from '../built.js';
import { mixedDesign } from '../generators/mixed-design.js';
import { layArchive } from '../hostile/archive.js';
import { holdArchive, SOME_WAYS } from '../hostile/vet-archive.js';
import { itInFull } from '../in-full.js';
import { type Ran, shopFolder } from './at-a-terminal.js';

let program = '';

/** Runs the packed program; `seen` is called with all that stands on standard output so far. */
function packed(args: readonly string[], cwd: string, seen?: (out: string, kill: () => void) => void) {
  return new Promise<Ran>((resolve, reject) => {
    const child = spawn(process.execPath, [program, ...args], { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
    let [out, err] = ['', ''];
    child.stdout.on('data', (piece: Buffer) => {
      out += piece;
      seen?.(out, () => child.kill('SIGINT'));
    });
    child.stderr.on('data', (piece: Buffer) => {
      err += piece;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code: code ?? -1, out, err }));
  });
}

const linesOf = (text: string): string[] => text.split('\n').filter(Boolean);
const VET = ['vet', 'archive', '--format', 'jsonl', '--fail-on', 'never', '--quiet'];

/** A folder of good files. */
function archive(files: number) {
  const shop = shopFolder();
  mkdirSync(shop.at('archive'));
  for (let n = 0; n < files; n++)
    writeFileSync(shop.at(`archive/good-${n}.dst`), encodeDst(mixedDesign(n, 300)));
  return shop;
}

describe('a batch over threads', () => {
  beforeAll(() => {
    program = builtProgram();
  });

  it('reports every good file as alone, and tells of every other once, whoever works on them', async () => {
    const sizes = { good: 12, hostile: 24, most: 200, seconds: null, seed: 3 };
    expect(await holdArchive(program, layArchive(shopFolder().at('archive'), sizes), SOME_WAYS)).toEqual([]);
  });

  itInFull('sets text in order, and columns, as one thread does', async () => {
    const { folder } = archive(5);
    for (const args of [
      ['vet', 'archive', '--fail-on', 'never'],
      ['columns', 'archive', '--format', 'json', '--ordered'],
      ['vet', 'archive', '--format', 'html', '--fail-on', 'never'],
    ]) {
      const [alone, many] = await Promise.all(
        ['1', '2'].map((n) => packed([...args, '--workers', n], folder)),
      );
      expect(many).toEqual(alone);
    }
  });

  it('hands on to every thread what the shop has set right', async () => {
    const { folder } = archive(4);
    await packed(['vet', 'archive/good-2.dst', '--is', '1=run', '--fail-on', 'never'], folder);
    const [alone, many] = await Promise.all(
      ['1', '2'].map((n) => packed([...VET, '--ordered', '--workers', n], folder)),
    );
    expect(many).toEqual(alone);
    const said = linesOf(many.out).map((line) => JSON.parse(line).setObjects.length);
    expect(said).toEqual([0, 0, 1, 0]);
  });

  it('stops at Ctrl-C with whole lines, and goes on behind them, even behind a broken one', async () => {
    const { folder, at } = archive(40);
    let asked = false;
    const stopped = await packed([...VET, '--workers', '2'], folder, (out, kill) => {
      if (linesOf(out).length >= 3 && !asked) kill();
      asked ||= linesOf(out).length >= 3;
    });
    expect(stopped.code).toBe(130);
    expect(stopped.err).toMatch(/^stopped after \d+ of 40 files; go on with --since /);
    const done = linesOf(stopped.out);
    expect(done.length).toBeLessThan(40);
    for (const line of done) JSON.parse(line);
    // As if the power had gone: the last line breaks off, and the next run writes behind it.
    writeFileSync(at('report.jsonl'), stopped.out.slice(0, -100));
    const append = openSync(at('report.jsonl'), 'a');
    execFileSync(process.execPath, [program, ...VET, '--since', 'report.jsonl'], {
      cwd: folder,
      stdio: ['ignore', append, 'pipe'],
    });
    const all = linesOf(readFileSync(at('report.jsonl'), 'utf8'));
    const paths = all.flatMap((line) => {
      try {
        return [JSON.parse(line).file.path as string];
      } catch {
        return [];
      }
    });
    expect(all).toHaveLength(41);
    expect(new Set(paths).size).toBe(40);
  });

  itInFull('can be split over processes that share nothing', async () => {
    const { folder, at } = archive(7);
    for (let n = 0; n < 7; n++) copyFileSync(at(`archive/good-${n}.dst`), at(`archive/with blank ${n}.dst`));
    const lieflat = `"${process.execPath}" "${program}"`;
    // As it stands in the paper of the command line.
    const script = `find archive -name '*.dst' -print0 |
      xargs -0 -P2 -n5 sh -c '${lieflat} vet "$@" --format jsonl --quiet --fail-on never --out part-$$.jsonl' sh`;
    execFileSync('sh', ['-c', script], { cwd: folder, stdio: 'ignore' });
    const all = execFileSync('sh', ['-c', 'cat part-*.jsonl'], { cwd: folder, encoding: 'utf8' });
    const paths = linesOf(all).map((line) => JSON.parse(line).file.path as string);
    expect(new Set(paths).size).toBe(14);
    expect(paths).toHaveLength(14);
  });
});

describe('a pool of threads', () => {
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
      limits: { seconds: 60, bytes: 1e9 },
    },
  };

  it('keeps no result once it was taken, however many files there are', async () => {
    const { at } = shopFolder();
    writeFileSync(at('thread.mjs'), 'export default async ({ path }) => ({ pieces: [path], digest: null });');
    const pool = await poolOf(job, 2, pathToFileURL(at('thread.mjs')));
    setFlagsFromString('--expose-gc');
    const collect = runInNewContext('gc') as () => void;
    try {
      const taken: WeakRef<FileOutcome>[] = [];
      for (let n = 0; n < 20; n++) taken.push(new WeakRef(await pool.work({ path: `${n}`, number: n + 1 })));
      // What is reached weakly lives to the end of the turn.
      await new Promise((turn) => setTimeout(turn));
      collect();
      // The pool may hold on to the very last.
      expect(taken.filter((outcome) => outcome.deref() !== undefined).length).toBeLessThanOrEqual(1);
    } finally {
      await pool.end();
    }
  });

  it('makes a thread that dies the error of its file alone', async () => {
    const { at } = shopFolder();
    writeFileSync(
      at('thread.mjs'),
      `export default async ({ path }) => {
        if (path === 'throws') throw new Error('no');
        if (path === 'exits') process.exit(3);
        if (path === 'later') return new Promise(() => setTimeout(() => { throw new Error('late'); }));
        if (path === 'fills') for (const all = []; ;) all.push(new Array(1000).fill(Math.random()));
        return { pieces: [path], digest: null };
      };`,
    );
    const pool = await poolOf(job, 2, pathToFileURL(at('thread.mjs')), 32);
    const names = ['a', 'throws', 'b', 'exits', 'c', 'later', 'd', 'fills', 'e', 'f'];
    try {
      const outcomes = await Promise.all(names.map((path, i) => pool.work({ path, number: i + 1 })));
      const told = (name: string) => outcomes[names.indexOf(name)] as { error: string };
      for (const name of ['a', 'b', 'c', 'd', 'e', 'f'])
        expect(told(name)).toEqual({ pieces: [name], digest: null });
      for (const name of ['throws', 'exits', 'later', 'fills'])
        expect(told(name).error).toMatch(new RegExp(`^lieflat: ${name}: .+; .+\n$`));
      expect(told('fills').error).toContain('memory');
    } finally {
      await pool.end();
    }
  });

  it('tells of a thread that dies before it has begun, and nobody waits for it', async () => {
    const { at } = shopFolder();
    writeFileSync(at('thread.mjs'), 'throw new Error("not installed");');
    const pool = await poolOf(job, 2, pathToFileURL(at('thread.mjs')));
    const outcomes = await Promise.all(
      ['a', 'b', 'c', 'd', 'e'].map((path, i) => pool.work({ path, number: i + 1 })),
    );
    for (const outcome of outcomes) expect(outcome).toHaveProperty('error');
    await pool.end();
  });
});
