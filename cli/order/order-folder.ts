/** The folder that an order is written into: what is there already and whether it is ours, and files put there whole. */
import type { RankedPlan } from '../../lib/advice/index.js';
import { LieflatError } from '../../lib/index.js';
import {
  fileState,
  hashOf,
  makeFolder,
  pathIn,
  readBytes,
  removeFile,
  sha256,
  writeFileSafely,
} from '../../lib/io/index.js';
import { emptyManifest, manifestText, type OrderManifest, readManifest } from '../../lib/order/index.js';
import type { OfferedDesign, OrderFile } from '../../lib/pipeline.js';
import type { WorkedLine } from '../../lib/report/index.js';
import type { Io } from '../io.js';

/** What a run of the order leaves for the next. */
const MANIFEST = 'lieflat-order.json';
/** Files may be larger than designs are, where a picture is large. */
const MOST_BYTES = 1e9;

/** What is known of a design, and how it ranks on the stacks that were looked at, by their texts. */
export interface KnownDesign extends OfferedDesign {
  readonly ranked: Readonly<Record<string, readonly RankedPlan[]>>;
}

type Manifest = OrderManifest<KnownDesign, WorkedLine>;

export class OrderFolder {
  /** Ranks and lines that this run has used: what else the manifest holds of them goes with the end. */
  private readonly used = { ranks: new Set<string>(), lines: new Set<string>() };
  private saving: Promise<void> = Promise.resolve();
  /** The save that has not begun: whatever is kept by then goes with it. */
  private waiting: Promise<void> | null = null;
  private readonly writing = new Set<Promise<void>>();
  private closed = false;

  private constructor(
    private readonly folder: string,
    private readonly manifest: Manifest,
    private readonly io: Io,
    private readonly force: boolean,
  ) {}

  /**
   * @param parts folders within it
   * @throws LieflatError `unwritable`, or `undecodable` where something else lies under the name of what a run leaves
   */
  static async open(folder: string, parts: readonly string[], force: boolean, io: Io): Promise<OrderFolder> {
    for (const part of [folder, ...parts.map((name) => pathIn(folder, name))]) await makeFolder(part);
    const path = pathIn(folder, MANIFEST);
    const manifest = (await fileState(path))
      ? readManifest<KnownDesign, WorkedLine>(
          new TextDecoder().decode(await readBytes(path, { maxBytes: MOST_BYTES })),
          path,
        )
      : emptyManifest<KnownDesign, WorkedLine>();
    return new OrderFolder(folder, manifest, io, force);
  }

  /**
   * Refuses names under which something lies that no order wrote.
   * @throws LieflatError `exists`
   */
  async refuseOthers(names: readonly string[]): Promise<void> {
    for (const name of names) await this.refuseOther(name);
  }

  rank(key: string): KnownDesign | undefined {
    this.used.ranks.add(key);
    return this.manifest.ranks.get(key);
  }

  async keepRank(key: string, rank: KnownDesign): Promise<void> {
    this.used.ranks.add(key);
    this.manifest.ranks.set(key, rank);
    if (!this.closed) await this.save();
  }

  /** What came of a line in an earlier run, where all files of it are there as they were written. */
  async line(key: string): Promise<WorkedLine | undefined> {
    const known = this.manifest.lines.get(key);
    if (known === undefined) return undefined;
    for (const name of namesOf(known)) if (!(await this.isWhole(name))) return undefined;
    this.used.lines.add(key);
    return known;
  }

  /** What an earlier run found, whatever became of its files; undefined where none did. */
  chance(key: string): number | undefined {
    const known = this.manifest.lines.get(key);
    if (known) this.used.lines.add(key);
    return known?.chance;
  }

  /** Writes the files of a line, and keeps what came of it. */
  async keepLine(key: string, worked: WorkedLine, files: readonly OrderFile[]): Promise<void> {
    await this.write(files);
    this.manifest.lines.set(key, worked);
    this.used.lines.add(key);
  }

  /** Notes what the files will be before they are written, so that one is known for ours whenever the run ends. */
  write(files: readonly OrderFile[]): Promise<void> {
    const written = this.writeNow(files);
    this.writing.add(written);
    return written.finally(() => this.writing.delete(written));
  }

  /** Where the run fails: what is being written is finished, and nothing begun after that. */
  async close(): Promise<void> {
    this.closed = true;
    await Promise.allSettled([...this.writing, this.saving]);
  }

  private async writeNow(files: readonly OrderFile[]): Promise<void> {
    if (this.closed) throw new Error('nothing is written into the order any more');
    for (const { name } of files) await this.refuseOther(name);
    for (const { name, content } of files) {
      const hash = sha256(content);
      const before = this.manifest.files.get(name) ?? [];
      this.manifest.files.set(name, [...before.filter((one) => one !== hash), hash]);
    }
    await this.save();
    for (const { name, content } of files) await this.put(name, content);
  }

  /** A file that an order wrote. */
  read(name: string): Promise<Uint8Array> {
    return readBytes(pathIn(this.folder, name), { maxBytes: MOST_BYTES });
  }

  /**
   * Keeps what this run has used: two runs that come to the same leave the same.
   * @param current the files that the order is made of
   * @param possible names under which an earlier setup or run may have left others of its own, which are removed
   */
  async finish(current: ReadonlySet<string>, possible: readonly string[]): Promise<void> {
    const { files, ranks, lines } = this.manifest;
    for (const name of possible) if (!current.has(name)) await this.removeOwn(name);
    for (const key of ranks.keys()) if (!this.used.ranks.has(key)) ranks.delete(key);
    for (const key of lines.keys()) if (!this.used.lines.has(key)) lines.delete(key);
    for (const name of current) files.set(name, files.get(name)!.slice(-1));
    await this.save();
  }

  /** What is no longer as an order wrote it is somebody else's, and stays. */
  private async removeOwn(name: string): Promise<void> {
    const hash = await this.hashOf(name);
    if (hash !== null && this.manifest.files.get(name)?.includes(hash))
      await removeFile(pathIn(this.folder, name));
    this.manifest.files.delete(name);
  }

  private async isWhole(name: string): Promise<boolean> {
    return (await this.hashOf(name)) === this.manifest.files.get(name)?.at(-1);
  }

  private hashOf(name: string): Promise<string | null> {
    return hashOf(pathIn(this.folder, name), { maxBytes: MOST_BYTES }).catch(() => null);
  }

  private async refuseOther(name: string): Promise<void> {
    const path = pathIn(this.folder, name);
    if (this.force || !(await fileState(path))) return;
    const hash = await this.hashOf(name);
    if (hash !== null && this.manifest.files.get(name)?.includes(hash)) return;
    throw new LieflatError({
      code: 'exists',
      place: path,
      what: 'there is a file of that name already, and it is not as lieflat order wrote it',
      todo: 'move it away, choose another --out-dir, or replace it with --force',
    });
  }

  /** One at a time, each as all is by then. */
  private save(): Promise<void> {
    if (this.waiting) return this.waiting;
    const saved = this.saving.then(() => {
      this.waiting = null;
      return this.put(MANIFEST, manifestText(this.manifest));
    });
    this.waiting = saved;
    this.saving = saved.catch(() => undefined);
    return saved;
  }

  private put(name: string, content: string | Uint8Array): Promise<void> {
    return writeFileSafely(pathIn(this.folder, name), content, {
      force: true,
      inputs: this.io.inputs,
      within: this.folder,
    });
  }
}

/** The files of a line. */
export const namesOf = ({ files: { relaid, card, proof } }: WorkedLine): string[] =>
  [relaid, card, proof].filter((name) => name !== null);
