/** Design → three-byte stitch file. Strict: what is written reads back to the same stitches, and the header is true. */
import { LieflatError } from '../core/errors.js';
import { type Design, KIND_NAMES, Kind } from './design.js';
import { writeHeader } from './dst-header.js';
import { Control, END_BYTE, HEADER_BYTES, RECORD_BYTES, TRIM_JUMPS, UNITS_PER_MM } from './dst-record.js';
import { legsOf, RecordWriter } from './record-writer.js';

/** What the five figures of an extent in the header can say, in units of 0.1 mm. */
const FURTHEST = 99_999;
/** Thread numbers that fit the nine figures which the reader takes. */
const HIGHEST_THREAD = 999_999_999;

/**
 * Writes a three-byte stitch file: a header of 512 bytes, the records, an end record.
 *
 * Decoding the result gives the design back, record for record, but for what the format cannot say:
 * - positions are rounded to 0.1 mm, each from its absolute place, so that rounding never adds up;
 * - a move of more than 12.1 mm along x or y is split evenly, its first parts written as jumps;
 * - trims and jumps that follow one another are one trim, at the place where the jumps before the next record end;
 * - jumps that would come to three or more in a row, and so read as a trim, are moved straight and in fewer records, the last
 *   part of the way with the record that follows; where even that takes three, they are written as they stand and read
 *   as a trim if the thread is cut there anyway (before the first stitch, after a trim or a colour change, before a colour
 *   change or the end), else the design is refused;
 * - an `end` is added where there is none;
 * - thread numbers are kept one a colour block: those of its stitches.
 *
 * Needle penetrations are always the same.
 * @throws LieflatError `bad-argument`, its place `record N` (from 1), for a position that is no number or too far out, a move
 * too long to be made without a trim, records after the end, a thread that changes without a color change; and for what
 * the header has no room for
 */
export function encodeDst(design: Design): Uint8Array {
  const { kind } = design;
  const writer = new RecordWriter(kind.length);
  const { pauses, stops, written } = writeRecords(writer, design);
  if (written < kind.length)
    throw badRecord(written, 'it comes after the end', 'leave out what follows the end');

  const header = writeHeader(
    {
      records: writer.records,
      colourChanges: pauses - stops.length,
      ...writer.bounds,
      endX: writer.x,
      endY: writer.y,
      stops,
      threads: threadsOfBlocks(design, pauses - stops.length + 1),
    },
    design.header,
  );
  const file = new Uint8Array(HEADER_BYTES + (writer.records + 1) * RECORD_BYTES);
  file.set(header);
  file.set(writer.bytes, HEADER_BYTES);
  file[file.length - 1] = END_BYTE;
  return file;
}

/** Writes all records up to the end record. */
function writeRecords(writer: RecordWriter, design: Design) {
  const { kind } = design;
  const stops: number[] = [];
  let pauses = 0;
  let threadCut = true;
  let i = 0;
  for (;;) {
    const from = i;
    while (i < kind.length && (kind[i] === Kind.jump || kind[i] === Kind.trim)) i++;
    const code = i < kind.length ? kind[i] : Kind.end;
    const x = goalAt(design.x, i);
    const y = goalAt(design.y, i);
    if (code >= KIND_NAMES.length) {
      throw badRecord(i, `its kind ${code} is unknown`, `use one of ${KIND_NAMES.join(', ')}`);
    }
    let owed = false;
    if (i > from || writer.legsTo(x, y) > 1) {
      const cutAnyway = threadCut || code === Kind.colour || code === Kind.end;
      const moves = writeMoves(writer, design, { from, to: i, x, y, code, cutAnyway });
      threadCut ||= moves === 'trimmed';
      owed = moves === 'owed';
    }
    if (code === Kind.end) {
      if (owed || writer.legsTo(x, y) > 0) writer.go(x, y, Control.jump);
      return { pauses, stops, written: i + 1 };
    }
    const isStitch = code === Kind.stitch;
    writer.go(x, y, isStitch ? Control.stitch : Control.pause, owed ? 2 : 1);
    if (isStitch) threadCut = false;
    else if (code === Kind.stop) stops.push(++pauses);
    else {
      pauses++;
      threadCut = true;
    }
    i++;
  }
}

/** Position of a record, in units. A design without an end record ends where its last record does. */
function goalAt(positions: Float64Array, record: number): number {
  const goal = Math.min(record, positions.length - 1);
  return goal < 0 ? 0 : unitsAt(positions, goal);
}

interface MoveRun {
  /** Records `from` to `to` − 1 are the jumps and trims of the run; there may be none. */
  readonly from: number;
  readonly to: number;
  /** Where the record after them is, in units, and what it does. */
  readonly x: number;
  readonly y: number;
  readonly code: number;
  /** Whether the thread is cut here anyway, so that jumps may read as a trim. */
  readonly cutAnyway: boolean;
}

/**
 * Writes the jumps and trims of a run.
 * @returns `written`; `trimmed`; or `owed` where the jumps were not written and the record after them must take at least
 * one jump on its way
 */
function writeMoves(writer: RecordWriter, design: Design, run: MoveRun): 'written' | 'trimmed' | 'owed' {
  const { kind } = design;
  let trimmed = false;
  for (let i = run.from; i < run.to; i++) trimmed ||= kind[i] === Kind.trim;
  if (trimmed) {
    writer.go(unitsAt(design.x, run.to - 1), unitsAt(design.y, run.to - 1), Control.jump, TRIM_JUMPS);
    return 'trimmed';
  }
  if (jumpsAsTheyStand(writer, design, run) >= TRIM_JUMPS) {
    const legs = writer.legsTo(run.x, run.y);
    if ((run.code === Kind.end ? legs : legs - 1) < TRIM_JUMPS) return run.from < run.to ? 'owed' : 'written';
    if (!run.cutAnyway) throw tooLong(writer, run);
  }
  for (let i = run.from; i < run.to; i++) writer.go(unitsAt(design.x, i), unitsAt(design.y, i), Control.jump);
  return 'written';
}

/** Jump records that a run takes if each of its jumps is written, with those on the way to the record after it. */
function jumpsAsTheyStand(writer: RecordWriter, design: Design, run: MoveRun): number {
  let { x, y } = writer;
  let jumps = 0;
  for (let i = run.from; i < run.to; i++) {
    const nextX = unitsAt(design.x, i);
    const nextY = unitsAt(design.y, i);
    jumps += Math.max(1, legsOf(nextX - x, nextY - y));
    x = nextX;
    y = nextY;
  }
  const legs = legsOf(run.x - x, run.y - y);
  return jumps + (run.code === Kind.end ? legs : Math.max(0, legs - 1));
}

/** Position in whole units of 0.1 mm. */
function unitsAt(positions: Float64Array, record: number): number {
  const units = Math.round(positions[record] * UNITS_PER_MM);
  if (!(Math.abs(units) <= FURTHEST)) {
    throw badRecord(
      record,
      `its position ${positions[record]} is not within ${FURTHEST / UNITS_PER_MM} mm of the origin`,
      'give a position in millimetres that a .dst can hold',
    );
  }
  return units;
}

/** Thread number of every colour block, or null for a design without any. */
function threadsOfBlocks({ kind, thread }: Design, blocks: number): number[] | null {
  if (!thread) return null;
  const threads = new Array<number>(blocks).fill(0);
  let block = 0;
  let sewn = false;
  for (let i = 0; i < kind.length; i++) {
    if (kind[i] === Kind.colour) {
      block++;
      sewn = false;
      threads[block] = threadAt(thread, i);
    } else if (kind[i] === Kind.stitch) {
      if (sewn && thread[i] !== threads[block]) {
        throw badRecord(
          i,
          `the thread changes from ${threads[block]} to ${thread[i]} without a color change`,
          'put a color change before it',
        );
      }
      threads[block] = threadAt(thread, i);
      sewn = true;
    }
  }
  return threads;
}

function threadAt(thread: Int32Array, record: number): number {
  if (thread[record] < 0 || thread[record] > HIGHEST_THREAD) {
    throw badRecord(
      record,
      `its thread number ${thread[record]} cannot be written`,
      `use numbers from 0 to ${HIGHEST_THREAD}`,
    );
  }
  return thread[record];
}

function tooLong(writer: RecordWriter, run: MoveRun): LieflatError {
  const mm = Math.hypot(run.x - writer.x, run.y - writer.y) / UNITS_PER_MM;
  return badRecord(
    run.to,
    `the way to it, at ${run.x / UNITS_PER_MM}, ${run.y / UNITS_PER_MM} mm, is ${mm.toFixed(1)} mm without a trim; in a .dst so many jumps in a row mean a trim`,
    'put a trim before it, or stitches on the way',
  );
}

function badRecord(record: number, what: string, todo: string): LieflatError {
  return new LieflatError({ code: 'bad-argument', place: `record ${record + 1}`, what, todo });
}
