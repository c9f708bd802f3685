export type Severity = 'note' | 'warn' | 'fail';

/** One thing found, with its place, the figure, the limit it was held against and what that limit rests on. */
export interface Finding {
  code: string;
  severity: Severity;
  /** Object id, or null where the finding is of the whole design or file. */
  object: number | null;
  /** Stitch index, or null. */
  stitch: number | null;
  at: { x: number; y: number } | null;
  measured: number | string | null;
  limit: number | string | null;
  unit: string | null;
  /** What is wrong and what to do, in plain words. */
  message: string;
  basis: string;
}
