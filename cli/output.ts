import { type Paint, type TextOptions, writeFileSafely } from '../lib/index.js';
import { type Io, print, printWidth } from './io.js';
import type { Report } from './options.js';
import { pathFrom } from './settings.js';

/** Where a report goes: piece by piece to the terminal, or whole into `--out` at the end. */
export interface Output {
  /** False where the reader has gone away: there is no use in going on. */
  write(text: string): Promise<boolean>;
  /** Puts the file in place, if there is one. */
  finish(): Promise<void>;
}

/** Opens the output that the options ask for; `inputs` are files that it must not replace. */
export function outputOf(args: Report, io: Io, inputs: readonly string[]): Output {
  const path = args.out;
  if (path === undefined) return { write: (text) => print(io.stdout, text), finish: async () => {} };
  const pieces: string[] = [];
  return {
    write: async (text) => {
      pieces.push(text);
      return true;
    },
    finish: () => writeFileSafely(pathFrom(io, path), pieces.join(''), { force: args.force, inputs }),
  };
}

/** How printed reports are set: the terminal's width, the units asked for, colour only on a terminal that wants it. */
export async function textOptions(args: Report, io: Io): Promise<TextOptions> {
  const coloured = io.isTTY && !args.out && !io.env.NO_COLOR && io.env.TERM !== 'dumb';
  return { width: printWidth(io), units: args.units, ...(coloured && { paint: await colours() }) };
}

async function colours(): Promise<Paint> {
  const { createColors } = (await import('picocolors')).default;
  const c = createColors(true);
  return {
    fail: (text) => c.bold(c.red(text)),
    warn: (text) => c.bold(c.yellow(text)),
    note: c.cyan,
    sound: (text) => c.bold(c.green(text)),
    strong: c.bold,
  };
}
