/** Object numbers as they are named on a command line. */
import { badArgument } from './bad-argument.js';

/** More objects than a design has that one machine sews. */
const HIGHEST_OBJECT = 99_999;

/** `3` → 3; `1-3` → 1, 2 and 3; null for what is no number of an object or no two of them in order. */
export function objectRange(text: string, highest = HIGHEST_OBJECT): number[] | null {
  const [, from, to] = /^\s*([1-9]\d*)\s*(?:-\s*([1-9]\d*)\s*)?$/.exec(text) ?? [];
  const [first, last] = [Number(from), Number(to ?? from)];
  if (!(first <= last && last <= highest)) return null;
  return Array.from({ length: last - first + 1 }, (_, k) => first + k);
}

/** `3,5` → 3 and 5; `1-3` → 1, 2 and 3. */
export function objectIds(text: string): number[] {
  return text.split(',').flatMap((part) => {
    const ids = objectRange(part);
    if (ids === null)
      throw badArgument(
        `--objects cannot be ${text || 'empty'}`,
        'give object numbers joined by commas, as 3,5 or 1-4',
      );
    return ids;
  });
}
