/** One line of the bench: what is measured, as a ratio within one run, beside what it is to reach. */
export interface Figure {
  /** Said before it is measured, so it holds nothing that only the measuring shows. */
  name: string;
  /** Highest value that is still good; null for one that is only told. */
  target: number | null;
  unit: string;
  measure: () => Measured | Promise<Measured>;
}

/** What came out, and on what where that is worth a word. */
export type Measured = number | { value: number; on: string };

/** Work that several figures share: done by the first that asks for it. */
export function once<T>(work: () => T): () => T {
  let kept: { value: T } | undefined;
  return () => {
    kept ??= { value: work() };
    return kept.value;
  };
}
