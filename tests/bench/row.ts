/** One line of the bench: a figure measured as a ratio within one run, beside what it is to reach. */
export interface BenchRow {
  name: string;
  measured: number;
  /** Highest value that is still good; null for one that is only told. */
  target: number | null;
  unit: string;
}
