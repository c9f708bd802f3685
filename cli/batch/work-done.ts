import { fileState } from '../../lib/io/index.js';

/** So many sizes are asked for at once: more than a busy thread works through before it looks at the answers. */
const ASKED_AT_ONCE = 64;

/**
 * How much of the work on some files is done. It goes nearly with the stitches of each, and those with its bytes; a file whose size nobody knows
 * counts as the mean of the others.
 */
export class WorkDone {
  /** Bytes of the files that are not done with; null where they are not known. */
  private readonly left: Map<string, number | null>;
  private readonly sums = {
    left: { files: 0, sized: 0, bytes: 0 },
    done: { files: 0, sized: 0, bytes: 0 },
  };

  /** @param bytesEach what every file takes whatever its size, told in bytes of one */
  constructor(
    files: readonly string[],
    private readonly bytesEach: number,
  ) {
    this.left = new Map(files.map((file) => [file, null]));
    this.sums.left.files = files.length;
  }

  /** What a file holds is known now. */
  sized(file: string, bytes: number): void {
    if (this.left.get(file) !== null) return;
    this.left.set(file, bytes);
    this.sums.left.sized++;
    this.sums.left.bytes += bytes;
  }

  done(file: string): void {
    const bytes = this.takeOut(file);
    const { done } = this.sums;
    done.files++;
    if (bytes === null) return;
    done.sized++;
    done.bytes += bytes;
  }

  /** A file takes no work after all. */
  passedOver(file: string): void {
    this.takeOut(file);
  }

  /** From 0 to 1. */
  get part(): number {
    const { left, done } = this.sums;
    const sized = left.sized + done.sized;
    const mean = sized > 0 ? (left.bytes + done.bytes) / sized : 0;
    const [ahead, behind] = [left, done].map(
      (sum) => sum.bytes + sum.files * this.bytesEach + (sum.files - sum.sized) * mean,
    );
    return behind + ahead > 0 ? behind / (behind + ahead) : 1;
  }

  /** Asks how large the files are, in their order, until nobody wants to know. */
  async askSizes(wanted: () => boolean): Promise<void> {
    const files = [...this.left.keys()];
    for (let k = 0; k < files.length && wanted(); k += ASKED_AT_ONCE)
      await Promise.all(
        files.slice(k, k + ASKED_AT_ONCE).map(async (file) => {
          const state = await fileState(file);
          if (state) this.sized(file, state.size);
        }),
      );
  }

  private takeOut(file: string): number | null {
    const bytes = this.left.get(file) ?? null;
    this.left.delete(file);
    const { left } = this.sums;
    left.files--;
    if (bytes !== null) {
      left.sized--;
      left.bytes -= bytes;
    }
    return bytes;
  }
}
