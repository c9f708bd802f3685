/** Three-byte stitch file → design. Tolerant: what is odd is said, with its place, and nothing is mended in silence. */

import { type Bounds, growBounds } from '../core/bounds.js';
import { type Design, type HeaderField, Kind } from './design.js';
import type { Diagnostic, PlainOddity } from './diagnostic.js';
import { findBody, undecodable } from './dst-body.js';
import { type Counted, checkClaims } from './dst-claims.js';
import { OWN_KEYS, wholeNumbers } from './dst-header.js';
import {
  CONTROL_JUMP,
  CONTROL_MASK,
  CONTROL_PAUSE,
  CONTROL_UNKNOWN,
  Control,
  END_BYTE,
  isContradictory,
  isEnd,
  MOVE_0,
  MOVE_1,
  MOVE_2,
  moveX,
  moveY,
  RECORD_BYTES,
  RESERVED_BITS,
  TRIM_JUMPS,
  UNITS_PER_MM,
} from './dst-record.js';
import { markStops } from './dst-stops.js';

/**
 * Reads a three-byte stitch file.
 *
 * - Positions are absolute, in mm, the sums of the records' moves from the origin (0, 0).
 * - Three or more jump records in a row are one `trim` at the place where the run ends; one or two stay `jump`s.
 * - A pause record is a `colour` change, or a `stop` where the file allows to tell (see {@link markStops}).
 * - An end record is kept as a last record `end`; there is none where the file has none.
 * - Time is linear in the file's size, memory bounded by it; no count of the header is trusted.
 * @throws LieflatError `undecodable`, and nothing else for any bytes, where nothing in them can be a stitch record
 */
export function decodeDst(bytes: Uint8Array): Design {
  const body = findBody(bytes);
  const scan = scanRecords(bytes, body.start);
  if (scan.records === 0 && scan.endAt < 0) {
    throw undecodable(
      body.start,
      'there is no stitch after the header: the rest of the file is blank',
      'the file was not copied whole: copy or export it again',
    );
  }
  const { x, y, kind, reached } = fillRecords(bytes, body.start, scan);
  const { fields } = body.header;
  const stops = markStops({ x, y, kind }, fields, scan.pauses);
  const counted: Counted = {
    ...reached,
    records: scan.records,
    hasEnd: scan.endAt >= 0,
    pauses: scan.pauses,
    stops: stops.stops,
  };
  const threads = threadsOfBlocks(kind, fields, counted.pauses - counted.stops);
  const diagnostics = [
    ...body.diagnostics,
    ...checkClaims(fields, counted),
    ...stops.diagnostics,
    ...threads.diagnostics,
    ...scan.diagnostics,
  ];
  diagnostics.sort((a, b) => (a.byte ?? 0) - (b.byte ?? 0));
  return { x, y, kind, thread: threads.thread, header: fields, diagnostics, format: 'dst' };
}

interface Scan {
  /** Raw records before the end. */
  readonly records: number;
  /** Raw records with runs of jumps folded to trims, the end record not counted. */
  readonly folded: number;
  readonly pauses: number;
  /** Offset of the end record, or −1. */
  readonly endAt: number;
  /** First byte that is no whole record before the end any more. */
  readonly bodyEnd: number;
  readonly diagnostics: readonly Diagnostic[];
}

/** First pass: how much there is, and what is odd about it. An oddity that repeats is one diagnostic with its count. */
function scanRecords(bytes: Uint8Array, start: number): Scan {
  // Zeros at the end of a file that was not copied whole would read as stitches on one spot.
  let lastFilled = bytes.length - 1;
  while (lastFilled >= start && bytes[lastFilled] === 0) lastFilled--;
  const filledRecords = Math.ceil((lastFilled + 1 - start) / RECORD_BYTES);
  const limit = Math.min(start + filledRecords * RECORD_BYTES, bytes.length);

  let p = start;
  let dropped = 0;
  let pauses = 0;
  let run = 0;
  let endAt = -1;
  let unmarked = 0;
  let unmarkedAt = -1;
  let contradictory = 0;
  let contradictoryAt = -1;
  let unknown = 0;
  let unknownAt = -1;
  for (; p + 2 < limit; p += RECORD_BYTES) {
    const b2 = bytes[p + 2];
    if (isContradictory(bytes[p], bytes[p + 1], b2) && !isEnd(b2) && contradictory++ === 0)
      contradictoryAt = p;
    if ((b2 & (CONTROL_MASK | RESERVED_BITS)) === Control.stitch) {
      run = 0;
      continue;
    }
    if (isEnd(b2)) {
      endAt = p;
      break;
    }
    if ((b2 & RESERVED_BITS) !== RESERVED_BITS && unmarked++ === 0) unmarkedAt = p;
    const control = b2 & CONTROL_MASK;
    if (control === CONTROL_JUMP || control === CONTROL_UNKNOWN) {
      if (control === CONTROL_UNKNOWN && unknown++ === 0) unknownAt = p;
      run++;
      dropped += foldedBy(run);
    } else {
      run = 0;
      if (control === CONTROL_PAUSE) pauses++;
    }
  }
  const records = (p - start) / RECORD_BYTES;

  const diagnostics: Diagnostic[] = [];
  const oddRecords = (code: PlainOddity, byte: number, measured: number): void => {
    if (measured > 0) diagnostics.push({ code, params: {}, byte, measured, expected: 0 });
  };
  oddRecords('file-reserved-bits', unmarkedAt, unmarked);
  oddRecords('file-contradictory-move', contradictoryAt, contradictory);
  oddRecords('file-unknown-record', unknownAt, unknown);
  diagnostics.push(...oddEnd(bytes, { bodyEnd: p, endAt, limit }));
  return { records, folded: records - dropped, pauses, endAt, bodyEnd: p, diagnostics };
}

/** Records that jump number `run` of a row takes up: three jumps are one trim, and so is every further one with them. */
function foldedBy(run: number): number {
  if (run < TRIM_JUMPS) return 0;
  return run === TRIM_JUMPS ? TRIM_JUMPS - 1 : 1;
}

/** What is odd about how the records end. */
function oddEnd(
  bytes: Uint8Array,
  { bodyEnd, endAt, limit }: { bodyEnd: number; endAt: number; limit: number },
): Diagnostic[] {
  const diagnostics: Diagnostic[] = [];
  if (endAt >= 0) {
    if (bytes[endAt] !== 0 || bytes[endAt + 1] !== 0 || bytes[endAt + 2] !== END_BYTE) {
      diagnostics.push({
        code: 'file-end-record',
        byte: endAt,
        params: {},
        measured: hex(bytes.subarray(endAt, endAt + RECORD_BYTES)),
        expected: '00 00 F3',
      });
    }
    const rest = bytes.length - endAt - RECORD_BYTES;
    if (rest > 0) {
      diagnostics.push({
        code: 'file-bytes-after-end',
        byte: endAt + RECORD_BYTES,
        params: { bytes: rest },
        measured: rest,
        expected: 0,
      });
    }
    return diagnostics;
  }
  const zeros = bytes.length - limit;
  if (zeros >= RECORD_BYTES) {
    diagnostics.push({
      code: 'file-zero-fill',
      byte: limit,
      params: { bytes: zeros },
      measured: zeros,
      expected: 0,
    });
  }
  const fragment = (zeros < RECORD_BYTES ? bytes.length : limit) - bodyEnd;
  if (fragment > 0) {
    diagnostics.push({
      code: 'file-truncated-record',
      byte: bodyEnd,
      params: { bytes: fragment },
      measured: fragment,
      expected: RECORD_BYTES,
    });
  }
  diagnostics.push({ code: 'file-no-end-record', params: {}, byte: bodyEnd });
  return diagnostics;
}

const hex = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' ');

/** Second pass: adds the moves up into arrays of the exact size. */
function fillRecords(bytes: Uint8Array, start: number, scan: Scan) {
  const { bodyEnd } = scan;
  const size = scan.folded + (scan.endAt >= 0 ? 1 : 0);
  const x = new Float64Array(size);
  const y = new Float64Array(size);
  const kind = new Uint8Array(size);
  const moved: Bounds = { minX: 0, maxX: 0, minY: 0, maxY: 0 };
  // Of needle penetrations. Plain variables, as the loop over a million records is no place for an object.
  let minX = 0;
  let maxX = 0;
  let minY = 0;
  let maxY = 0;
  let n = 0;
  let run = 0;
  let ux = 0;
  let uy = 0;
  for (let p = start; p < bodyEnd; p += RECORD_BYTES) {
    const b2 = bytes[p + 2];
    const move = MOVE_0[bytes[p]] + MOVE_1[bytes[p + 1]] + MOVE_2[b2];
    ux += moveX(move);
    uy += moveY(move);
    const control = b2 & CONTROL_MASK;
    if (control === 0) {
      run = 0;
      // Not left at zero: a trim may have been taken back over a place that a jump had marked.
      kind[n] = Kind.stitch;
      if (ux < minX) minX = ux;
      if (ux > maxX) maxX = ux;
      if (uy < minY) minY = uy;
      if (uy > maxY) maxY = uy;
    } else {
      growBounds(moved, ux, uy);
      if (control === CONTROL_PAUSE) {
        run = 0;
        kind[n] = Kind.colour;
      } else {
        run++;
        n -= foldedBy(run);
        kind[n] = run < TRIM_JUMPS ? Kind.jump : Kind.trim;
      }
    }
    x[n] = ux / UNITS_PER_MM;
    y[n] = uy / UNITS_PER_MM;
    n++;
  }
  if (scan.endAt >= 0) {
    x[n] = ux / UNITS_PER_MM;
    y[n] = uy / UNITS_PER_MM;
    kind[n] = Kind.end;
  }
  const sewn: Bounds = { minX, maxX, minY, maxY };
  const all: Bounds = {
    minX: Math.min(minX, moved.minX),
    maxX: Math.max(maxX, moved.maxX),
    minY: Math.min(minY, moved.minY),
    maxY: Math.max(maxY, moved.maxY),
  };
  return { x, y, kind, reached: { all, sewn, endX: ux, endY: uy } };
}

/** Thread numbers out of a field of our own: one a colour block, spread over the block's records. */
function threadsOfBlocks(
  kind: Uint8Array,
  fields: readonly HeaderField[],
  colourChanges: number,
): { thread: Int32Array | null; diagnostics: Diagnostic[] } {
  const field = fields.find((f) => f.key === OWN_KEYS.threads);
  if (!field) return { thread: null, diagnostics: [] };
  const numbers = wholeNumbers(field.value);
  if (numbers?.length !== colourChanges + 1) {
    return {
      thread: null,
      diagnostics: [
        {
          code: 'file-thread-list',
          byte: field.byte,
          params: { blocks: colourChanges + 1 },
          measured: field.value.trim().slice(0, 40),
          expected: colourChanges + 1,
        },
      ],
    };
  }
  const thread = new Int32Array(kind.length);
  let block = 0;
  for (let i = 0; i < kind.length; i++) {
    if (kind[i] === Kind.colour) block++;
    thread[i] = numbers[block];
  }
  return { thread, diagnostics: [] };
}
