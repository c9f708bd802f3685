/** What a shop has set right in a design, in words. */

import type { SetOutcome } from '../segment/set-right/saying.js';
import type { Fact } from './document.js';
import { EN } from './phrases/en.js';
import type { Words } from './phrases/words.js';
import type { SetObjectReport } from './vet/report.js';

export const setObjectReport = ({ object, stitches, is, not }: SetOutcome): SetObjectReport => ({
  object,
  stitchRange: [stitches[0], stitches[1]],
  is: [...is],
  done: not === null,
  why: not && EN.vet.notSet[not],
});

/** What the shop has set right: a fact for all that stands, and one for each that cannot be so. */
export function setFacts(set: readonly SetObjectReport[], { vet }: Words<'vet'>): Fact[] {
  const nameOf = ({ object, stitchRange: stitches }: SetObjectReport) => vet.objectName({ object, stitches });
  const done = set.filter((one) => one.done);
  const back = done.find(({ object }) => object !== null)?.object ?? null;
  const objects = done.map((one) => ({ name: nameOf(one), is: one.is }));
  return [
    ...(done.length > 0 ? [vet.setRight({ objects, back })] : []),
    ...set.flatMap((one) =>
      one.done ? [] : [vet.notSetRight({ name: nameOf(one), is: one.is, why: one.why ?? '' })],
    ),
  ].map((text) => ({ label: vet.objectsLabel, text }));
}
