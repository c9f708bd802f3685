/** What to do about one object. */
import type { ObjectMeasures } from '../measure/measures.js';
import { MOST_DRAWN_MM } from '../mechanics/pull-in.js';
import type { Risk } from '../mechanics/risk.js';
import type { LaidUnderlay } from '../segment/laid-underlay.js';
import type { UnderlayKind } from '../segment/objects.js';
import type { Finding } from '../vetting/finding.js';
import { inWords } from '../vetting/words.js';
import type { Plan } from './plan.js';
import type { ObjectRisks } from './search.js';
import { launderings, ownUnderlayWords, underlayWords } from './words.js';

export interface ObjectAdvice {
  readonly object: number;
  /** The underlay to lay in place of its own, and what that does to the goods about this object; null where it stays. */
  readonly relay: {
    readonly from: readonly UnderlayKind[];
    readonly to: LaidUnderlay;
    /** Height of the wrinkles with its own underlay and with the new one, on the plan's stack, mm. */
    readonly wrinkleMm: {
      readonly now: [own: number, relaid: number];
      readonly washed: [own: number, relaid: number];
    };
  } | null;
  /** Too wide for one stitch: to be split, or filled instead. */
  readonly split: boolean;
  /** A thread end that nothing holds. */
  readonly locks: boolean;
  /** By how much to draw each edge out, mm; null where it hardly moves or moves by more than drawing makes up for. */
  readonly pullCompensationMm: number | null;
  /** The same in sentences, the weightiest first. */
  readonly text: readonly string[];
}

/** An edge that moves by less needs no drawing out, mm: a file's own step. */
const LEAST_DRAWN_MM = 0.1;

/** Advice on every object that needs something; in sewing order. */
export function objectAdvice(
  objects: readonly ObjectMeasures[],
  findings: readonly Finding[],
  plan: Plan,
  risks: ObjectRisks,
): ObjectAdvice[] {
  const has = (code: string): Set<number> =>
    new Set(findings.flatMap((f) => (f.code === code && f.object !== null ? [f.object] : [])));
  const tooWide = has('satin-too-wide');
  const unlocked = has('missing-lock');
  const to = new Map(plan.underlay.map((change) => [change.object, change.to]));
  return objects.flatMap(({ object }, k): ObjectAdvice[] => {
    const { id, underlay, kind } = object;
    const own = risks.asItCame[k];
    const planned = risks.planned[k];
    const laid = to.get(id);
    const relay = laid
      ? {
          from: underlay.kinds,
          to: laid,
          wrinkleMm: {
            now: pair(own.now, planned.now),
            washed: pair(own.washed, planned.washed),
          },
        }
      : null;
    const moved = kind === 'run' ? 0 : planned.now.pullInMm;
    const pullCompensationMm = moved >= LEAST_DRAWN_MM && moved <= MOST_DRAWN_MM ? moved : null;
    const text = [
      ...(relay ? [relayText(relay, plan.riskWashed.washes)] : []),
      ...(tooWide.has(id) ? ['Split this satin, or fill the shape instead: its stitches are too long.'] : []),
      ...(unlocked.has(id) ? ['Add lock stitches where its thread begins or ends.'] : []),
      ...(pullCompensationMm !== null
        ? [
            `Its edges draw in by ${inWords(pullCompensationMm)} along the stitches: pull compensation of that much on each side, what is already drawn in counted.`,
          ]
        : []),
      ...(moved > MOST_DRAWN_MM
        ? [
            `Its edges draw in by ${inWords(moved)}: more than drawing makes up for. Change the backing or the design.`,
          ]
        : []),
    ];
    if (text.length === 0) return [];
    return [{ object: id, relay, split: tooWide.has(id), locks: unlocked.has(id), pullCompensationMm, text }];
  });
}

const pair = (own: Risk, relaid: Risk): [number, number] => [own.wrinkleMm, relaid.wrinkleMm];

function relayText({ from, to, wrinkleMm }: NonNullable<ObjectAdvice['relay']>, washes: number): string {
  const [own, relaid] = washes > 0 ? wrinkleMm.washed : wrinkleMm.now;
  const when = washes > 0 ? `after ${launderings(washes)}` : 'as sewn';
  return `Lay ${underlayWords(to)} under it in place of ${ownUnderlayWords(from)}: wrinkles about it ${inWords(relaid)} instead of ${inWords(own)} ${when}.`;
}
