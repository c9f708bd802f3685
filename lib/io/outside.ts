/** What a command line needs of files and of the system beside reading and writing them whole. */
import { drive, type FileState, writeAll } from './drive.js';
import { fileError, systemCode } from './file-errors.js';
import { system } from './system.js';

/** What is known of a file, links followed; null where there is none, or nobody may look. */
export const fileState = (path: string): Promise<FileState | null> => drive.stat(path).catch(() => null);

/** Whether a descriptor of this process is the file of a path. */
export async function isOpenAs(descriptor: number, path: string): Promise<boolean> {
  const [one, other] = [await drive.fstat(descriptor).catch(() => null), await fileState(path)];
  return one !== null && one.id === other?.id;
}

/**
 * Writes text to a descriptor of this process where it is a plain file or a device, all of it or an error: Node's own streams lose without a word what a disk
 * that fills up does not take.
 *
 * @param place what the descriptor is called in an error
 * @returns false where it is a pipe or a socket, which Node writes to whole: nothing was written
 * @throws LieflatError `unwritable`
 */
export async function writeToDescriptor(descriptor: number, text: string, place: string): Promise<boolean> {
  try {
    const { kind } = await drive.fstat(descriptor);
    if (kind !== 'file' && kind !== 'device') return false;
    await writeAll(descriptor, text);
    return true;
  } catch (error) {
    throw fileError(error, place, 'writing');
  }
}

/** The signals by which a person or the system asks a program to stop. */
export const stopSignals = (): readonly string[] => system().stopSignals;

/**
 * A path as the system has it. Words of a command line come as UTF-8; a name that is none has U+FFFD in the place of its bytes there. Where one file
 * alone reads so, it is meant.
 */
export async function asNamed(path: string): Promise<string> {
  if (!path.includes('\ufffd') || !system().namesAreBytes) return path;
  const { parse, join, sep } = system().path;
  const { root } = parse(path);
  let found = root;
  for (const part of path.slice(root.length).split(sep)) {
    const there = join(found, part);
    found = part.includes('\ufffd') ? ((await theOneThatReads(found, part)) ?? there) : there;
  }
  return found;
}

async function theOneThatReads(folder: string, name: string): Promise<string | null> {
  const { join } = system().path;
  const entries = await drive.readdir(folder === '' ? '.' : folder).catch((error) => {
    if (systemCode(error) === null) throw error;
    return [];
  });
  if (entries.some((entry) => entry.name === name)) return join(folder, name);
  const alike = entries.filter((entry) => entry.name.replace(HALF, '\ufffd') === name);
  return alike.length === 1 ? join(folder, alike[0].name) : null;
}

/** A byte that is no UTF-8, as names have it. */
const HALF = /[\udc80-\udcff]/gu;
