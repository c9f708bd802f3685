/** What the page and its worker say to each other. */

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
