import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Io } from '../../cli/io.js';
import { run } from '../../cli/run.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { builtProgram } from '../built.js';
import { holdWords } from '../forbidden-words.js';
import { littleCrest, Needle } from '../report/little-design.js';
import { sinkInto } from './sink.js';

export interface Ran {
  code: number;
  out: string;
  err: string;
}

export { sinkInto };

/** Standard error, but for the line that a machine without fonts adds to a PNG. */
export function besidesFonts(err: string): string {
  return err.replace(/^lieflat: no font was found on this computer, .*\n/m, '');
}

/** Runs a command line in this process, with a world of its own; nothing that it says or writes has a word that is not said. */
export async function lieflat(argv: readonly string[], world: Partial<Io> = {}): Promise<Ran> {
  // The build makes what the command writes.
  if (argv[0] === 'page') builtProgram();
  const [out, err]: string[][] = [[], []];
  const code = await run(argv, {
    stdout: sinkInto(out),
    stderr: sinkInto(err),
    stdin: (async function* () {})(),
    cwd: process.cwd(),
    env: {},
    isTTY: false,
    columns: undefined,
    ...world,
  });
  const ran = { code, out: out.join(''), err: err.join('') };
  const { cwd = process.cwd() } = world;
  for (const [where, text] of [
    ['standard output', ran.out],
    ['standard error', ran.err],
    ...written(ran, cwd),
  ])
    holdWords(text, `${where} of lieflat ${argv.join(' ')}`, argv);
  return ran;
}

/** Files for people among those that a run says it wrote, where they still are. */
function written({ err }: Ran, cwd: string): [name: string, text: string][] {
  const names = [...err.matchAll(/^wrote (.+\.(?:html|svg|txt|json)) \([\d.,]+ \w+\)$/gm)].map(
    ([, name]) => name,
  );
  return names
    .map((name) => ({ name, path: resolve(cwd, name) }))
    .filter(({ path }) => existsSync(path))
    .map(({ name, path }) => [name, readFileSync(path, 'utf8')]);
}

/** A folder of its own for the test, gone after it; with a sound design, a faulty one and a file that is none. */
export function shopFolder(): { folder: string; at: (name: string) => string } {
  const folder = mkdtempSync(join(tmpdir(), 'shop-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const at = (name: string): string => join(folder, name);
  writeFileSync(at('crest.dst'), encodeDst(littleCrest()));
  writeFileSync(
    at('plain.dst'),
    encodeDst(new Needle().column(0, 0, { width: 3, underlay: 'center-run' }).end()),
  );
  writeFileSync(
    at('wide.dst'),
    encodeDst(new Needle().column(0, 0, { width: 11 }).column(20, 0, { width: 3 }).end()),
  );
  writeFileSync(at('broken.dst'), 'no stitches in here');
  return { folder, at };
}
