/** A thing in the place of which another can be put: files in memory, a system of a test. */
export class Replaceable<T> {
  constructor(public current: T) {}

  /** Has the other used until the result is called. */
  readonly use = (other: T): (() => void) => {
    const before = this.current;
    this.current = other;
    return () => {
      this.current = before;
    };
  };
}
