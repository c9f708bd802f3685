/** Which objects begin and end a thread: nothing else is sewn between them and the cut. */
import { countUpTo } from '../core/ascending.js';
import { Break, breaksOf, type Stitches } from '../format/stitches.js';
import type { ObjectMeasures } from '../measure/measures.js';
import type { StitchObject } from '../segment/objects.js';

export class ThreadEnds {
  /** First stitches of the threads between two cuts, and of all that is sewn, tops and underlay; both ascending. */
  private readonly cuts: readonly number[];
  private readonly begins: Float64Array;

  constructor(
    private readonly stitches: Stitches,
    objects: readonly ObjectMeasures[],
  ) {
    this.cuts = breaksOf(stitches, Break.trim, Break.colour, Break.start);
    const begins = new Set<number>();
    for (const { object } of objects) {
      begins.add(object.range[0]);
      const { range, also } = object.underlay;
      if (range) begins.add(range[0]);
      for (const piece of also) begins.add(piece.range[0]);
    }
    this.begins = Float64Array.from(begins).sort();
  }

  /** Where the thread of an object begins to be its own: with its underlay where that leads straight on to it. */
  start({ range, underlay }: StitchObject): number {
    const first = underlay.range?.[0] ?? range[0];
    return first < range[0] && this.sewnBetween(first + 1, range[0]) === 0 ? first : range[0];
  }

  /** Whether nothing is sewn on the thread before a stitch with which something begins. */
  isFirst(stitch: number): boolean {
    const thread = countUpTo(this.cuts, stitch) - 1;
    return this.sewnBetween(thread < 0 ? 0 : this.cuts[thread], stitch) === 0;
  }

  /** Whether nothing is sewn on the thread after a stitch with which something ends. */
  isLast(stitch: number): boolean {
    const end = this.cuts[countUpTo(this.cuts, stitch)] ?? this.stitches.count;
    return this.sewnBetween(stitch + 1, end) === 0;
  }

  /** How many things begin from one stitch up to another, that one left out. */
  private sewnBetween(first: number, end: number): number {
    return countUpTo(this.begins, end - 1) - countUpTo(this.begins, first - 1);
  }
}
