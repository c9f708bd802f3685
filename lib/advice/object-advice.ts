/** What to do about one object. */
import type { ObjectMeasures } from '../measure/measures.js';
import type { Risk } from '../mechanics/risk.js';
import type { UnderlayKind } from '../segment/objects.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import type { Finding } from '../vetting/finding.js';
import type { Plan } from './plan.js';
import type { OwnAndLaid } from './reason.js';
import { RULE_LIMITS } from './rule-limits.js';
import type { ObjectRisks } from './search.js';

/** Underlay to lay instead of an object's own. */
export interface RelayAdvice {
  readonly from: readonly UnderlayKind[];
  readonly to: LaidUnderlay;
  /** Height of the wrinkles with its own underlay and with the new one, on the plan's stack, mm. */
  readonly wrinkleMm: { readonly now: OwnAndLaid; readonly washed: OwnAndLaid };
}

export interface ObjectAdvice {
  readonly object: number;
  /** The underlay to lay instead of its own, and what that does to the fabric about this object; null where it stays. */
  readonly relay: RelayAdvice | null;
  /** Too wide for one stitch: to be split, or filled instead. */
  readonly split: boolean;
  /** A thread end that nothing holds. */
  readonly locks: boolean;
  /** By how much to draw each edge out, mm; null where it hardly moves or moves by more than drawing makes up for. */
  readonly pullCompensationMm: number | null;
  /** How far its edges move inward where that is more than drawing makes up for, mm; else null. */
  readonly drawsInMm: number | null;
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
    const [split, locks] = [tooWide.has(id), unlocked.has(id)];
    const needs = relay || split || locks || pullCompensationMm !== null || drawsInMm !== null;
    return needs ? [{ object: id, relay, split, locks, pullCompensationMm, drawsInMm }] : [];
  });
}

const pair = (own: Risk, relaid: Risk): OwnAndLaid => [own.wrinkleMm, relaid.wrinkleMm];
