/** Changes to the records of a design: some taken out, others put in their place. */
import { type Design, Kind, type KindCode } from '../format/design.js';

/** One record to put in; positions are absolute, mm. */
export interface NewRecord {
  readonly kind: KindCode;
  readonly x: number;
  readonly y: number;
}

export interface Splice {
  /** Index of the first record that is taken out; where none is, new records go before it. */
  readonly at: number;
  /** How many are taken out. */
  readonly drop: number;
  readonly put: readonly NewRecord[];
}

/** The needle goes down at a place. */
export const needleAt = (x: number, y: number): NewRecord => ({ kind: Kind.stitch, x, y });

/**
 * The design with its records changed; all others stay as they are, and so do header and diagnostics. New records take the thread
 * of the record that they stand before, or of the last where none follows. The design given is not changed.
 *
 * @param splices in the order of their records, none reaching into the next
 * @throws RangeError for splices that do
 */
export function editDesign(design: Design, splices: readonly Splice[]): Design {
  const count = design.kind.length;
  const length = splices.reduce((n, { drop, put }) => n + put.length - drop, count);
  const x = new Float64Array(length);
  const y = new Float64Array(length);
  const kind = new Uint8Array(length);
  const thread = design.thread && new Int32Array(length);
  let from = 0;
  let to = 0;
  const keepUntil = (end: number) => {
    x.set(design.x.subarray(from, end), to);
    y.set(design.y.subarray(from, end), to);
    kind.set(design.kind.subarray(from, end), to);
    if (thread && design.thread) thread.set(design.thread.subarray(from, end), to);
    to += end - from;
  };
  for (const { at, drop, put } of splices) {
    if (at < from || at + drop > count) throw new RangeError(`splice at ${at} reaches into another`);
    keepUntil(at);
    from = at + drop;
    for (const record of put) {
      x[to] = record.x;
      y[to] = record.y;
      kind[to] = record.kind;
      if (thread && design.thread) thread[to] = design.thread[Math.min(from, count - 1)] ?? 0;
      to++;
    }
  }
  keepUntil(count);
  return { ...design, x, y, kind, thread };
}
