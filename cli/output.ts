import { relative } from 'node:path';
import { type DesignFormat, formatOf, type Paint, printable, type TextOptions } from '../lib/index.js';
import {
  openFileSafely,
  refuseSameTargets,
  refuseTarget,
  type SafeFile,
  writeFileSafely,
} from '../lib/io/index.js';
import { wrongEnding } from './bad-argument.js';

import { type Io, print, printWidth } from './io.js';
import type { Beforehand, Report, TypedWords } from './options.js';
import { pathFrom, profilePath, setObjectsInForce, targetFrom } from './settings.js';

/** Control sequence EL of ECMA-48: erase from here to the end of the line. */
export const CLEAR_LINE = '\u001b[K';

/** Where a report goes: piece by piece to the terminal, or into `--out`, which is there whole at the end or not at all. */
export interface Output {
  /** False where the reader has gone away: there is no use in going on. */
  write(text: string): Promise<boolean>;
  /** Puts the file in place, if there is one. */
  finish(): Promise<void>;
  /**
   * Leaves what was written beside the file that `--out` names, which stays as it was, and gives the name that it has there; null where there is
   * nothing to leave.
   */
  setAside(): Promise<string | null>;
  /** Takes away what was written of a file that is not in place yet. */
  abandon(): Promise<void>;
}

/** Opens the output that the options ask for. */
export function outputOf(args: Report, io: Io): Output {
  const name = args.out;
  if (name === undefined)
    return {
      write: (text) => print(io.stdout, text),
      finish: async () => {},
      setAside: async () => null,
      abandon: async () => {},
    };
  let bytes = 0;
  let opened: Promise<SafeFile> | undefined;
  const { path, within } = targetFrom(io, name);
  const file = () => (opened ??= openFileSafely(path, { force: args.force, inputs: io.inputs, within }));
  const abandon = async () => (await opened?.catch(() => null))?.discard();
  const orAbandon = async <T>(step: () => Promise<T>): Promise<T> => {
    try {
      return await step();
    } catch (error) {
      await abandon();
      throw error;
    }
  };
  return {
    write: async (text) => {
      if (text === '') return true;
      bytes += Buffer.byteLength(text);
      await orAbandon(async () => (await file()).write(text));
      return true;
    },
    finish: async () => {
      await orAbandon(async () => (await file()).commit());
      await print(io.stderr, wrote(placeOf(name, io), bytes));
    },
    setAside: async () => {
      if (!opened) return null;
      const aside = await orAbandon(async () => (await file()).setAside());
      return `${printable(placeOf(aside.startsWith(path) ? name + aside.slice(path.length) : aside, io))} (${fileSize(bytes)})`;
    },
    abandon,
  };
}

/** Writes one piece behind the other; false where the reader has gone away. */
export async function writeAll(output: Output, pieces: Iterable<string>): Promise<boolean> {
  for (const piece of pieces) if (!(await output.write(piece))) return false;
  return true;
}

/** Writes a file safely and says so, on standard error: a report may be on its way through the other. */
export async function writeOut(
  name: string,
  content: Uint8Array | string,
  force: boolean,
  io: Io,
): Promise<void> {
  const { path, within } = targetFrom(io, name);
  await writeFileSafely(path, content, { force, inputs: io.inputs, within });
  await print(io.stderr, wrote(placeOf(name, io), Buffer.byteLength(content)));
}

/**
 * The format of a stitch file to write, by the ending of its name.
 *
 * @throws LieflatError `bad-argument` for another name
 */
export function formatToWrite(name: string): DesignFormat {
  const format = formatOf(name);
  if (format === null) throw wrongEnding('-o', name, '.dst or .csv');
  return format;
}

/** A name as it was given, or, where `--out-dir` says into which folder, the way there. */
function placeOf(name: string, io: Io): string {
  const { path, within } = targetFrom(io, name);
  if (within === undefined) return name;
  const way = relative(io.cwd, path);
  return way.startsWith('..') ? path : way;
}

const wrote = (name: string, bytes: number): string => `wrote ${printable(name)} (${fileSize(bytes)})\n`;

/** `512 bytes`, `12.4 kB`, `3.1 MB`. */
function fileSize(bytes: number): string {
  if (bytes < 1000) return bytes === 1 ? '1 byte' : `${bytes} bytes`;
  return bytes < 999_950 ? `${(bytes / 1e3).toFixed(1)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

/** What a command line may say about files to write. */
type Targets = Partial<Pick<Beforehand, 'out' | 'map' | 'summary' | 'force'>>;

/** Notes what a command line has read, so that it is never written to; the profile in force, too, as far as it matters. */
export async function noteInputs(args: Beforehand & TypedWords, io: Io): Promise<void> {
  const { words, since = [], profile, init } = args;
  for (const word of [...words, ...since]) if (word !== '-') io.inputs?.push(pathFrom(io, word));
  // A profile to start from is written without one being read.
  if (targetsOf(args).length === 0 || init) return;
  const inForce = await profilePath({ profile }, io);
  if (inForce !== null) io.inputs?.push(inForce);
  const set = await setObjectsInForce(inForce, io);
  if (set.designs.size > 0) io.inputs?.push(set.path);
}

const targetsOf = ({ out, map, summary }: Targets): string[] =>
  [out, map, summary].filter((name) => name !== undefined);

/** Refuses files that could not be written in the end, before any work is done: also such as are read, and two that are one. */
export async function refuseTargets(args: Targets, io: Io): Promise<void> {
  const targets = targetsOf(args).map((name) => targetFrom(io, name));
  for (const { path, within } of targets)
    await refuseTarget(path, { force: args.force, inputs: io.inputs, within });
  await refuseSameTargets(targets.map(({ path }) => path));
}

/** What is said while the mechanics are at work. */
export const WORKING_OUT = 'working out the pucker';

/**
 * Does work that takes a while under a line that says so and goes away afterwards; a standard error that is no terminal is told
 * nothing.
 */
export async function underNotice<T>(notice: string, io: Io, work: () => T | Promise<T>): Promise<T> {
  io.onNotice?.(notice);
  if (!io.stderr.isTTY || io.env.TERM === 'dumb') return work();
  await print(io.stderr, `${notice} ...`);
  try {
    return await work();
  } finally {
    await print(io.stderr, `\r${CLEAR_LINE}`);
  }
}

/** How printed reports are set, as data that can be handed to a thread. */
export interface PrintLook {
  width: number;
  units: Report['units'];
  coloured: boolean;
}

/** The terminal's width, the units asked for, colour only on a terminal that wants it. */
export function lookOf(args: Report, io: Io): PrintLook {
  const coloured = io.isTTY && !args.out && !io.env.NO_COLOR && io.env.TERM !== 'dumb';
  return { width: printWidth(io), units: args.units, coloured };
}

/** How the library sets text of that look. */
export async function inLook({ width, units, coloured }: PrintLook): Promise<TextOptions> {
  return { width, units, ...(coloured && { paint: await colours() }) };
}

/** How printed reports are set. */
export const textOptions = (args: Report, io: Io): Promise<TextOptions> => inLook(lookOf(args, io));

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
