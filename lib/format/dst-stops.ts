/**
 * Telling plain stops from colour changes, which a three-byte file writes as one and the same record (a pause).
 */

import { type HeaderField, Kind } from './design.js';
import type { Diagnostic } from './diagnostic.js';
import { fieldValue, OWN_KEYS, wholeNumber, wholeNumbers } from './dst-header.js';
import { MAX_MOVE, UNITS_PER_MM } from './dst-record.js';

/** Three figures, as many as the header has for colour changes: more is no design but a damaged file. */
const MOST_STOPS = 999;

/** Records of a design while it is being read; `kind` is corrected in place. */
export interface PausedRecords {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly kind: Uint8Array;
}

/**
 * Marks as `Kind.stop` the pauses that are known to be stops; all pauses come in as `Kind.colour`.
 *
 * They are known where the file lists them in a field of our own. Else the header's colour count is believed only where it
 * is lower than the number of pauses and exactly as many pauses show by the stitching around them that no thread was
 * changed. In every other case all stay colour changes.
 * @param pauses number of pauses in the records
 * @returns how many pauses were marked, and what was assumed or found odd
 */
export function markStops(
  records: PausedRecords,
  fields: readonly HeaderField[],
  pauses: number,
): { stops: number; diagnostics: Diagnostic[] } {
  const listed = fields.find((field) => field.key === OWN_KEYS.stops);
  if (listed) {
    const numbers = wholeNumbers(listed.value);
    if (numbers?.every((n, i) => n >= 1 && n <= pauses && (i === 0 || n > numbers[i - 1]))) {
      setStops(records.kind, new Set(numbers));
      return { stops: numbers.length, diagnostics: [] };
    }
    return none([
      {
        code: 'file-stop-list',
        byte: listed.byte,
        params: { pauses },
        measured: listed.value.trim().slice(0, 40),
        expected: pauses,
      },
    ]);
  }
  const colours = wholeNumber(fieldValue(fields, 'CO') ?? '');
  if (colours === null || colours < 0 || colours >= pauses) return none([]);
  const stops = pauses - colours;
  if (stops > MOST_STOPS) return none([]);
  const { idle, straightOn } = evidence(records, stops);
  const found = idle.size === stops ? idle : straightOn.size === stops ? straightOn : null;
  if (!found) return none([]);
  setStops(records.kind, found);
  const assumed: Diagnostic = {
    code: 'file-stops-assumed',
    byte: fields.find((field) => field.key === 'CO')?.byte,
    params: { claimed: colours, pauses, stops },
    measured: pauses,
    expected: colours,
  };
  return { stops, diagnostics: [assumed] };
}

const none = (diagnostics: Diagnostic[]) => ({ stops: 0, diagnostics });

/**
 * Pauses (numbered from 1) that are stops by what is sewn around them: `idle`, with nothing sewn since the pause before or since
 * the start, or nothing after; `straightOn` adds those at which the sewing goes on without a jump or trim, within one record's
 * reach. A set stops growing once it holds more than `most`.
 */
function evidence({ x, y, kind }: PausedRecords, most: number) {
  const idle = new Set<number>();
  const straightOn = new Set<number>();
  const reach = MAX_MOVE / UNITS_PER_MM + 1e-9;
  let pause = 0;
  let sewn = false;
  let last = -1;
  for (let i = 0; i < kind.length && idle.size <= most; i++) {
    if (kind[i] === Kind.stitch) {
      sewn = true;
      continue;
    }
    if (kind[i] !== Kind.colour) continue;
    pause++;
    if (!sewn) idle.add(pause);
    sewn = false;
    last = pause;
    const goesOn =
      i > 0 &&
      kind[i - 1] === Kind.stitch &&
      kind[i + 1] === Kind.stitch &&
      Math.abs(x[i + 1] - x[i - 1]) <= reach &&
      Math.abs(y[i + 1] - y[i - 1]) <= reach;
    if (goesOn && straightOn.size <= most) straightOn.add(pause);
  }
  if (last > 0 && !sewn) idle.add(last);
  if (straightOn.size <= most) for (const n of idle) straightOn.add(n);
  return { idle, straightOn };
}

function setStops(kind: Uint8Array, stops: ReadonlySet<number>): void {
  let pause = 0;
  for (let i = 0; i < kind.length; i++) {
    if (kind[i] !== Kind.colour) continue;
    pause++;
    if (stops.has(pause)) kind[i] = Kind.stop;
  }
}
