import { distance } from '../core/distance.js';
import { type Design, Kind } from './design.js';

/** What lies between a needle penetration and the one before it, weakest first. Values are ordered. */
export const Break = {
  /** Sewn straight on. */
  none: 0,
  /** Moved there by jumps without a trim (a long stitch, or an untrimmed move). */
  jump: 1,
  /** A pause; the thread is not cut. */
  stop: 2,
  trim: 3,
  colour: 4,
  /** The first penetration of the design. */
  start: 5,
} as const;

/** Whether the machine waits for the operator there: a stop, or a change of color. */
export const isPause = (kind: number): boolean => kind === Break.stop || kind === Break.colour;

/**
 * The needle penetrations of a design in sewing order: the stitch index of every report counts along these.
 */
export interface Stitches {
  readonly count: number;
  /** mm, one a penetration. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** The strongest {@link Break} since the penetration before. */
  readonly breakBefore: Uint8Array;
  /** Colour block, from 0 (reports count from 1). */
  readonly block: Uint16Array;
  /** Index of the record in the design, to get from a stitch back to the file. */
  readonly record: Int32Array;
}

/**
 * Picks the needle penetrations out of a design. One pass; nothing of the design is changed.
 *
 * @example
 * ```ts
 * import { penetrations, readDesignFile } from 'lieflat';
 * const { design } = await readDesignFile('samples/name-drop.dst');
 * const stitches = penetrations(design);
 * stitches.count; // => 938
 * stitches.x.length; // => 938
 * ```
 */
export function penetrations(design: Design): Stitches {
  const { kind } = design;
  let count = 0;
  for (let i = 0; i < kind.length; i++) if (kind[i] === Kind.stitch) count++;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const breakBefore = new Uint8Array(count);
  const block = new Uint16Array(count);
  const record = new Int32Array(count);
  let n = 0;
  let pending: number = Break.start;
  let colour = 0;
  for (let i = 0; i < kind.length; i++) {
    switch (kind[i]) {
      case Kind.stitch:
        x[n] = design.x[i];
        y[n] = design.y[i];
        breakBefore[n] = pending;
        block[n] = colour;
        record[n] = i;
        n++;
        pending = Break.none;
        break;
      case Kind.jump:
        if (pending < Break.jump) pending = Break.jump;
        break;
      case Kind.trim:
        if (pending < Break.trim) pending = Break.trim;
        break;
      case Kind.stop:
        if (pending < Break.stop) pending = Break.stop;
        break;
      case Kind.colour:
        if (pending < Break.colour) pending = Break.colour;
        if (colour < 0xffff) colour++;
        break;
    }
  }
  return { count, x, y, breakBefore, block, record };
}

/** Stitch indexes before which there is a break of these kinds, ascending. */
export function breaksOf({ breakBefore }: Stitches, ...kinds: readonly number[]): number[] {
  const places: number[] = [];
  for (const kind of kinds)
    for (let i = breakBefore.indexOf(kind); i >= 0; i = breakBefore.indexOf(kind, i + 1)) places.push(i);
  return kinds.length > 1 ? places.sort((a, b) => a - b) : places;
}

/** Length of the thread from one penetration to a later one, mm. */
export function threadMm({ x, y }: Stitches, first: number, last: number): number {
  let mm = 0;
  for (let i = first; i < last; i++) mm += distance(x[i], y[i], x[i + 1], y[i + 1]);
  return mm;
}
