import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Io } from '../../cli/io.js';
import { run } from '../../cli/run.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
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

/** Runs a command line in this process, with a world of its own. */
export async function lieflat(argv: readonly string[], world: Partial<Io> = {}): Promise<Ran> {
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
  return { code, out: out.join(''), err: err.join('') };
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
