import { LieflatError } from '../core/errors.js';
import { drive, type FileState, writeAll } from './drive.js';
import { fileError, systemCode } from './file-errors.js';
import { refusedName, sameName, system } from './system.js';
import { closeTemporary, openTemporary } from './temporaries.js';

export interface WriteOptions {
  /** Replace an existing file. */
  force?: boolean;
  /** Files that were read: none of them is ever the target, whatever name or link it goes by. */
  inputs?: readonly string[];
  /** A folder that the file must lie in, whatever name or link leads to it. */
  within?: string;
}

/** A file that is being written under a temporary name beside its target. */
export interface SafeFile {
  /** Text is written as UTF-8. */
  write(content: Uint8Array | string): Promise<void>;
  /** Puts what was written in the target's place. */
  commit(): Promise<void>;
  /**
   * Leaves what was written beside the target, under its name and `.part` (`.2.part` and on where that is taken), and the target as it
   * was; gives that name.
   */
  setAside(): Promise<string>;
  /** Takes away what was written; the target stays as it was. Does nothing after the other two. */
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
  const { target, state } = await orFileError(path, () => allowedTarget(path, options));
  const { file, temporary } = await orFileError(path, () =>
    openTemporary(system().path.dirname(target), target),
  );
  let open = true;
  let there = true;
  const close = async () => {
    // Asked twice, the system might close a file that has the number by then.
    const was = open;
    open = false;
    if (was) await drive.close(file);
  };
  const moveTo = async (name: string, replace: boolean) => {
    // A full disk or a lost network drive may show only now; the old file must still be there then.
    if (open) await drive.fsync(file);
    await close();
    if (replace) await drive.rename(temporary, name);
    else await moveToNewName(temporary, name);
    there = false;
    closeTemporary(temporary);
  };
  return {
    write: (content) => orFileError(path, () => writeAll(file, content)),
    commit: () =>
      orFileError(path, async () => {
        if (state) await drive.fchmod(file, state.mode);
        await moveTo(target, options.force ?? false).catch((error) => {
          throw systemCode(error) === 'EEXIST' ? existsAlready(path) : error;
        });
      }),
    setAside: () =>
      orFileError(path, async () => {
        for (let n = 1; ; n++) {
          const end = n === 1 ? '.part' : `.${n}.part`;
          const name = `${target}${end}`;
          try {
            const { force } = options;
            await allowedTarget(name, options);
            await moveTo(name, force ?? false);
            return target === path ? name : system().path.resolve(name);
          } catch (error) {
            const taken = error instanceof LieflatError || systemCode(error) === 'EEXIST';
            if (!taken || n === MOST_PARTS) throw error;
          }
        }
      }),
    discard: async () => {
      // What went wrong first is what is told. Without the file's number nobody can tell whether it is still held: try all the same.
      await close().catch(() => undefined);
      // Once it was moved, another write may have a file under that name.
      if (!there) return;
      there = false;
      await drive.unlink(temporary).catch(() => undefined);
      closeTemporary(temporary);
    },
  };
}

/** Parts of one target that may lie beside it. */
const MOST_PARTS = 100;

async function orFileError<T>(path: string, step: () => Promise<T>): Promise<T> {
  try {
    return await step();
  } catch (error) {
    throw fileError(error, path, 'writing');
  }
}

/**
 * Removes a file; it is no matter whether one is there.
 * @throws LieflatError `unwritable`
 */
export async function removeFile(path: string): Promise<void> {
  await orFileError(path, () => drive.unlink(path).catch(nullIfMissing));
}

/**
 * Makes a folder where there is none; the one that it lies in is there.
 * @throws LieflatError `unwritable`
 */
export async function makeFolder(path: string): Promise<void> {
  await orFileError(path, async () => {
    const state = await drive.stat(path).catch(nullIfMissing);
    if (state?.kind === 'folder') return;
    if (state) throw unwritable(path, 'it is a file', 'give the name of a folder');
    const refused = refusedName(path);
    if (refused) throw unwritable(path, ...refused);
    await drive.mkdir(path).catch((error) => {
      // Another run may have made it meanwhile.
      if (systemCode(error) !== 'EEXIST') throw error;
    });
  });
}

/**
 * Refuses a target that {@link writeFileSafely} would refuse, before the work that is to be written is done. The last word has the
 * writing: what is there can change in between.
 * @throws LieflatError as {@link writeFileSafely} does
 */
export async function refuseTarget(path: string, options: WriteOptions = {}): Promise<void> {
  await orFileError(path, async () => {
    const { target } = await allowedTarget(path, options);
    await drive.stat(system().path.dirname(target));
  });
}

/**
 * Refuses targets of which two are the same file, through whatever links and names.
 * @throws LieflatError `bad-argument`
 */
export async function refuseSameTargets(paths: readonly string[]): Promise<void> {
  const real: string[] = [];
  for (const path of paths) real.push(await orFileError(path, () => realTarget(path)));
  for (const [i, path] of paths.entries()) {
    const first = real.findIndex((other) => sameName(other, real[i]));
    if (first < i)
      throw new LieflatError({
        code: 'bad-argument',
        place: path,
        what: `it would be written twice, as ${paths[first]} is the same file`,
        todo: 'write to two names',
      });
  }
}

async function realTarget(path: string): Promise<string> {
  const { dirname, basename, join } = system().path;
  const { target } = await findTarget(path);
  return join(await drive.realpath(dirname(target)), basename(target));
}

/** Where the bytes go in the end, and what is there now, if it may be replaced. */
async function allowedTarget(
  path: string,
  { force = false, inputs = [], within }: WriteOptions,
): Promise<{ target: string; state: FileState | null }> {
  if (/[/\\]$/.test(path)) throw unwritable(path, 'it is the name of a folder', 'give the name of a file');
  const refused = refusedName(path);
  if (refused) throw unwritable(path, ...refused);
  const found = await findTarget(path);
  if (within !== undefined) await refuseOutside(path, within);
  const { state } = found;
  if (state) {
    await refuseInput(path, state, inputs);
    if (state.kind === 'folder') throw unwritable(path, 'it is a folder', 'give the name of a file');
    if (state.kind !== 'file')
      throw unwritable(path, 'it is a device, pipe or socket, not a file', 'give the name of a file');
    if (!force) throw existsAlready(path);
  }
  return found;
}

/** Links are followed first: the folder that a file lies in is where it really lies. */
async function refuseOutside(path: string, within: string): Promise<void> {
  const { relative, sep, isAbsolute } = system().path;
  const folder = await drive.realpath(within).catch((error) => {
    throw fileError(error, within, 'writing');
  });
  const inside = relative(folder, await realTarget(path));
  if (inside !== '' && inside !== '..' && !inside.startsWith(`..${sep}`) && !isAbsolute(inside)) return;
  throw unwritable(
    path,
    `it is not in ${within}, the folder that files are written to`,
    'give a name that stays in it, or another --out-dir',
  );
}

const unwritable = (place: string, what: string, todo: string): LieflatError =>
  new LieflatError({ code: 'unwritable', place, what, todo });

/** Where the bytes go in the end, and what is there now. */
async function findTarget(path: string): Promise<{ target: string; state: FileState | null }> {
  const state = await drive.lstat(path).catch(nullIfMissing);
  if (state?.kind !== 'link') return { target: path, state };
  const target = await drive.realpath(path).catch(nullIfMissing);
  if (target === null)
    throw unwritable(
      path,
      'it is a symbolic link to a file that does not exist',
      'remove the link or choose another name',
    );
  return { target, state: await drive.stat(target) };
}

function nullIfMissing(error: unknown): null {
  if (systemCode(error) === 'ENOENT') return null;
  throw error;
}

/** A path that leads to nothing, or that may not be followed, was not read. */
const NEVER_READ = new Set(['ENOENT', 'ENOTDIR', 'ELOOP', 'ENAMETOOLONG', 'EACCES']);

async function refuseInput(path: string, target: FileState, inputs: readonly string[]): Promise<void> {
  for (const input of inputs) {
    const state = await drive.stat(input).catch((error) => {
      if (NEVER_READ.has(systemCode(error) ?? '')) return null;
      throw fileError(error, input, 'reading');
    });
    if (state?.id === target.id)
      throw new LieflatError({
        code: 'bad-argument',
        place: path,
        what: `it is the file that was read (${input})`,
        todo: 'write to another name: the input is never replaced',
      });
  }
}

/**
 * A rename that replaces nothing, even if the name was taken a moment ago.
 * @throws what the system says, `EEXIST` where the name is taken
 */
async function moveToNewName(temporary: string, target: string): Promise<void> {
  try {
    await drive.link(temporary, target);
  } catch (error) {
    if (!system().noLinks.has(systemCode(error) ?? '')) throw error;
    // The best that a disk without links can do.
    if ((await drive.lstat(target).catch(nullIfMissing)) !== null)
      throw Object.assign(new Error(), { code: 'EEXIST', syscall: 'rename' });
    await drive.rename(temporary, target);
    return;
  }
  // The file is whole under its name; a second try is the least to do about the other one.
  await drive.unlink(temporary).catch(() => drive.unlink(temporary).catch(() => undefined));
}

function existsAlready(path: string): LieflatError {
  return new LieflatError({
    code: 'exists',
    place: path,
    what: 'there is a file of that name already',
    todo: 'choose another name, or replace it with --force',
  });
}
