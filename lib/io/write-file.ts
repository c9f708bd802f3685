import { type BigIntStats, constants } from 'node:fs';
import { type FileHandle, link, lstat, open, realpath, rename, stat, unlink } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, relative, sep } from 'node:path';
import { LieflatError } from '../core/errors.js';
import { fileError, systemCode } from './file-errors.js';

export interface WriteOptions {
  /** Replace an existing file. */
  force?: boolean;
  /** Files that were read: none of them is ever the target, whatever name or link it goes by. */
  inputs?: readonly string[];
  /** A folder that the file must lie in, whatever name or link leads to it. */
  within?: string;
}

/** Temporary files tried beside a target before giving up: more means a folder full of leftovers. */
const MOST_TEMPORARIES = 1000;
/** What file systems without hard links answer. */
const NO_LINKS = new Set(['EPERM', 'ENOSYS', 'ENOTSUP', 'EOPNOTSUPP', 'EMLINK']);

/** A file that is being written under a temporary name beside its target. */
export interface SafeFile {
  /** Text is written as UTF-8. */
  write(content: Uint8Array | string): Promise<void>;
  /** Puts what was written in the target's place. */
  commit(): Promise<void>;
  /** Takes away what was written; the target stays as it was. Does nothing after {@link SafeFile.commit}. */
  discard(): Promise<void>;
}

/**
 * Writes a file whole or not at all: to a temporary name beside the target, then renamed. A symbolic link is followed, and an
 * existing file keeps its permissions. Text is written as UTF-8.
 * @throws LieflatError `exists` without `force`; `bad-argument` where the target is one of the inputs; `unwritable`
 */
export async function writeFileSafely(
  path: string,
  content: Uint8Array | string,
  options: WriteOptions = {},
): Promise<void> {
  const file = await openFileSafely(path, options);
  try {
    await file.write(content);
    await file.commit();
  } finally {
    await file.discard();
  }
}

/**
 * The same for a file that is written piece by piece.
 * @throws LieflatError as {@link writeFileSafely} does, and so do the steps of the file that it gives
 */
export async function openFileSafely(path: string, options: WriteOptions = {}): Promise<SafeFile> {
  const { target, stats } = await orFileError(path, () => allowedTarget(path, options));
  const { file, temporary } = await orFileError(path, () => openBeside(target));
  let open = true;
  let there = true;
  const close = async () => {
    if (open) await file.close();
    open = false;
  };
  return {
    // Appends: the file was opened empty and nobody else writes to it.
    write: (content) => orFileError(path, () => file.appendFile(content)),
    commit: () =>
      orFileError(path, async () => {
        if (stats) await file.chmod(Number(stats.mode) & ~constants.S_IFMT);
        // A full disk or a lost network drive may show only now; the old file must still be there then.
        await file.sync();
        await close();
        if (options.force) await rename(temporary, target);
        else await moveToNewName(temporary, target, path);
        there = false;
      }),
    discard: async () => {
      // What went wrong first is what is told.
      await close().catch(() => undefined);
      if (there) await unlink(temporary).catch(() => undefined);
      there = false;
    },
  };
}

async function orFileError<T>(path: string, step: () => Promise<T>): Promise<T> {
  try {
    return await step();
  } catch (error) {
    throw fileError(error, path, 'writing');
  }
}

/**
 * Refuses a target that {@link writeFileSafely} would refuse, before the work that is to be written is done. The last word has the
 * writing: what is there can change in between.
 * @throws LieflatError as {@link writeFileSafely} does
 */
export async function refuseTarget(path: string, options: WriteOptions = {}): Promise<void> {
  await orFileError(path, async () => {
    const { target } = await allowedTarget(path, options);
    await stat(dirname(target));
  });
}

/** Where the bytes go in the end, and what is there now, if it may be replaced. */
async function allowedTarget(
  path: string,
  { force = false, inputs = [], within }: WriteOptions,
): Promise<{ target: string; stats: BigIntStats | null }> {
  if (/[/\\]$/.test(path)) throw notAFile(path, 'it is the name of a folder');
  const found = await findTarget(path);
  if (within !== undefined) await refuseOutside(path, found.target, within);
  const { stats } = found;
  if (stats) {
    await refuseInput(path, stats, inputs);
    if (stats.isDirectory()) throw notAFile(path, 'it is a folder');
    if (!stats.isFile()) throw notAFile(path, 'it is a device, pipe or socket, not a file');
    if (!force) throw existsAlready(path);
  }
  return found;
}

/** Links are followed first: the folder that a file lies in is where it really lies. */
async function refuseOutside(path: string, target: string, within: string): Promise<void> {
  const folder = await realpath(within).catch((error) => {
    throw fileError(error, within, 'writing');
  });
  const inside = relative(folder, join(await realpath(dirname(target)), basename(target)));
  if (inside !== '' && inside !== '..' && !inside.startsWith(`..${sep}`) && !isAbsolute(inside)) return;
  throw new LieflatError({
    code: 'unwritable',
    place: path,
    what: `it is not in ${within}, the folder that files are written to`,
    todo: 'give a name that stays in it, or another --out-dir',
  });
}

function notAFile(path: string, what: string): LieflatError {
  return new LieflatError({ code: 'unwritable', place: path, what, todo: 'give the name of a file' });
}

/** Where the bytes go in the end, and what is there now. */
async function findTarget(path: string): Promise<{ target: string; stats: BigIntStats | null }> {
  const stats = await lstat(path, { bigint: true }).catch(nullIfMissing);
  if (!stats?.isSymbolicLink()) return { target: path, stats };
  const target = await realpath(path).catch(nullIfMissing);
  if (target === null) {
    throw new LieflatError({
      code: 'unwritable',
      place: path,
      what: 'it is a symbolic link to a file that does not exist',
      todo: 'remove the link or choose another name',
    });
  }
  return { target, stats: await stat(target, { bigint: true }) };
}

function nullIfMissing(error: unknown): null {
  if (systemCode(error) === 'ENOENT') return null;
  throw error;
}

async function refuseInput(path: string, target: BigIntStats, inputs: readonly string[]): Promise<void> {
  for (const input of inputs) {
    // What cannot be looked at was not read.
    const stats = await stat(input, { bigint: true }).catch(() => null);
    if (stats && stats.dev === target.dev && stats.ino === target.ino) {
      throw new LieflatError({
        code: 'bad-argument',
        place: path,
        what: `it is the file that was read (${input})`,
        todo: 'write to another name: the input is never replaced',
      });
    }
  }
}

async function openBeside(target: string): Promise<{ file: FileHandle; temporary: string }> {
  for (let n = 0; n < MOST_TEMPORARIES; n++) {
    const temporary = join(dirname(target), `.lieflat-${n}.part`);
    try {
      return { file: await open(temporary, 'wx'), temporary };
    } catch (error) {
      if (systemCode(error) !== 'EEXIST') throw error;
    }
  }
  throw new LieflatError({
    code: 'unwritable',
    place: target,
    what: 'its folder is full of unfinished files',
    todo: `remove the files .lieflat-*.part from ${dirname(target)}`,
  });
}

/** A rename that replaces nothing, even if the name was taken a moment ago. */
async function moveToNewName(temporary: string, target: string, path: string): Promise<void> {
  try {
    await link(temporary, target);
  } catch (error) {
    const code = systemCode(error) ?? '';
    if (code === 'EEXIST') throw existsAlready(path);
    if (!NO_LINKS.has(code)) throw error;
    await rename(temporary, target);
    return;
  }
  await unlink(temporary);
}

function existsAlready(path: string): LieflatError {
  return new LieflatError({
    code: 'exists',
    place: path,
    what: 'there is a file of that name already',
    todo: 'choose another name, or replace it with --force',
  });
}
