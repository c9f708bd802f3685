/**
 * Answers that take long to work out, kept by all that they hang on. The library keeps nothing by itself: whoever makes a shop may hand in a place
 * for them, and a question that was asked before is answered from there.
 */
export interface Answers {
  /**
   * The answer as it was kept, or else as it is worked out now.
   * @param asked all that the answer hangs on, and what kind of answer it is: plain data, typed arrays among it
   * @param work gives plain data; what it throws is thrown, and nothing is kept
   */
  of<T>(asked: readonly unknown[], work: () => T): T;
}

/** Works everything out whenever it is asked. */
export const NOTHING_KEPT: Answers = { of: (_asked, work) => work() };
