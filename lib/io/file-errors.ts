/** What the operating system answers, in words that say what to do. */
import { type ErrorCode, LieflatError } from '../core/errors.js';

const READING: Readonly<Record<string, readonly [what: string, todo: string]>> = {
  ENOENT: ['there is no such file or folder', 'check the path'],
  ENOTDIR: ['a part of the path is a file, not a folder', 'check the path'],
  EACCES: ['you may not read it', 'ask for permission to read it'],
  EPERM: ['you may not read it', 'ask for permission to read it'],
  ELOOP: ['its symbolic links lead around in a circle', 'give the path of the file itself'],
  ENAMETOOLONG: ['the path is too long', 'use a shorter path'],
  EMFILE: ['too many files are open', 'read fewer files at once'],
  EIO: ['the disk or network drive failed while reading', 'copy the file to another disk'],
};

const WRITING: Readonly<Record<string, readonly [what: string, todo: string]>> = {
  ENOENT: ['the folder for it does not exist', 'make the folder first'],
  ENOTDIR: ['a part of the path is a file, not a folder', 'check the path'],
  EACCES: ['you may not write there', 'choose another folder or ask for permission'],
  EPERM: ['you may not write there', 'choose another folder or ask for permission'],
  EROFS: ['the disk is read-only', 'choose another folder'],
  ENOSPC: ['the disk is full', 'make room or choose another disk'],
  EDQUOT: ['your share of the disk is full', 'make room or choose another disk'],
  EFBIG: ['the file is larger than the disk allows', 'choose another disk'],
  ELOOP: ['its symbolic links lead around in a circle', 'give the path of the file itself'],
  ENAMETOOLONG: ['the name is too long', 'use a shorter name'],
  EIO: ['the disk or network drive failed while writing', 'choose another disk'],
};

/**
 * The error to show for what the operating system refused. What is no answer of the operating system is a bug of ours and
 * comes back as it is.
 */
export function fileError(error: unknown, path: string, doing: 'reading' | 'writing'): unknown {
  const code = systemCode(error);
  if (code === null) return memoryError(error, path) ?? error;
  const known = (doing === 'reading' ? READING : WRITING)[code];
  const [what, todo] = known ?? [
    `the system refused ${doing} it (${code})`,
    'try another folder or copy the file',
  ];
  const kind: ErrorCode = doing === 'reading' ? 'unreadable' : 'unwritable';
  return new LieflatError({ code: kind, place: path, what, todo });
}

/** The error to show where the computer had no memory left for an array; null for any other error. */
export function memoryError(error: unknown, path: string): LieflatError | null {
  if (!(error instanceof RangeError && error.message === NO_MEMORY)) return null;
  return new LieflatError({
    code: 'too-large',
    place: path,
    what: 'the computer is out of memory',
    todo: 'close other programs and run it again, or split the design',
  });
}

/** What V8 says of an array that the system has no room for. */
const NO_MEMORY = 'Array buffer allocation failed';

/** `ENOENT` and the like, or null where the error is not the operating system's. */
export function systemCode(error: unknown): string | null {
  if (!(error instanceof Error) || !('syscall' in error) || !('code' in error)) return null;
  return typeof error.code === 'string' ? error.code : null;
}
