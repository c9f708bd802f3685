/** What the page and its worker say to each other, and what the page is given of it. */

/** A file by its name, as it was dropped or as a command writes it. */
export interface PageFile {
  name: string;
  bytes: ArrayBuffer;
}

/** A command as it would be typed: options by their long names without hyphens. */
export interface PageJob {
  command: string;
  options: Readonly<Record<string, string | readonly string[] | true>>;
  words: readonly string[];
}

/** Files to keep, files to forget, and a job where there is one. */
export interface Ask extends Partial<PageJob> {
  id: number;
  files?: readonly PageFile[];
  forget?: readonly string[];
}

/** What came of a job. */
export interface PageResult {
  /** As the command line exits. */
  exit: number;
  stdout: string;
  stderr: string;
  /** What it wrote. */
  files: PageFile[];
  /** Names of those that the worker has kept, as what a shop says of objects. */
  kept: string[];
}

export type Answer = { id: number } & (PageResult | { note: string } | { share: number });

/** How far a job has come: words, and a share from 0 to 1 where the work can be counted. */
export type OnNote = (note: string, share: number | null) => void;

export interface Engine {
  /** Does a job on the files given before, after those that were asked for earlier. Rejects where it was stopped or the worker failed. */
  run(job: PageJob, onNote?: OnNote): Promise<PageResult>;
  /** Gives files to work on; one of the same name is replaced. */
  give(files: readonly PageFile[]): void;
  /** Takes files away. */
  forget(names: readonly string[]): void;
  /** Ends whatever is under way. Files stay given. */
  stop(): void;
}
