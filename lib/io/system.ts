/**
 * What differs from one operating system to another, in one place: how file names are written and compared, which names a system
 * keeps for itself, what it does with a file that another program holds open, which signals ask a program to stop, and in what
 * encoding lists are written. Nothing else in lieflat knows which system it runs on.
 */
import { hostname, platform } from 'node:os';
import { posix, win32 } from 'node:path';
import { kill, pid, versions } from 'node:process';
import { Replaceable } from './replaceable.js';

/** What is asked of paths. */
export interface Paths {
  readonly sep: string;
  join(...parts: string[]): string;
  resolve(...parts: string[]): string;
  relative(from: string, to: string): string;
  dirname(path: string): string;
  basename(path: string): string;
  isAbsolute(path: string): boolean;
  parse(path: string): { root: string };
}

export interface System {
  /** How paths are taken apart and put together. */
  readonly path: Paths;
  /** File names are bytes, in whatever encoding; elsewhere they are text. */
  readonly namesAreBytes: boolean;
  /** `A.dst` and `a.dst` are one file. */
  readonly caseBlind: boolean;
  /** A file that another program holds open cannot be replaced or removed for a moment. */
  readonly heldFiles: boolean;
  /** What asks the program to stop, beside the end of the terminal. */
  readonly stopSignals: readonly ('SIGINT' | 'SIGTERM' | 'SIGBREAK')[];
  /** What a list of paths is written in where it is neither UTF-8 nor marked as UTF-16; null where names are bytes. */
  readonly listEncoding: string | null;
  /** What the system answers where the disk has no hard links. */
  readonly noLinks: ReadonlySet<string>;
}

const NO_LINKS = ['EPERM', 'ENOSYS', 'ENOTSUP', 'EOPNOTSUPP', 'EMLINK'];

/** The system of a name as Node gives it: `linux`, `darwin`, `win32`, and so on. */
export function systemOf(name: string): System {
  const windows = name === 'win32';
  return {
    path: windows ? win32 : posix,
    namesAreBytes: !windows && name !== 'darwin',
    caseBlind: windows || name === 'darwin',
    heldFiles: windows,
    // Windows cannot ask a program to end; Ctrl-Break is its second way for a person to do so.
    stopSignals: windows ? ['SIGINT', 'SIGBREAK'] : ['SIGINT', 'SIGTERM'],
    listEncoding: windows ? 'windows-1252' : null,
    // FAT and network drives of Windows refuse links in these words.
    noLinks: new Set(windows ? [...NO_LINKS, 'EISDIR', 'EINVAL', 'UNKNOWN'] : NO_LINKS),
  };
}

const ownSystem = new Replaceable(systemOf(platform()));

/** The system that lieflat runs on. */
export const system = (): System => ownSystem.current;

/** Has everything act as on another system until the result is called; for tests. */
export const actAs = ownSystem.use;

/** Names that Windows keeps for devices, whatever ending follows. */
const DEVICE = /^(con|prn|aux|nul|conin\$|conout\$|com[0-9\u00b9\u00b2\u00b3]|lpt[0-9\u00b9\u00b2\u00b3])$/i;
// biome-ignore lint/suspicious/noControlCharactersInRegex: no file name of Windows may hold them
const FORBIDDEN = /[<>:"|?*\u0000-\u001f]/;
/** Letters that a file name of Windows may have; elsewhere the system says so itself. */
const LONGEST_NAME = 255;

/** Why the system would not give a file that name (it would open a device, or save under another name), or null where it would. */
export function refusedName(path: string): readonly [what: string, todo: string] | null {
  if (system().path !== win32) return null;
  const { root } = win32.parse(path);
  for (const part of path.slice(root.length).split(/[\\/]+/)) {
    if (part === '' || part === '.' || part === '..') continue;
    if (DEVICE.test(part.split('.', 1)[0].trimEnd()))
      return [`Windows keeps the name ${part} for a device`, 'choose another name'];
    if (/[. ]$/.test(part))
      return ['Windows drops a dot or space at the end of a name', 'leave it out of the name'];
    const bad = FORBIDDEN.exec(part);
    if (bad)
      return [
        `Windows allows no ${bad[0] < ' ' ? 'control character' : bad[0]} in a name`,
        'leave it out of the name',
      ];
    if (part.length > LONGEST_NAME) return ['the name is too long', 'use a shorter name'];
  }
  return null;
}

/** A path as it is seen from a folder; one that begins with a drive or a root stays as it is. */
export function pathIn(folder: string, path: string): string {
  const { isAbsolute, join, parse, resolve } = system().path;
  if (isAbsolute(path)) return path;
  // `c:orders` is in the folder that drive stands at, which only the system knows.
  return parse(path).root === '' ? join(folder, path) : resolve(folder, path);
}

/** Whether two paths without links are the same name to the system. */
export function sameName(a: string, b: string): boolean {
  const plain = (path: string): string => {
    const whole = system().path.resolve(path);
    return system().caseBlind ? whole.normalize('NFC').toLowerCase() : whole;
  };
  return plain(a) === plain(b);
}

/** A glob as the matcher reads it: it parts folders with slashes alone. */
export const globOf = (pattern: string): string =>
  system().path === win32 ? pattern.replaceAll('\\', '/') : pattern;

/** Whether a process of this computer runs. */
export function isRunning(id: number): boolean {
  try {
    kill(id, 0);
    return true;
  } catch (error) {
    // It runs, but belongs to somebody else.
    return (error as { code?: string }).code === 'EPERM';
  }
}

/** This process, its computer, and what runs it. */
export const own: { readonly pid: number; readonly hostname: () => string; readonly engine: string } = {
  pid,
  hostname,
  engine: versions.v8,
};
