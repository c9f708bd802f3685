import type { PageJob } from '../../../cli/page/protocol.js';

/** What came of a job. */
export interface Came {
  exit: number;
  stdout: string;
  stderr: string;
  files: Record<string, string>;
  /** What was said of it on the way. */
  heard?: [note: string, share: number | null][];
}

/** What the bare page does for a test. */
export interface BarePage {
  give(files: readonly (readonly [name: string, text: string])[]): void;
  forget(names: readonly string[]): void;
  run(job: PageJob): Promise<Came>;
  /** The same, and how often the page could answer meanwhile. */
  runMeanwhile(job: PageJob): Promise<Came & { answers: number }>;
  /** How a job ends that is stopped at once, or does what it should not. */
  ended(job: PageJob, stop: boolean): Promise<string>;
}
