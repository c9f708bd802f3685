import { appendFileSync, copyFileSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { watchFolders } from '../../cli/batch/watch.js';
import type { Io } from '../../cli/io.js';
import { lieflat, shopFolder, sinkInto } from './at-a-terminal.js';

const QUIET_MS = 200;

const world = (cwd: string, err: string[] = []): Io => ({
  stdout: sinkInto([]),
  stderr: sinkInto(err),
  stdin: (async function* () {})(),
  cwd,
  env: {},
  isTTY: false,
  columns: undefined,
});

describe('a folder that is watched', () => {
  it('brings what is there, then what comes once it is whole, each once, and ends when it is told to', async () => {
    const { folder, at } = shopFolder();
    mkdirSync(at('in/sub'), { recursive: true });
    copyFileSync(at('crest.dst'), at('in/crest.dst'));
    copyFileSync(at('crest.dst'), at('in/.hidden.dst'));
    const stop = new AbortController();
    const arrivals = (await watchFolders(['in'], world(folder), QUIET_MS))
      .arrivals(stop.signal)
      [Symbol.asyncIterator]();
    const next = async () => {
      const { value, done } = await arrivals.next();
      return done ? null : { name: basename(value), size: readFileSync(value).length };
    };
    expect((await next())?.name).toBe('crest.dst');

    const whole = readFileSync(at('wide.dst'));
    const coming = next();
    writeFileSync(at('in/notes.txt'), 'no design');
    writeFileSync(at('in/sub/slow.dst'), whole.subarray(0, 100));
    for (let from = 100; from < whole.length; from += Math.ceil(whole.length / 4)) {
      await wait(QUIET_MS / 2);
      appendFileSync(at('in/sub/slow.dst'), whole.subarray(from, from + Math.ceil(whole.length / 4)));
    }
    expect(await coming).toEqual({ name: 'slow.dst', size: whole.length });

    const moved = next();
    copyFileSync(at('plain.dst'), at('in/.part'));
    renameSync(at('in/.part'), at('in/moved.dst'));
    expect((await moved)?.name).toBe('moved.dst');

    const last = next();
    stop.abort();
    expect(await last).toBeNull();
  });

  it('brings a dozen at once without a word, and names that are no UTF-8; a table of something else is passed over', async (context) => {
    const { folder, at } = shopFolder();
    mkdirSync(at('in'));
    const names = Array.from({ length: 12 }, (_, n) => `${n}.dst`);
    const bytes = (name: string): Buffer =>
      Buffer.concat([Buffer.from(at('in/')), Buffer.from(name, 'latin1')]);
    const warnings: Error[] = [];
    const warned = (warning: Error): number => warnings.push(warning);
    process.on('warning', warned);
    const stop = new AbortController();
    const err: string[] = [];
    try {
      copyFileSync(at('crest.dst'), bytes('caf\xe9.dst'));
    } catch {
      context.skip('the disk here has names of letters alone');
    }
    const arrivals = (await watchFolders(['in'], world(folder, err), QUIET_MS)).arrivals(stop.signal);
    const brought: string[] = [];
    let begun = false;
    for await (const path of arrivals) {
      brought.push(basename(path));
      if (!begun) {
        begun = true;
        writeFileSync(at('in/customers.csv'), 'customer,phone\r\nA,1\r\n');
        writeFileSync(at('in/table.csv'), 'x_mm,y_mm,kind\r\n0,0,stitch\r\n');
        for (const name of names) copyFileSync(at('crest.dst'), at(`in/${name}`));
        copyFileSync(at('crest.dst'), bytes('na\xefve.dst'));
      }
      if (brought.length === 15) stop.abort();
    }
    process.off('warning', warned);
    expect(brought[0]).toBe('caf\udce9.dst');
    expect(brought.slice(1).sort()).toEqual(['na\udcefve.dst', 'table.csv', ...names].sort());
    expect([warnings, err]).toEqual([[], []]);
  });

  it('is vetted, and summed up when the person has had enough', async () => {
    const { folder, at } = shopFolder();
    mkdirSync(at('in'));
    const out: string[] = [];
    let stop: () => void = () => {};
    const { code, err } = await lieflat(['vet', '--watch', 'in', '--format', 'jsonl'], {
      cwd: folder,
      stdout: {
        write(text, done) {
          out.push(text);
          done();
          if (text !== '') stop();
        },
      },
      onStop: (listener) => {
        stop = listener;
        copyFileSync(at('crest.dst'), at('in/crest.dst'));
        return () => {};
      },
    });
    expect(code).toBe(0);
    expect(JSON.parse(out.join('')).file.path).toContain('crest.dst');
    expect(err).toBe('1 file: 1 to check first\n');
  });

  it.each([
    [['vet', '--watch', 'crest.dst'], 'give folders'],
    [['vet', '--watch', 'nowhere'], 'give folders'],
    [['vet', '--watch', '.', '--format', 'json'], 'jsonl'],
  ])('is refused in one line: %j', async (args, words) => {
    const { folder } = shopFolder();
    const { code, err } = await lieflat(args, { cwd: folder });
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });
});
