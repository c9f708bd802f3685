/** One decision of the finder, looked at from both sides: what is read flips at a figure of its table and nowhere else on the way. */
export interface Probe {
  /** The figure that decides. */
  readonly figure: string;
  /** Where it decides, as the way below is counted. */
  readonly at: number;
  /** The way from one side to the other, and what is read at a place on it. */
  readonly from: number;
  readonly to: number;
  readonly read: (t: number) => unknown;
  /** What is read at both ends. */
  readonly first: unknown;
  readonly last: unknown;
}

export const probe = (
  figure: string,
  at: number,
  [from, to]: readonly [number, number],
  read: (t: number) => unknown,
  [first, last]: readonly [unknown, unknown],
): Probe => ({ figure, at, from, to, read, first, last });

/** Where what is read changes on the way, halved in again and again. */
export function flip({ from, to, read }: Probe): number {
  const first = JSON.stringify(read(from));
  let [low, high] = [from, to];
  for (let k = 0; k < 14; k++) {
    const middle = (low + high) / 2;
    if (JSON.stringify(read(middle)) === first) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
