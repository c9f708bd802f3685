/** One command line in a folder of its own: what fuzzing makes, keeps of a failure and plays again. */
import { randomUUID } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import type { Sink } from '../../../cli/io.js';
import { run } from '../../../cli/run.js';

/** Text as it is, bytes in base 64; a case that is kept can be read. */
export type Content = string | { base64: string };

export interface Trial {
  /** Of a case that is kept: what went wrong with it once. */
  wentWrong?: string;
  argv: string[];
  /** What lies in the folder, by its way there. */
  files: Record<string, Content>;
  stdin?: string;
  /** Columns of the terminal; none where standard output is no terminal. */
  columns?: number;
  /** The person asks to stop as soon as that is listened to. */
  stop?: boolean;
}

export interface Ran {
  code: number;
  out: string;
  err: string;
  /** Files that were not there before, by their way. */
  made: ReadonlyMap<string, Buffer>;
  /** Files that were there before and are not what they were. */
  changed: readonly string[];
}

export const bytesOf = (content: Content): Buffer =>
  typeof content === 'string' ? Buffer.from(content) : Buffer.from(content.base64, 'base64');

/** Bytes as text where they are plain text, so that whoever reads the case sees what it is. */
export function contentOf(bytes: Uint8Array): Content {
  const text = Buffer.from(bytes).toString('utf8');
  const plain = /^[\t\n\r -~]*$/.test(text);
  return plain ? text : { base64: Buffer.from(bytes).toString('base64') };
}

const into = (pieces: string[]): Sink => ({
  write(text, done) {
    pieces.push(text);
    done();
  },
});

/** Runs it in this process; the folder is gone afterwards. */
export async function runTrial({ argv, files, stdin = '', columns, stop }: Trial): Promise<Ran> {
  // Random letters would spell a word that output is searched for, once in a hundred thousand.
  const around = join(tmpdir(), `fuzz-${randomUUID()}`);
  mkdirSync(around);
  // What is written into the folder above is seen as well.
  const folder = join(around, 'shop');
  try {
    mkdirSync(folder);
    for (const [name, content] of Object.entries(files)) {
      const path = join(folder, name);
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, bytesOf(content));
    }
    const [out, err]: string[][] = [[], []];
    const code = await run(argv, {
      stdout: into(out),
      stderr: into(err),
      stdin: (async function* () {
        yield stdin;
      })(),
      cwd: folder,
      env: {},
      isTTY: columns !== undefined,
      columns,
      ...(stop && {
        onStop: (stopped: () => void) => {
          const soon = setTimeout(stopped);
          return () => clearTimeout(soon);
        },
      }),
    });
    const after = filesIn(around, folder);
    const changed = Object.entries(files)
      .filter(([name, content]) => !after.get(name)?.equals(bytesOf(content)))
      .map(([name]) => name);
    for (const name of Object.keys(files)) after.delete(name);
    return { code, out: out.join(''), err: err.join(''), made: after, changed };
  } finally {
    rmSync(around, { recursive: true, force: true });
  }
}

function filesIn(around: string, folder: string): Map<string, Buffer> {
  const found = new Map<string, Buffer>();
  for (const entry of readdirSync(around, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath, entry.name);
    found.set(relative(folder, path), readFileSync(path));
  }
  return found;
}
