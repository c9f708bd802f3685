/** Where the stitch records of a three-byte file begin: after a header that may be short, odd or missing. */

import { LieflatError } from '../core/errors.js';
import type { Diagnostic } from './diagnostic.js';
import { type DstHeader, readHeader } from './dst-header.js';
import { HEADER_BYTES, isCredible, isEnd, RECORD_BYTES } from './dst-record.js';

/** Records looked at to tell whether a place can be the first record. */
const LOOK_RECORDS = 1000;
/** Share of those that must look like records that a writer would make; of random bytes fewer than one in seven do. */
const LEAST_CREDIBLE = 0.9;
/** Without a header and without an end record, fewer records than this prove nothing. */
const LEAST_RECORDS = 20;
/** Fewer records than this between a short header and byte 512 are taken for rubbish in the padding. */
const LEAST_EARLY_RECORDS = 4;

export interface DstBody {
  readonly header: DstHeader;
  /** Offset of the first record. */
  readonly start: number;
  readonly diagnostics: readonly Diagnostic[];
}

interface BodyGuess {
  start: number;
  /** Share of the records looked at that are credible; 0 where there are none. */
  share: number;
  records: number;
  ended: boolean;
}

/**
 * Finds header and first record.
 * @throws LieflatError `undecodable` where nothing in the file can be a stitch record
 */
export function findBody(bytes: Uint8Array): DstBody {
  if (bytes.length === 0) throw undecodable(0, 'the file is empty', 'export the design again');
  const header = readHeader(bytes);
  return header.fields.length > 0 ? afterHeader(bytes, header) : withoutHeader(bytes, header);
}

function withoutHeader(bytes: Uint8Array, header: DstHeader): DstBody {
  const looks = [look(bytes, HEADER_BYTES), look(bytes, 0)].filter(
    ({ share, ended, records }) =>
      share >= LEAST_CREDIBLE && (records >= LEAST_RECORDS || (ended && records > 1)),
  );
  const best = mostCredible(looks);
  if (!best) {
    throw undecodable(
      0,
      'it is not a stitch file, or it is damaged',
      'check that it is a .dst stitch file and that it was copied whole',
    );
  }
  return {
    header,
    start: best.start,
    diagnostics: [
      {
        code: 'file-no-header',
        byte: 0,
        params: { start: best.start },
      },
    ],
  };
}

function afterHeader(bytes: Uint8Array, header: DstHeader): DstBody {
  const textEnd = header.endMark >= 0 ? header.endMark + 1 : header.textEnd;
  let filled = textEnd;
  while (filled < Math.min(HEADER_BYTES, bytes.length) && (bytes[filled] === 0x20 || bytes[filled] === 0))
    filled++;
  const diagnostics: Diagnostic[] = [...header.diagnostics];

  if (filled < HEADER_BYTES) {
    // A record may itself begin with one or two bytes that look like padding.
    const starts = [textEnd, filled - 2, filled - 1, filled].filter((start) => start >= textEnd);
    const early = mostCredible(starts.map((start) => look(bytes, start)));
    const late = look(bytes, HEADER_BYTES);
    if (early && isHeaderShort(early, late)) {
      diagnostics.push({
        code: 'file-header-short',
        byte: early.start,
        params: { start: early.start },
        measured: early.start,
        expected: HEADER_BYTES,
      });
      return { header, start: early.start, diagnostics };
    }
  }
  if (bytes.length <= HEADER_BYTES) {
    throw undecodable(
      bytes.length,
      'the file ends after its header, without a stitch',
      'copy or export it again',
    );
  }
  const odd = firstOtherThanSpace(bytes, textEnd);
  if (odd >= 0) {
    diagnostics.push({ code: 'file-header-padding', params: {}, byte: odd });
  }
  return { header, start: HEADER_BYTES, diagnostics };
}

function isHeaderShort(early: BodyGuess, late: BodyGuess): boolean {
  if (early.share < LEAST_CREDIBLE) return false;
  if (late.share < LEAST_CREDIBLE) return true;
  // Both read well, as they do when the lengths differ by whole records: what lies between then decides.
  return early.share >= late.share && HEADER_BYTES - early.start >= LEAST_EARLY_RECORDS * RECORD_BYTES;
}

function look(bytes: Uint8Array, start: number): BodyGuess {
  let records = 0;
  let credible = 0;
  let ended = false;
  for (let p = start; p + 2 < bytes.length && records < LOOK_RECORDS && !ended; p += RECORD_BYTES) {
    records++;
    if (isCredible(bytes[p], bytes[p + 1], bytes[p + 2])) credible++;
    ended = isEnd(bytes[p + 2]);
  }
  return { start, share: records > 0 ? credible / records : 0, records, ended };
}

function mostCredible(looks: readonly BodyGuess[]): BodyGuess | null {
  let best: BodyGuess | null = null;
  for (const candidate of looks) if (!best || candidate.share > best.share) best = candidate;
  return best;
}

function firstOtherThanSpace(bytes: Uint8Array, from: number): number {
  for (let i = from; i < HEADER_BYTES; i++) if (bytes[i] !== 0x20) return i;
  return -1;
}

export function undecodable(byte: number, what: string, todo: string): LieflatError {
  return new LieflatError({ code: 'undecodable', place: `byte ${byte}`, what, todo });
}
