/** What objects need, put together: those that need the same are named in one breath. */
import {
  drawsInSentence,
  lockSentence,
  type Named,
  relaySentence,
  splitSentence,
} from '../advice/object-sentences.js';
import { inWords } from '../vetting/words.js';
import type { ObjectAdviceReport } from './advice-report.js';
import { idsInWords } from './plan-words.js';

/** Objects whose edges are to be drawn out by the same amount. */
export interface DrawnOut {
  /** On each side, mm, rounded to {@link STEP_MM}. */
  mm: number;
  /** Rising. */
  objects: number[];
}

/** Amounts of pull compensation that differ by less are one, mm: on both sides together it is the step of a stitch file. */
const STEP_MM = 0.05;

/** What goes with a table of pull compensation. */
export const DRAWN_OUT_NOTE = `On each side, along the stitches, to the nearest ${inWords(STEP_MM)}; what the file has already counts. Edges draw in whether the goods wrinkle or not.`;

/**
 * What the objects need, a sentence for all that need the same, the weightiest first. Pull compensation is left to {@link drawnOut}.
 *
 * @param washes launderings after which wrinkles are told of
 */
export function adviceSentences(objects: readonly ObjectAdviceReport[], washes: number): string[] {
  const relaid = objects.flatMap(({ object, relay }) => (relay ? [{ object, relay }] : []));
  const kinds = [...new Set(relaid.map(({ relay }) => relay.to))];
  const split = objects.filter((advice) => advice.split);
  const unlocked = objects.filter((advice) => advice.locks);
  const drawingIn = objects.filter(({ drawsInMm }) => drawsInMm !== null);
  return [
    ...kinds.map((to) => {
      const same = relaid.filter(({ relay }) => relay.to === to);
      const relays = same.map(({ relay }) => relay);
      return relaySentence(named(same), relays, washes);
    }),
    ...(split.length > 0 ? [splitSentence(named(split))] : []),
    ...(unlocked.length > 0 ? [lockSentence(named(unlocked))] : []),
    ...(drawingIn.length > 0
      ? [
          drawsInSentence(
            named(drawingIn),
            drawingIn.map(({ drawsInMm }) => drawsInMm!),
          ),
        ]
      : []),
  ];
}

/** The objects to be drawn out, by how much, the least first. */
export function drawnOut(objects: readonly ObjectAdviceReport[]): DrawnOut[] {
  const bySteps = new Map<number, number[]>();
  for (const { object, pullCompensationMm } of objects) {
    if (pullCompensationMm === null) continue;
    const steps = Math.round(pullCompensationMm / STEP_MM);
    bySteps.set(steps, [...(bySteps.get(steps) ?? []), object]);
  }
  return [...bySteps]
    .sort(([a], [b]) => a - b)
    .map(([steps, ids]) => ({ mm: steps * STEP_MM, objects: ids.toSorted((a, b) => a - b) }));
}

/** The same in a sentence, or nothing. */
export function drawnOutWords(objects: readonly ObjectAdviceReport[]): string[] {
  const amounts = drawnOut(objects);
  if (amounts.length === 0) return [];
  const each = amounts.map(({ mm, objects: ids }) => `${inWords(mm)} for ${idsInWords(ids)}`).join('; ');
  return [`Pull compensation on each side, along the stitches, what the file has already counted: ${each}.`];
}

const named = (advised: readonly { object: number }[]): Named => ({
  name: idsInWords(advised.map(({ object }) => object)),
  several: advised.length > 1,
});
