/**
 * Every file operation that lieflat has done, one function each: what Node calls by these names, with names as text and answers as plain data. A test
 * puts a drive in its place that fails when it is told to, a page in a browser one in memory; nothing else in lieflat touches files.
 */
import fs from 'node:fs';
import timers from 'node:timers/promises';
import { nativePath as native, textOfName } from './name-bytes.js';
import { Replaceable } from './replaceable.js';
import { system } from './system.js';

/** What is known of a file without opening it. */
export interface FileState {
  readonly kind: 'file' | 'folder' | 'link' | 'pipe' | 'device' | 'other';
  readonly size: number;
  /** Permissions alone. */
  readonly mode: number;
  /** The same for every name of one file. */
  readonly id: string;
  /** When its content, and when anything of it was changed, ms since 1970. */
  readonly modifiedMs: number;
  readonly changedMs: number;
}

/** A name in a folder. */
export interface FolderEntry {
  readonly name: string;
  readonly kind: FileState['kind'];
}

/** What a file is opened for: to be read (never waiting for the other end of a pipe), or made anew, refused where the name is taken. */
export type Opening = 'read' | 'new';

export interface Drive {
  /** The number by which the system knows the open file. */
  open(path: string, how: Opening): Promise<number>;
  close(file: number): Promise<void>;
  /** How many bytes were read; 0 at the end. */
  read(file: number, into: Uint8Array, at: number): Promise<number>;
  /** How many bytes were taken: a disk that is nearly full takes a part. */
  write(file: number, bytes: Uint8Array): Promise<number>;
  fstat(file: number): Promise<FileState>;
  fsync(file: number): Promise<void>;
  fchmod(file: number, mode: number): Promise<void>;
  stat(path: string): Promise<FileState>;
  lstat(path: string): Promise<FileState>;
  realpath(path: string): Promise<string>;
  readdir(path: string): Promise<FolderEntry[]>;
  rename(from: string, to: string): Promise<void>;
  link(there: string, name: string): Promise<void>;
  unlink(path: string): Promise<void>;
  /** Refused where the name is taken. */
  mkdir(path: string): Promise<void>;
}

const nativePath = (path: string): fs.PathLike => native(path) as fs.PathLike;

type Callback<T> = (error: NodeJS.ErrnoException | null, value: T) => void;

const called = <T = void>(start: (done: Callback<T>) => void): Promise<T> =>
  new Promise((resolve, reject) => {
    start((error, value) => (error ? reject(error) : resolve(value)));
  });

const OPENING: Readonly<Record<Opening, number>> = {
  read: fs.constants.O_RDONLY | (fs.constants.O_NONBLOCK ?? 0),
  new: fs.constants.O_WRONLY | fs.constants.O_CREAT | fs.constants.O_EXCL | fs.constants.O_APPEND,
};
const PERMISSIONS = 0o666;

function kindOf(found: fs.StatsBase<bigint> | fs.Dirent<Buffer>): FileState['kind'] {
  if (found.isFile()) return 'file';
  if (found.isDirectory()) return 'folder';
  if (found.isSymbolicLink()) return 'link';
  if (found.isFIFO()) return 'pipe';
  return found.isCharacterDevice() || found.isBlockDevice() ? 'device' : 'other';
}

const stateOf = (stats: fs.BigIntStats): FileState => ({
  kind: kindOf(stats),
  size: Number(stats.size),
  mode: Number(stats.mode) & ~fs.constants.S_IFMT,
  id: `${stats.dev}:${stats.ino}`,
  modifiedMs: Number(stats.mtimeNs) / 1e6,
  changedMs: Number(stats.ctimeNs) / 1e6,
});

const BIG = { bigint: true } as const;

/** The computer's own disks. */
export const NODE_DRIVE: Drive = {
  open: (path, how) => called((done) => fs.open(nativePath(path), OPENING[how], PERMISSIONS, done)),
  close: (file) => called((done) => fs.close(file, done as fs.NoParamCallback)),
  read: (file, into, at) => called((done) => fs.read(file, into, 0, into.length, at, done)),
  write: (file, bytes) => called((done) => fs.write(file, bytes, 0, bytes.length, null, done)),
  fstat: async (file) => stateOf(await called((done) => fs.fstat(file, BIG, done))),
  fsync: (file) => called((done) => fs.fsync(file, done as fs.NoParamCallback)),
  fchmod: (file, mode) => called((done) => fs.fchmod(file, mode, done as fs.NoParamCallback)),
  stat: async (path) => stateOf(await called((done) => fs.stat(nativePath(path), BIG, done))),
  lstat: async (path) => stateOf(await called((done) => fs.lstat(nativePath(path), BIG, done))),
  realpath: async (path) =>
    textOfName(
      await called<Buffer>((done) => fs.realpath.native(nativePath(path), { encoding: 'buffer' }, done)),
    ),
  readdir: async (path) => {
    const entries = await called<fs.Dirent<Buffer>[]>((done) =>
      fs.readdir(nativePath(path), { withFileTypes: true, encoding: 'buffer' }, done as Callback<unknown>),
    );
    return entries.map((entry) => ({ name: textOfName(entry.name), kind: kindOf(entry) }));
  },
  rename: (from, to) =>
    called((done) => fs.rename(nativePath(from), nativePath(to), done as fs.NoParamCallback)),
  link: (there, name) =>
    called((done) => fs.link(nativePath(there), nativePath(name), done as fs.NoParamCallback)),
  unlink: (path) => called((done) => fs.unlink(nativePath(path), done as fs.NoParamCallback)),
  mkdir: (path) => called((done) => fs.mkdir(nativePath(path), done as fs.NoParamCallback)),
};

/**
 * What is done with a cache, at once and on the computer's own disks whatever drive is in use: nobody reads it but the program, and what fails of it
 * is worked out anew.
 */
export const cacheFiles = {
  read: (path: string): Buffer => fs.readFileSync(nativePath(path)),
  /** For its owner alone; refused where the name is taken. */
  write: (path: string, bytes: Uint8Array): void =>
    fs.writeFileSync(nativePath(path), bytes, { mode: 0o600, flag: 'wx' }),
  rename: (from: string, to: string): void => fs.renameSync(nativePath(from), nativePath(to)),
  unlink: (path: string): void => fs.unlinkSync(nativePath(path)),
  /** Only the time of the change is another after it. */
  touch: (path: string): void => fs.chmodSync(nativePath(path), 0o600),
  /** With those that it lies in; it is no matter whether it is there. */
  makeFolder: (path: string): void => void fs.mkdirSync(nativePath(path), { recursive: true, mode: 0o700 }),
  /** Files of a folder. */
  list: (folder: string): { path: string; size: number; modifiedMs: number; changedMs: number }[] =>
    fs.readdirSync(nativePath(folder)).flatMap((name) => {
      const path = system().path.join(folder, name);
      const stats = fs.statSync(nativePath(path), { throwIfNoEntry: false });
      return stats?.isFile()
        ? [{ path, size: stats.size, modifiedMs: stats.mtimeMs, changedMs: stats.ctimeMs }]
        : [];
    }),
};

const disks = new Replaceable(NODE_DRIVE);

/** Has every file operation go to another drive until the result is called. */
export const useDrive = disks.use;

/** What a system answers while another program (a virus scanner, a viewer) holds a file open. */
const HELD = new Set(['EPERM', 'EACCES', 'EBUSY']);
/** How long to wait before each further try, ms: as long as scanners usually hold a new file, 1.3 s together. */
const WAITS_MS = [10, 20, 40, 80, 160, 320, 640];

/** Does a step again while the file is held open by another program, on systems where that is in the way. */
async function patiently(step: () => Promise<void>): Promise<void> {
  for (const wait of system().heldFiles ? WAITS_MS : []) {
    try {
      return await step();
    } catch (error) {
      if (!HELD.has((error as NodeJS.ErrnoException).code ?? '')) throw error;
      await timers.setTimeout(wait);
    }
  }
  return step();
}

/** The drive in use. */
export const drive: Drive = {
  open: (path, how) => disks.current.open(path, how),
  close: (file) => disks.current.close(file),
  read: (file, into, at) => disks.current.read(file, into, at),
  write: (file, bytes) => disks.current.write(file, bytes),
  fstat: (file) => disks.current.fstat(file),
  fsync: (file) => disks.current.fsync(file),
  fchmod: (file, mode) => disks.current.fchmod(file, mode),
  stat: (path) => disks.current.stat(path),
  lstat: (path) => disks.current.lstat(path),
  realpath: (path) => disks.current.realpath(path),
  readdir: (path) => disks.current.readdir(path),
  rename: (from, to) => patiently(() => disks.current.rename(from, to)),
  link: (there, name) => disks.current.link(there, name),
  unlink: (path) => patiently(() => disks.current.unlink(path)),
  mkdir: (path) => disks.current.mkdir(path),
};

/** Writes all of it: what a system takes of a write may be a part. */
export async function writeAll(file: number, content: Uint8Array | string): Promise<void> {
  let bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  while (bytes.length > 0) {
    const taken = await drive.write(file, bytes);
    if (taken === 0)
      throw Object.assign(new Error('nothing was taken'), { code: 'ENOSPC', syscall: 'write' });
    bytes = bytes.subarray(taken);
  }
}
