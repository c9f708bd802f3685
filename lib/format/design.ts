import type { Diagnostic } from './diagnostic.js';

/** What one record of a design does. Values are what `Design.kind` holds. */
export const Kind = { stitch: 0, jump: 1, trim: 2, colour: 3, stop: 4, end: 5 } as const;
export type KindCode = (typeof Kind)[keyof typeof Kind];
/** Names in the order of their codes: what the stitch table writes. */
export const KIND_NAMES = ['stitch', 'jump', 'trim', 'colour', 'stop', 'end'] as const;
export type KindName = (typeof KIND_NAMES)[number];

/** How many records are of a kind that is rare among them. */
export function countOf(kind: Uint8Array, code: KindCode): number {
  let count = 0;
  for (let i = kind.indexOf(code); i >= 0; i = kind.indexOf(code, i + 1)) count++;
  return count;
}

/** One `KEY:value` field of a file header, kept as read. */
export interface HeaderField {
  key: string;
  value: string;
  /** Offset of the key in the file, from 0. */
  byte: number;
}

/**
 * A decoded design: one entry a record, in sewing order, as a structure of arrays.
 *
 * `x`, `y` are absolute positions in mm after the record, Y up, relative to the file's own origin; a `trim`
 * stands at the place where the needle is when sewing goes on. `thread` is null, or one index a record.
 */
export interface Design {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly kind: Uint8Array;
  readonly thread: Int32Array | null;
  readonly header: readonly HeaderField[];
  readonly diagnostics: readonly Diagnostic[];
  readonly format: 'dst' | 'csv';
}
