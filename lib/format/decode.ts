/** Files of every format in and out of a design; which format a file has. */
import { UNBOUNDED } from '../core/budget.js';
import type { Design } from './design.js';
import { decodeDst } from './dst-decode.js';
import { encodeDst } from './dst-encode.js';
import { STANDARD_KEYS } from './dst-header.js';
import { decodeStitchTable, encodeStitchTable } from './stitch-table.js';

export type DesignFormat = Design['format'];

/** File name extensions, lower case, in the order in which they are listed to people. */
export const DESIGN_EXTENSIONS: Readonly<Record<DesignFormat, string>> = { dst: '.dst', csv: '.csv' };

/**
 * Bytes of a stitch file → design.
 * @throws LieflatError `undecodable`, its place `byte N` or `line N`; `over-budget` where there is a budget
 *
 * @example
 * ```ts
 * import { decodeDesign } from 'lieflat';
 * const table = 'x_mm,y_mm,kind\n0,0,stitch\n3,0,stitch\n3,0,end\n';
 * const design = await decodeDesign(new TextEncoder().encode(table), 'csv');
 * [...design.x]; // => [0, 3, 3]
 * await decodeDesign(new Uint8Array(9), 'dst'); // throws 'undecodable'
 * ```
 */
export async function decodeDesign(
  bytes: Uint8Array,
  format: DesignFormat,
  budget = UNBOUNDED,
): Promise<Design> {
  budget.reserve(BYTES_A_BYTE[format] * bytes.length);
  return format === 'csv' ? await decodeStitchTable(bytes, budget) : budget.run(() => decodeDst(bytes));
}

/** Records of a design and of its needle points take so much for each byte of the file: 3 bytes a record, or a line of nothing. */
const BYTES_A_BYTE: Readonly<Record<DesignFormat, number>> = { dst: 6, csv: 26 };

/**
 * Design → bytes of a stitch file.
 * @throws LieflatError `bad-argument` for what the format cannot hold
 *
 * @example
 * ```ts
 * import { encodeDesign, readDesignFile } from 'lieflat';
 * const { design } = await readDesignFile('samples/name-drop.dst');
 * const table = encodeDesign(design, 'csv');
 * new TextDecoder().decode(table).startsWith('x_mm,y_mm,kind'); // => true
 * ```
 */
export function encodeDesign(design: Design, format: DesignFormat): Uint8Array {
  return format === 'csv' ? encodeStitchTable(design) : encodeDst(design);
}

/**
 * The format that a file name's extension tells, in capitals or not; where it tells none, what the content looks like.
 * @returns null where neither tells
 *
 * @example
 * ```ts
 * import { formatOf } from 'lieflat';
 * formatOf('NAME.DST'); // => 'dst'
 * formatOf('notes.txt'); // => null
 * ```
 */
export function formatOf(path: string, bytes?: Uint8Array): DesignFormat | null {
  const name = path.toLowerCase();
  for (const [format, extension] of Object.entries(DESIGN_EXTENSIONS)) {
    if (name.endsWith(extension)) return format as DesignFormat;
  }
  return bytes ? sniffFormat(bytes) : null;
}

/** What the first bytes look like: a header of fields, or a table whose first line names the columns; else null. */
export function sniffFormat(bytes: Uint8Array): DesignFormat | null {
  // Every second byte of a table in UTF-16 is zero.
  const text = String.fromCharCode(...bytes.subarray(0, 512).filter((byte) => byte !== 0));
  if (STANDARD_KEYS.some((key) => text.startsWith(`${key}:`))) return 'dst';
  const firstLine = text.split(/[\r\n]/, 1)[0].toLowerCase();
  return firstLine.includes('x_mm') && firstLine.includes('y_mm') ? 'csv' : null;
}
