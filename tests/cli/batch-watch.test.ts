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
    expect(err).toBe('1 file: 1 to look at\n');
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
