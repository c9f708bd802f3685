/** How much memory vetting fills, told beforehand: for a budget to say no before arrays are made. */
import { countOf, type Design, Kind } from '../format/design.js';

/** Held at once for each record while objects are looked for, arrays and all; for what a bench of large designs shows. */
const BYTES_A_RECORD = 150;
/** For each piece of thread between two cuts, as it is read. */
const BYTES_A_THREAD = 1000;
/**
 * For each object with its measures, findings and report. Columns of five stitches take 1.3 kB where memory is tight (100,000 of them
 * in 320 MB, program and records included), and up to 6 kB where there is so much that nothing is tidied up.
 */
const BYTES_AN_OBJECT = 3500;

/** Bytes that finding the objects of a design takes. */
export function vetBytes({ kind }: Design): number {
  const threads = 1 + countOf(kind, Kind.trim) + countOf(kind, Kind.colour);
  return BYTES_A_RECORD * kind.length + BYTES_A_THREAD * threads;
}

/** Bytes that measuring and reporting so many objects takes, what is there already included. */
export function vettedBytes({ kind }: Design, objects: number): number {
  return BYTES_A_RECORD * kind.length + BYTES_AN_OBJECT * objects;
}
