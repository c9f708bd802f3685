/**
 * Room for figures that one piece of work after another writes anew. Fresh memory costs more than most work on it, as the system hands it out
 * page by page: what is asked for takes the place of what was given before.
 */
export class ScratchRoom {
  private all = new Float64Array(0);

  /** So many figures, whatever was in them before; good until the next call. */
  take(length: number): Float64Array {
    if (this.all.length < length) this.all = new Float64Array(Math.max(length, 2 * this.all.length));
    return this.all.subarray(0, length);
  }
}
