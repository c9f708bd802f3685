/** Advice on objects in sentences: on one, or on several that need the same. */

import type { UnderlayKind } from '../segment/objects.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import { inWords, rangeInWords } from '../vetting/words.js';
import { RULE_LIMITS } from './rule-limits.js';
import { launderings, NO_WRINKLE_MM, ownUnderlayWords, underlayWords } from './words.js';

/** How the objects spoken of are named: `object 4`, `objects 1 to 3`. */
export interface Named {
  readonly name: string;
  readonly several: boolean;
}

/** Underlay to lay in place of an object's own. */
export interface RelayAdvice {
  readonly from: readonly UnderlayKind[];
  readonly to: LaidUnderlay;
  /** Height of the wrinkles with its own underlay and with the new one, on the plan's stack, mm. */
  readonly wrinkleMm: {
    readonly now: readonly [own: number, relaid: number];
    readonly washed: readonly [own: number, relaid: number];
  };
}

/**
 * What to lay under them, and what that does to the goods about them.
 *
 * @param relays of each; the same is laid under all
 * @param washes launderings after which they are looked at
 */
export function relaySentence(
  { name, several }: Named,
  relays: readonly RelayAdvice[],
  washes: number,
): string {
  const [{ to, from }] = relays;
  const own = relays.every((relay) => relay.from.join() === from.join())
    ? ownUnderlayWords(from)
    : 'what is there';
  const heights = relays.map(({ wrinkleMm }) => (washes > 0 ? wrinkleMm.washed : wrinkleMm.now));
  const when = washes > 0 ? `after ${launderings(washes)}` : 'as sewn';
  const about = several ? 'them' : 'it';
  const lay = `Lay ${underlayWords(to)} under ${name} in place of ${own}`;
  if (heights.flat().every((mm) => mm < NO_WRINKLE_MM))
    return `${lay}: the goods lie flat about ${about} with either, the design as a whole gains.`;
  const [before, after] = [0, 1].map((k) => rangeInWords(heights.map((pair) => pair[k])));
  return `${lay}: wrinkles about ${about} ${after} instead of ${before} ${when}.`;
}

export const splitSentence = ({ name, several }: Named): string =>
  several
    ? `Split the satin of ${name}, or fill the shapes instead: the stitches are too long.`
    : `Split the satin of ${name}, or fill the shape instead: its stitches are too long.`;

export const lockSentence = ({ name }: Named): string =>
  `Add lock stitches where the thread of ${name} begins or ends.`;

/** By how much to draw their edges out. */
export const drawnOutSentence = ({ name }: Named, mm: number): string =>
  `Pull compensation for ${name}: ${inWords(mm)} on each side, along the stitches. What the file has already counts.`;

/**
 * What to do where edges move by more than drawing them out makes up for. That is a matter of size, and says nothing of wrinkles: what lies
 * flat may draw in as well.
 */
export function drawsInSentence({ name, several }: Named, movedMm: readonly number[]): string {
  const [comes, its, bordering] = several
    ? ['come', 'their', 'what borders on them']
    : ['comes', 'its', 'what borders on it'];
  const most = inWords(RULE_LIMITS.mostDrawn.value);
  return `${capital(name)} ${comes} out smaller than drawn, wrinkles or none: ${its} edges draw in by ${rangeInWords(movedMm)} on each side, along the stitches. Have them drawn out by ${most}, the most that can be relied on, let ${bordering} overlap, and measure a sew-out.`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
