/** What is wrong with what is found in designs whose objects are known; bundled by itself, so that it can be loaded again with one decision changed. */
import { UNSURE } from '../../lib/segment/objects.js';
import { findAndMeasure } from '../generators/find-and-measure.js';
import type { Case } from '../generators/pen.js';
import { score } from '../generators/score.js';

/** From this confidence on an object is said to be sure. */
const SURE = 0.9;

/** How many faults there are: all that the score tells, what is wrong though said to be sure, and what is right though said to be unsure. */
export function faultsOf(c: Case): number {
  const { tally, failures } = score(c, findAndMeasure(c.design));
  const misjudged = tally.sure.filter(({ confidence, right }) =>
    right ? confidence < UNSURE : confidence >= SURE,
  );
  return failures.length + misjudged.length;
}
