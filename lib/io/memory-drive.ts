/** A drive whose files are in memory: whatever reads and writes files works on them where there is no disk, as in a browser. */
import type { Drive, FileState, FolderEntry } from './drive.js';

/** One file or folder; two names of a file share it. */
interface HeldFile {
  readonly kind: 'file' | 'folder';
  readonly id: string;
  mode: number;
  bytes: Uint8Array;
  /** What was written and is not in `bytes` yet. */
  added: Uint8Array[];
}

export interface MemoryDrive extends Drive {
  /** Puts a file there, and the folders on the way, in the place of a file of that name; the bytes are kept as they are. */
  put(path: string, bytes: Uint8Array): void;
  /** Takes a file away; false where there is none. */
  drop(path: string): boolean;
  /** Every file by its whole path. Bytes of a file that was not written to are the same array as before. */
  files(): ReadonlyMap<string, Uint8Array>;
}

const EVERYBODY = 0o666;

function refused(code: string, syscall: string): never {
  throw Object.assign(new Error(`${code}, ${syscall}`), { code, syscall });
}

/** `/a/b` for whatever leads there from the root, where all relative paths begin. */
function whole(path: string): string {
  const parts: string[] = [];
  for (const part of path.split('/')) {
    if (part === '..') parts.pop();
    else if (part !== '' && part !== '.') parts.push(part);
  }
  return `/${parts.join('/')}`;
}

const folderOf = (path: string): string => path.slice(0, Math.max(1, path.lastIndexOf('/')));

function bytesOf(kept: HeldFile): Uint8Array {
  if (kept.added.length === 0) return kept.bytes;
  const all = [kept.bytes, ...kept.added];
  const bytes = new Uint8Array(all.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of all) {
    bytes.set(part, at);
    at += part.length;
  }
  kept.bytes = bytes;
  kept.added = [];
  return bytes;
}

const stateOf = (kept: HeldFile): FileState => ({
  kind: kept.kind,
  size: bytesOf(kept).length,
  mode: kept.mode,
  id: kept.id,
  modifiedMs: 0,
  changedMs: 0,
});

/** An empty drive: `/` alone. Refuses what a disk refuses, with the codes of POSIX. */
export function memoryDrive(): MemoryDrive {
  let made = 0;
  const keep = (kind: HeldFile['kind'], bytes: Uint8Array = new Uint8Array(0)): HeldFile => ({
    kind,
    id: String(++made),
    mode: EVERYBODY,
    bytes,
    added: [],
  });
  const there = new Map<string, HeldFile>([['/', keep('folder')]]);
  const open = new Map<number, HeldFile>();
  let descriptors = 2;

  const at = (path: string, syscall: string): HeldFile =>
    there.get(whole(path)) ?? refused('ENOENT', syscall);
  const openAs = (file: number, syscall: string): HeldFile => open.get(file) ?? refused('EBADF', syscall);
  /** The name that a new file gets; its folder is there, and the name is free. */
  const free = (path: string, syscall: string): string => {
    const name = whole(path);
    const folder = there.get(folderOf(name)) ?? refused('ENOENT', syscall);
    if (folder.kind !== 'folder') refused('ENOTDIR', syscall);
    if (there.has(name)) refused('EEXIST', syscall);
    return name;
  };
  const unlink = (path: string, syscall: string): void => {
    if (at(path, syscall).kind === 'folder') refused('EISDIR', syscall);
    there.delete(whole(path));
  };

  return {
    put(path, bytes) {
      const name = whole(path);
      if (there.get(name)?.kind === 'folder') refused('EISDIR', 'open');
      for (let end = name.indexOf('/', 1); end > 0; end = name.indexOf('/', end + 1))
        if (!there.has(name.slice(0, end))) there.set(name.slice(0, end), keep('folder'));
      there.delete(name);
      there.set(free(name, 'open'), keep('file', bytes));
    },
    drop: (path) => there.get(whole(path))?.kind === 'file' && there.delete(whole(path)),
    files: () =>
      new Map(
        [...there].filter(([, { kind }]) => kind === 'file').map(([path, kept]) => [path, bytesOf(kept)]),
      ),
    async open(path, how) {
      if (how === 'new') there.set(free(path, 'open'), keep('file'));
      open.set(++descriptors, at(path, 'open'));
      return descriptors;
    },
    async close(file) {
      openAs(file, 'close');
      open.delete(file);
    },
    async read(file, into, from) {
      const piece = bytesOf(openAs(file, 'read')).subarray(from, from + into.length);
      into.set(piece);
      return piece.length;
    },
    async write(file, bytes) {
      openAs(file, 'write').added.push(bytes.slice());
      return bytes.length;
    },
    fstat: async (file) => stateOf(openAs(file, 'fstat')),
    async fsync(file) {
      openAs(file, 'fsync');
    },
    async fchmod(file, mode) {
      openAs(file, 'fchmod').mode = mode;
    },
    stat: async (path) => stateOf(at(path, 'stat')),
    lstat: async (path) => stateOf(at(path, 'lstat')),
    async realpath(path) {
      at(path, 'realpath');
      return whole(path);
    },
    async readdir(path) {
      if (at(path, 'scandir').kind !== 'folder') refused('ENOTDIR', 'scandir');
      const folder = whole(path);
      const entries: FolderEntry[] = [];
      for (const [name, { kind }] of there)
        if (name !== '/' && folderOf(name) === folder)
          entries.push({ name: name.slice(name.lastIndexOf('/') + 1), kind });
      return entries;
    },
    async rename(from, to) {
      const kept = at(from, 'rename');
      if (there.has(whole(to))) unlink(to, 'rename');
      there.set(free(to, 'rename'), kept);
      there.delete(whole(from));
    },
    async link(one, other) {
      there.set(free(other, 'link'), at(one, 'link'));
    },
    async unlink(path) {
      unlink(path, 'unlink');
    },
    async mkdir(path) {
      there.set(free(path, 'mkdir'), keep('folder'));
    },
  };
}
