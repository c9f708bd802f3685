/**
 * What the work on one file may take. The library has no clock and stops nothing by itself: whoever calls it hands a budget in, and the work is done
 * within it, piece by piece.
 */
export interface Budget {
  /**
   * Does a piece of work and returns what it returns.
   * @throws LieflatError `over-budget` where there is no time left for it, or it runs out on the way
   */
  run<T>(work: () => T): T;
  /**
   * Asked before so much memory is filled, typed arrays included.
   * @param bytes held at once
   * @throws LieflatError `over-budget` where it is more than there may be
   */
  reserve(bytes: number): void;
}

/** Takes what it takes. */
export const UNBOUNDED: Budget = { run: (work) => work(), reserve: () => {} };
