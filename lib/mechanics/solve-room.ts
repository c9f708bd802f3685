/**
 * Arrays that one step of a solve is done with and the next one fills anew. Left to the garbage, what sewing filled would still be there while
 * the release fills as much again.
 */
export class SolveRoom {
  private readonly doubles: Float64Array[] = [];
  private readonly singles: Float32Array[] = [];

  /** Zeros in 64 bits. */
  float64(length: number): Float64Array {
    return taken(this.doubles, length)?.fill(0) ?? new Float64Array(length);
  }

  /** Zeros in 32 bits. */
  float32(length: number): Float32Array {
    return taken(this.singles, length)?.fill(0) ?? new Float32Array(length);
  }

  /** What nobody looks at any more. */
  giveBack(...arrays: readonly (Float64Array | Float32Array)[]): void {
    for (const array of arrays) {
      if (array instanceof Float64Array) this.doubles.push(array);
      else this.singles.push(array);
    }
  }

  /** Lets go of all that is not in use. */
  empty(): void {
    this.doubles.length = 0;
    this.singles.length = 0;
  }
}

function taken<Numbers extends { readonly length: number }>(
  spare: Numbers[],
  length: number,
): Numbers | undefined {
  const k = spare.findIndex((array) => array.length === length);
  return k < 0 ? undefined : spare.splice(k, 1)[0];
}
