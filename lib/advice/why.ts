/** Why a plan is where it is. */
import { USUAL_SHEET } from '../materials/usual-sheet.js';
import type { StackedSheet } from '../mechanics/layup.js';
import type { StackHeights } from '../mechanics/stack-family.js';
import type { CalledColumns } from '../vetting/columns-called.js';
import type { Accepted } from './accepted.js';
import { meetsAt, type UpperEnd, upperMiss } from './meets.js';
import { type Judged, money, SAME_HEIGHT_MM } from './pareto-front.js';
import type { PlanRisk } from './plan.js';
import type { Why } from './reason.js';
import type { UnderlayTreatment } from './treatments.js';
import type { KeptColumns } from './underlay-kept.js';

interface Reasoned extends Judged {
  readonly treatment: Pick<UnderlayTreatment, 'to' | 'changes'>;
}

interface Chanced extends Judged {
  /** Part of the draws in which it keeps what the shop accepts. */
  readonly chance: number;
}

/**
 * Where a plan stands to the standard, or beside the recommended one.
 *
 * @param considered how many were looked at
 * @param upper what of it may miss the standard
 */
export function whyVerdict(
  plan: Chanced,
  recommended: Chanced,
  accepted: Accepted,
  { considered, upper }: { readonly considered: number; readonly upper: UpperEnd | null },
): Why {
  if (plan === recommended) {
    const params = { accepted, only: considered === 1 };
    const meets = meetsAt(plan.chance);
    if (meets === 'may') return { code: 'may-miss-standard', params: { ...params, upper } };
    return { code: meets === 'yes' ? 'meets-standard' : 'comes-closest', params };
  }
  const { washes } = accepted;
  const lowerMm = washes > 0 ? recommended.washedMm - plan.washedMm : recommended.nowMm - plan.nowMm;
  const dearer = money(plan.total) - money(recommended.total);
  const cost = dearer < 0 ? 'less' : dearer > 0 ? 'more' : 'same';
  return { code: 'beside-recommended', params: { cost, lowerMm, washes, accepted } };
}

/** A plan with the grades that are told of it. */
type RiskedPlan = Chanced & Record<'riskNow' | 'riskWashed', PlanRisk>;

/** A cheaper plan of the list looks good enough, and is not sure to be: nothing where there is none, or the recommended is not sure either. */
export function whyNotCheaper(recommended: Chanced, plans: readonly RiskedPlan[], accepted: Accepted): Why[] {
  if (meetsAt(recommended.chance) !== 'yes') return [];
  const cheaper = plans.filter(
    (plan) =>
      money(plan.total) < money(recommended.total) &&
      plan.riskNow.grade >= accepted.grade &&
      plan.riskWashed.grade >= accepted.washedGrade,
  );
  if (cheaper.length === 0) return [];
  const likeliest = cheaper.reduce((best, one) => (one.chance > best.chance ? one : best));
  return [{ code: 'cheaper-may-miss', params: { accepted, upper: upperMiss(likeliest, accepted) } }];
}

/** Of the setups that cost the same, the flattest is another; nothing where it is this one, or what it gains does not show. */
export function whyNotFlattest(
  recommended: Judged & { readonly stack: readonly StackedSheet[] },
  plans: readonly Judged[],
  { washes }: Accepted,
): Why[] {
  const heightOf = ({ nowMm, washedMm }: Judged) => (washes > 0 ? washedMm : nowMm);
  const same = plans.filter((plan) => money(plan.total) === money(recommended.total));
  const flatterMm = heightOf(recommended) - Math.min(...same.map(heightOf), heightOf(recommended));
  const usual = recommended.stack.every(({ sheet }) => sheet === USUAL_SHEET.id);
  return usual && flatterMm >= SAME_HEIGHT_MM
    ? [{ code: 'usual-sheet-first', params: { flatterMm, washes } }]
    : [];
}

/** What a lighter underlay brings on the same stack, or nothing where that of heavy columns stays. */
export function whyUnderlay(
  { treatment: { to }, nowMm, washedMm }: Reasoned,
  withOwn: StackHeights,
  { heavy }: CalledColumns,
  washes: number,
): Why[] {
  if (to === null) return [];
  const params = {
    to,
    columns: heavy.size,
    nowMm: [withOwn.nowMm, nowMm],
    washedMm: [withOwn.washedMm, washedMm],
    washes,
  } as const;
  return [{ code: 'lighter-underlay', params }];
}

/** Columns that had nothing under them get some whatever it brings: the rule of the trade. */
export function whyUnderlayLaid(
  { changes }: Pick<UnderlayTreatment, 'changes'>,
  { bare }: CalledColumns,
): Why[] {
  const laid = changes.filter(({ object }) => bare.has(object));
  return laid.length === 0
    ? []
    : [{ code: 'underlay-where-none', params: { to: laid[0].to, columns: laid.length } }];
}

/** Why heavy columns keep what they have. */
export const whyUnderlayKept = (kept: KeptColumns | null): Why[] =>
  kept ? [{ code: 'underlay-kept', params: { columns: kept.objects.length, because: kept.because } }] : [];
