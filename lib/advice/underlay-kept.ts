/** Columns that keep an underlay which the rule of the trade calls too heavy: the one place where that is decided for a fabric. */

import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import type { CalledColumns } from '../vetting/columns-called.js';
import type { UnderlayKept } from '../vetting/finding.js';
import { meetsAt } from './meets.js';

/** From this grade on fabric lies flat: half a step below smooth is within what two judges differ by. Our own choice. */
export const FLAT_GRADE = 4.5;

export interface KeptColumns {
  /** Ids, rising. */
  readonly objects: readonly number[];
  readonly because: UnderlayKept;
}

/** The recommended plan, as far as the decision hangs on it. */
interface Decided {
  /** Laid under the heavy columns; null where they keep what they have. */
  readonly to: LaidUnderlay | null;
  /** As sewn and washed. */
  readonly grades: readonly number[];
  /** Part of the draws in which it keeps what the shop accepts. */
  readonly chance: number;
}

/** Null where no column does. */
export function keptColumns({ to, grades, chance }: Decided, { heavy }: CalledColumns): KeptColumns | null {
  if (heavy.size === 0 || to !== null) return null;
  const isFlat = grades.every((grade) => grade >= FLAT_GRADE);
  const because = isFlat ? 'lies-flat' : meetsAt(chance) === 'yes' ? 'meets-standard' : 'no-gain';
  return { objects: [...heavy].toSorted((a, b) => a - b), because };
}
