/** What to do about one object. */
import type { ObjectMeasures } from '../measure/measures.js';
import type { Risk } from '../mechanics/risk.js';
import type { Finding } from '../vetting/finding.js';
import {
  drawnOutSentence,
  drawsInSentence,
  lockSentence,
  type RelayAdvice,
  relaySentence,
  splitSentence,
} from './object-sentences.js';
import type { Plan } from './plan.js';
import { RULE_LIMITS } from './rule-limits.js';
import type { ObjectRisks } from './search.js';

export interface ObjectAdvice {
  readonly object: number;
  /** The underlay to lay in place of its own, and what that does to the goods about this object; null where it stays. */
  readonly relay: RelayAdvice | null;
  /** Too wide for one stitch: to be split, or filled instead. */
  readonly split: boolean;
  /** A thread end that nothing holds. */
  readonly locks: boolean;
  /** By how much to draw each edge out, mm; null where it hardly moves or moves by more than drawing makes up for. */
  readonly pullCompensationMm: number | null;
  /** How far its edges move inward where that is more than drawing makes up for, mm; else null. */
  readonly drawsInMm: number | null;
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
    const pullCompensationMm = moved >= LEAST_DRAWN_MM && moved <= RULE_LIMITS.mostDrawn.value ? moved : null;
    const drawsInMm = moved > RULE_LIMITS.mostDrawn.value ? moved : null;
    const it = { name: `object ${id}`, several: false };
    const text = [
      ...(relay ? [relaySentence(it, [relay], plan.riskWashed.washes)] : []),
      ...(tooWide.has(id) ? [splitSentence(it)] : []),
      ...(unlocked.has(id) ? [lockSentence(it)] : []),
      ...(pullCompensationMm !== null ? [drawnOutSentence(it, pullCompensationMm)] : []),
      ...(drawsInMm !== null ? [drawsInSentence(it, [drawsInMm])] : []),
    ];
    if (text.length === 0) return [];
    return [
      {
        object: id,
        relay,
        split: tooWide.has(id),
        locks: unlocked.has(id),
        pullCompensationMm,
        drawsInMm,
        text,
      },
    ];
  });
}

const pair = (own: Risk, relaid: Risk): [number, number] => [own.wrinkleMm, relaid.wrinkleMm];
