/** What a shop has set right in a design, in words. */

import type { SetOutcome } from '../segment/set-right/saying.js';
import { EN } from './phrases/en.js';
import type { SetObjectReport } from './vet/report.js';

export const setObjectReport = ({ object, stitches, is, not }: SetOutcome): SetObjectReport => ({
  object,
  stitchRange: [stitches[0], stitches[1]],
  is: [...is],
  done: not === null,
  why: not && EN.vet.notSet[not],
});

/** One sentence for all that stands, and one for each that cannot be so; none where nothing was said. */
export function setByYouWords(set: readonly SetObjectReport[]): string[] {
  const name = ({ object, stitchRange: [first, last] }: SetObjectReport) =>
    object === null ? `what was at stitches ${first} to ${last}` : `object ${object}`;
  const done = set.filter((one) => one.done);
  const one = done.find(({ object }) => object !== null);
  return [
    ...(done.length > 0
      ? [
          `${done.map((each) => `${name(each)} is ${each.is.join(' and ')}`).join(', ')}: set by you${one ? ` (--is ${one.object}=found takes it back)` : ''}`,
        ]
      : []),
    ...set.flatMap((each) =>
      each.done ? [] : [`${name(each)} was set by you to ${each.is.join(' and ')} and is not: ${each.why}`],
    ),
  ];
}
