/** What a header claims, held against what the file holds. */

import type { Bounds } from '../core/bounds.js';
import type { HeaderField } from './design.js';
import type { ClaimedKey, Diagnostic } from './diagnostic.js';
import { wholeNumber } from './dst-header.js';

/** What was counted while reading. Lengths in units of 0.1 mm; the origin is inside of all bounds. */
export interface Counted {
  /** Records before the end record. */
  readonly records: number;
  readonly hasEnd: boolean;
  readonly pauses: number;
  readonly stops: number;
  readonly all: Bounds;
  /** Of needle penetrations alone. */
  readonly sewn: Bounds;
  readonly endX: number;
  readonly endY: number;
}

type ClaimCode = 'file-record-count' | 'file-colour-count' | 'file-extent' | 'file-end-position';

/**
 * One diagnostic for every header figure that is not so. Where writers are known to count in two ways either is taken: the
 * record count with or without the end record, bounds of all records or of needle penetrations.
 */
export function checkClaims(fields: readonly HeaderField[], counted: Counted): Diagnostic[] {
  const { all, sewn } = counted;
  const colours = counted.pauses - counted.stops;
  const claims: [key: ClaimedKey, code: ClaimCode, ...accepted: number[]][] = [
    ['ST', 'file-record-count', counted.records, counted.records + (counted.hasEnd ? 1 : 0)],
    ['CO', 'file-colour-count', colours],
    ['+X', 'file-extent', all.maxX, sewn.maxX],
    ['-X', 'file-extent', 0 - all.minX, 0 - sewn.minX],
    ['+Y', 'file-extent', all.maxY, sewn.maxY],
    ['-Y', 'file-extent', 0 - all.minY, 0 - sewn.minY],
    ['AX', 'file-end-position', counted.endX],
    ['AY', 'file-end-position', counted.endY],
  ];
  const diagnostics: Diagnostic[] = [];
  for (const [key, code, ...accepted] of claims) {
    const field = fields.find((f) => f.key === key);
    const claimed = field ? wholeNumber(field.value) : null;
    if (!field || claimed === null) continue;
    // An extent is a distance: some writers put the side's sign before it.
    const value = code === 'file-extent' ? Math.abs(claimed) : claimed;
    if (accepted.some((n) => n === value)) continue;
    diagnostics.push({
      code,
      byte: field.byte,
      params: { key, claimed, counted: accepted[0] },
      measured: accepted[0],
      expected: claimed,
    });
  }
  return diagnostics;
}
