import { LieflatError } from '../core/errors.js';
import { DESIGN_EXTENSIONS, formatOf } from '../format/decode.js';
import { isOtherTable } from '../format/stitch-table.js';
import { drive, type FolderEntry } from './drive.js';
import { fileError, systemCode } from './file-errors.js';
import { whileOpen } from './read-file.js';
import { globOf, pathIn, system } from './system.js';
import { walkAdapter } from './walk-adapter.js';

export interface DesignFileList {
  /** Sorted; each file once, under the first name that led to it. */
  readonly files: readonly string[];
  /** Given paths that lead to nothing, and folders or links on the way that cannot be followed; the rest go on. */
  readonly errors: readonly LieflatError[];
  /** How many files of folders and globs have an ending that is not read: by that ending, in small letters with its dot, empty for none. */
  readonly otherEndings: ReadonlyMap<string, number>;
}

/**
 * The files that a list of files, folders and globs stands for. A folder stands for the `.dst` and `.csv` files in it and
 * in the folders under it, in capitals or not; hidden ones (with a leading dot) are left out, and tables of something else (a
 * log of sew-outs, a list of customers), which lie beside designs; symbolic links are followed, each folder once. A glob
 * stands for the `.dst` and `.csv` files that it matches, in capitals or not. A file that is named
 * outright is taken whatever its name; whether it can be read shows on reading.
 */
export async function listDesignFiles(paths: readonly string[]): Promise<DesignFileList> {
  const search = new Search();
  for (const path of paths) await search.path(path);
  return {
    files: [...search.found.values()].sort(),
    errors: search.errors,
    otherEndings: search.otherEndings,
  };
}

class Search {
  /** Real path → the name to show. */
  readonly found = new Map<string, string>();
  readonly errors: LieflatError[] = [];
  readonly otherEndings = new Map<string, number>();
  /** Names that an error was told of: two words may lead to the same one. */
  readonly #told = new Set<string>();

  async path(path: string): Promise<void> {
    await this.#orError(path, async () => {
      const state = await drive.stat(path).catch((error) => {
        if (systemCode(error) !== 'ENOENT') throw error;
        return null;
      });
      if (state === null) await this.#glob(path);
      else if (state.kind !== 'folder') this.#add(path, await drive.realpath(path));
      else if (!(await this.#folder(path, await drive.realpath(path), new Set())))
        throw nothingThere(path, 'in the folder or under it');
    });
  }

  async #glob(path: string): Promise<void> {
    // Loaded only where a path is no file's, as most never are globs.
    const { glob, isDynamicPattern } = await import('tinyglobby');
    const pattern = globOf(path);
    if (!isDynamicPattern(pattern)) {
      await drive.stat(path);
      return;
    }
    const unread: { folder: string; error: unknown }[] = [];
    const matches = await glob(pattern, {
      absolute: system().path.isAbsolute(path),
      caseSensitiveMatch: false,
      expandDirectories: false,
      fs: walkAdapter((folder, error) => unread.push({ folder, error })),
    });
    for (const { folder, error } of unread) await this.#orError(folder, () => Promise.reject(error));
    const files = matches.filter((file) => formatOf(file) !== null);
    for (const file of matches) if (formatOf(file) === null) this.#countEnding(file);
    if (files.length === 0 && unread.length === 0) throw nothingThere(path, 'that it matches');
    for (const file of files)
      await this.#orError(file, async () => {
        if ((await drive.stat(file)).kind === 'file') this.#add(file, await drive.realpath(file));
      });
  }

  /**
   * Whether there is any stitch file, or anything wrong, in a folder or under it.
   *
   * @param real the path without links; asked for at links alone, as finding it out takes longer the deeper it goes
   */
  async #folder(path: string, real: string, seen: Set<string>): Promise<boolean> {
    if (seen.has(real)) return false;
    seen.add(real);
    let any = false;
    for (const entry of await drive.readdir(path)) {
      if (entry.name.startsWith('.')) continue;
      const inside = system().path.join(path, entry.name);
      const outcome = await this.#orError(inside, () =>
        this.#entry(inside, pathIn(real, entry.name), entry, seen),
      );
      any ||= outcome ?? true;
    }
    return any;
  }

  async #entry(path: string, ownReal: string, entry: FolderEntry, seen: Set<string>): Promise<boolean> {
    const isDesign = formatOf(entry.name) !== null;
    const isLink = entry.kind === 'link';
    // What a link that leads nowhere would have led to matters only where its name says that it is a stitch file.
    if (isLink && !isDesign && !(await leadsSomewhere(path))) return false;
    const { kind } = isLink ? await drive.stat(path) : entry;
    const real = isLink ? await drive.realpath(path) : ownReal;
    if (kind === 'folder') return this.#folder(path, real, seen);
    if (!isDesign && kind === 'file') this.#countEnding(path);
    if (!isDesign || kind !== 'file' || (await isTableOfSomethingElse(path))) return false;
    this.#add(path, real);
    return true;
  }

  #countEnding(path: string): void {
    const ending = /\.[^./\\]+$/.exec(path)?.[0].toLowerCase() ?? '';
    this.otherEndings.set(ending, 1 + (this.otherEndings.get(ending) ?? 0));
  }

  #add(path: string, real: string): void {
    if (!this.found.has(real)) this.found.set(real, path);
  }

  /** Runs a step; what a person can mend becomes an entry of `errors`, and the result is null. */
  async #orError<T>(path: string, step: () => Promise<T>): Promise<T | null> {
    try {
      return await step();
    } catch (error) {
      const shown = fileError(error, path, 'reading');
      if (!(shown instanceof LieflatError)) throw shown;
      if (!this.#told.has(shown.place)) this.errors.push(shown);
      this.#told.add(shown.place);
      return null;
    }
  }
}

/**
 * Whether a file of a folder is a table of something else, which lies beside designs and is passed over. One that cannot be read is none:
 * reading it says better what is wrong.
 */
export async function isTableOfSomethingElse(path: string): Promise<boolean> {
  if (formatOf(path) !== 'csv') return false;
  const first = await whileOpen(path, async (file) => {
    const bytes = new Uint8Array(ENOUGH_FOR_NAMES);
    return bytes.subarray(0, await drive.read(file, bytes, 0));
  }).catch(() => new Uint8Array(0));
  return isOtherTable(first);
}

/** Bytes of a table in which the names of its columns stand. */
const ENOUGH_FOR_NAMES = 1024;

const leadsSomewhere = (path: string): Promise<boolean> =>
  drive.stat(path).then(
    () => true,
    () => false,
  );

function nothingThere(path: string, where: string): LieflatError {
  return new LieflatError({
    code: 'unreadable',
    place: path,
    what: `there is no ${Object.values(DESIGN_EXTENSIONS).join(' or ')} file ${where}`,
    todo: 'check the path',
  });
}
