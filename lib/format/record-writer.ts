import { type Bounds, growBounds } from '../core/bounds.js';
import { LieflatError } from '../core/errors.js';
import { Control, MAX_MOVE, packRecord, RECORD_BYTES } from './dst-record.js';

/** Records that a move takes, at least: 0 where it goes nowhere. Units of 0.1 mm. */
export const legsOf = (dx: number, dy: number): number =>
  Math.ceil(Math.max(Math.abs(dx), Math.abs(dy)) / MAX_MOVE);

/** What the seven figures of the header's record count can say. */
const MOST_RECORDS = 9_999_999;

/** Appends three-byte records to a buffer that grows, and keeps count of where they lead. Units of 0.1 mm. */
export class RecordWriter {
  x = 0;
  y = 0;
  readonly bounds: Bounds = { minX: 0, maxX: 0, minY: 0, maxY: 0 };
  #buffer: Uint8Array;
  #length = 0;

  /** @param expected number of records to make room for; more may come */
  constructor(expected: number) {
    this.#buffer = new Uint8Array((expected + 64) * RECORD_BYTES);
  }

  get records(): number {
    return this.#length / RECORD_BYTES;
  }

  /** What was written; a view that the next record may outdate. */
  get bytes(): Uint8Array {
    return this.#buffer.subarray(0, this.#length);
  }

  /** Records that the straight way from here takes, at least. */
  legsTo(x: number, y: number): number {
    return legsOf(x - this.x, y - this.y);
  }

  /**
   * Goes straight to a place in as few records as it takes, but not fewer than `least`, evenly split: the last of them does
   * what `control` says, those before it jump.
   */
  go(x: number, y: number, control: number, least = 1): void {
    const legs = Math.max(least, this.legsTo(x, y));
    const fromX = this.x;
    const fromY = this.y;
    for (let leg = 1; leg < legs; leg++) {
      // Rounded shares of the way differ by its exact share rounded up at most, so no leg is longer than a record can say.
      this.#record(
        fromX + Math.round(((x - fromX) * leg) / legs),
        fromY + Math.round(((y - fromY) * leg) / legs),
        Control.jump,
      );
    }
    this.#record(x, y, control);
  }

  #record(x: number, y: number, control: number): void {
    const record = packRecord(x - this.x, y - this.y, control);
    if (this.#length + RECORD_BYTES > this.#buffer.length) this.#grow();
    this.#buffer[this.#length++] = record >> 16;
    this.#buffer[this.#length++] = record >> 8;
    this.#buffer[this.#length++] = record;
    this.x = x;
    this.y = y;
    growBounds(this.bounds, x, y);
  }

  /** A few trims across metres, time and again, would fill any memory: what no header can count is not begun. */
  #grow(): void {
    if (this.records > MOST_RECORDS) {
      throw new LieflatError({
        code: 'bad-argument',
        place: 'design',
        what: `it takes more than the ${MOST_RECORDS} records that the header of a .dst can count`,
        todo: 'split the design into several files',
      });
    }
    const larger = new Uint8Array(2 * this.#buffer.length);
    larger.set(this.#buffer);
    this.#buffer = larger;
  }
}
