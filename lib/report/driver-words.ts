import type { Cause } from '../mechanics/drivers.js';

interface CauseWords {
  short: string;
  /** Follows `short` and a colon. */
  why: string;
}

/** What each cause is called, and one sentence for a person at the machine. */
const WORDS: Readonly<Record<Cause, CauseWords>> = {
  width: { short: 'wide stitches', why: 'long swings of satin pull harder than short stitches' },
  spacing: { short: 'close spacing', why: 'more threads side by side pull more' },
  underlay: { short: 'the underlay', why: 'its own stitches pull on the fabric, too' },
  layers: { short: 'stitching on stitching', why: 'layers that lie on each other all pull' },
  fabric: { short: 'the fabric', why: 'it gives; on firm canvas the same design would lie flatter' },
  backing: { short: 'the backing', why: 'twice as much of it would hold more' },
  laundering: { short: 'washing', why: 'thread and fabric shrink after sewing' },
  hooping: { short: 'stretch in the hoop', why: 'fabric hooped on the stretch draws in when it comes out' },
};

const NO_BACKING: CauseWords = { short: 'no backing', why: 'a sheet of 2.5 oz cut-away would hold it' };

/** @param backed false where nothing lies behind the fabric */
export function driverWords(cause: string, backed: boolean): CauseWords {
  if (cause === 'backing' && !backed) return NO_BACKING;
  return WORDS[cause as Cause];
}

const SOURCES: Readonly<Record<string, string>> = {
  tension: 'the thread tension of the machine',
  longestSpan: 'how far fabric stands free between stitches',
  points: 'how firmly needle points hold the fabric to the backing',
  fabricGrip: 'how firmly needle points hold the fabric to the backing',
  hoopForce: 'how tightly the fabric is hooped',
  'bending of the fabric': 'how stiff the fabric is to bend',
  'stiffness of the fabric': 'how hard the fabric is to stretch',
  'shrinkage of the fabric': 'how far the fabric shrinks',
  'shrinkage of the thread': 'how far the thread shrinks',
};

/** What a sensitivity is called in print. */
export const sourceWords = (source: string): string => SOURCES[source] ?? 'how stiff the backing is';
