/**
 * The map: the whole way of a design, from the bytes of a file to the bytes of a better one. The first half, which every job goes
 * (bytes → Design → needle points → objects → measures → findings), is `vet` of `shop.ts`; each station holds its own detail.
 */
import type { Advice } from './advice/advise.js';
import { adviseOn, openAdviceOn, planWish } from './advice/advise-on.js';
import { decidedBeforehand, decidedFindings, fileFaults } from './advice/decided-findings.js';
import { calibrate } from './calibrate/calibrate.js';
import { isRefused } from './calibrate/refusal.js';
import { readSewOutLog } from './calibrate/sew-out-log.js';
import { UNBOUNDED } from './core/budget.js';
import { LieflatError } from './core/errors.js';
import type { FullShop } from './full-shop.js';
import { CATALOGUE } from './materials/catalogue.js';
import { atSpeed, sewSeconds } from './measure/sew-time.js';
import type { Conditions } from './mechanics/conditions.js';
import { PARAMETERS } from './mechanics/parameters.js';
import { stackText } from './mechanics/stack-notation.js';
import { mechanicsWith } from './mechanics/with-figures.js';
import { withAdvice } from './report/advise/in-vet.js';
import { adviceAsReport } from './report/advise/report.js';
import { digestOf, type FileDigest } from './report/batch/report.js';
import { noFit } from './report/calibrate/faults.js';
import { columnsRisk } from './report/columns-risk.js';
import { changeForeseen } from './report/compare/risk-change.js';
import { relayReport } from './report/relay/report.js';
import { resewReport } from './report/resew/report.js';
import { bareRiskReport, withRisk } from './report/risk-report.js';
import { buildVetReport, vetReportInParts } from './report/vet/build.js';
import { type VerdictLevel, verdictOnGarment } from './report/vet/verdict.js';
import { heldBy, relaidAsAsked } from './rework/relay-design.js';
import { resewnAsAsked } from './rework/resew-design.js';
import type { Shop, VetSettings, Vetting } from './shop.js';
import type { Finding } from './vetting/finding.js';

export type { FullShop, Relaying, Resewn, RiskedVetting } from './full-shop.js';
export {
  type OfferedDesign,
  type OpenLine,
  type OrderFile,
  type OrderLook,
  offeredDesign,
  openLine,
  workedLine,
} from './order-work.js';

/** A shop with everything that takes the mechanics. */
export function fullShop(shop: Shop): FullShop {
  const { figures, answers, vet } = shop;
  const { catalogue = CATALOGUE, parameters = PARAMETERS } = figures;
  const again = (from: Vetting, settings: VetSettings) => (made: Vetting['design'], said: Vetting['said']) =>
    vet(made, { ...settings, madeFrom: { said, objects: from.objects } });

  // objects + materials → mechanics → risk
  const mechanics = mechanicsWith({ catalogue, parameters }, answers);
  const change: FullShop['change'] = (before, after, conditions) => {
    const [[a], [b]] = [before, after].map((design) => mechanics.risks(design, [conditions]));
    return changeForeseen(a, b, conditions, catalogue);
  };

  // risk + the rules of the trade → advice
  const advise: FullShop['advise'] = (vetting, wish) =>
    adviseOn(vetting, wish, { ...figures, catalogue, parameters }, answers);
  const openAdvice: FullShop['openAdvice'] = (vetting, wish, known) =>
    openAdviceOn(vetting, wish, { ...figures, catalogue, parameters }, known, answers);
  const vetOn: FullShop['vetOn'] = (design, settings, conditions) => {
    const vetting = vet(design, settings);
    const [risk] = mechanics.risks(vetting, [conditions]);
    if (vetting.stitches.count === 0) {
      const report = withRisk(vetting.report, risk, conditions, catalogue);
      return { ...vetting, report, conditions, risk };
    }
    const advice = advise(vetting, planWish(conditions, settings.hoop));
    const findings = decidedFindings(vetting.findings, advice.search);
    const { designMeasures, measures, set } = vetting;
    const plain = buildVetReport(settings.file, designMeasures, measures, findings, set);
    const report = withRisk(plain, risk, conditions, catalogue);
    const advised = adviceAsReport(settings.file, advice, vetting.set, catalogue);
    const pace = atSpeed(figures.machine, advised.recommended.speedSpm);
    return {
      ...vetting,
      findings,
      report: withAdvice(report, advised, sewSeconds(design, pace)),
      conditions,
      risk,
    };
  };

  const digestOn: FullShop['digestOn'] = (design, settings, conditions, hashed) => {
    const vetting = vet(design, settings);
    const { grade } = bareRiskReport(mechanics.quickRisk(vetting, conditions));
    const { designMeasures, measures, set, findings } = vetting;
    const digested = (decided: readonly Finding[], level?: VerdictLevel): FileDigest => {
      const parts = vetReportInParts(settings.file, designMeasures, measures, decided, set);
      return { ...digestOf(parts, hashed), grade, ...(level && { level }) };
    };
    if (vetting.stitches.count === 0) return digested(findings);
    const wish = planWish(conditions, settings.hoop);
    const beforehand = decidedBeforehand(findings);
    if (beforehand) {
      const { hoop } = openAdvice(vetting, wish);
      const level = verdictOnGarment({
        ...fileFaults(findings, beforehand),
        hoop,
        meets: 'yes',
        againstRule: false,
      });
      // What the findings and the hoop leave open is for the plan to say.
      if (level !== 'sound') return digested(decidedFindings(findings, beforehand), level);
    }
    const advice = advise(vetting, wish);
    const { verdict } = adviceAsReport(settings.file, advice, set, catalogue);
    return digested(decidedFindings(findings, advice.search), verdict);
  };

  /** What is advised under these conditions; null where there is no backing that the shop could take. */
  const advisedOn = (vetting: Vetting, conditions: Conditions): Advice | null => {
    if (vetting.stitches.count === 0) return null;
    try {
      return advise(vetting, planWish(conditions, vetting.hoop));
    } catch (error) {
      // A price or a sheet that the profile lacks is no matter of relaying.
      if (error instanceof LieflatError && error.code === 'bad-profile') return null;
      throw error;
    }
  };

  /** The same conditions over the backing that is advised; null where that is the one, or there is none. */
  const overAdvice = (advice: Advice | null, conditions: Conditions): Conditions | null => {
    if (advice === null) return null;
    const { stack } = advice.search.recommended;
    const same = stackText(stack) === stackText(conditions.stack);
    return same ? null : { ...conditions, stack, stackGiven: true };
  };

  // objects + underlay → rework → proof → bytes → vetted again
  const relay: FullShop['relay'] = async (design, settings, wish = {}) => {
    const { format = design.format, conditions } = wish;
    const before = vet(await heldBy(format, design), settings);
    const free = conditions ? advisedOn(before, { ...conditions, stackGiven: false }) : null;
    const decides = wish.objects === undefined && wish.to !== 'keep';
    const own = conditions?.stackGiven && decides ? advisedOn(before, conditions) : free;
    const made = await relaidAsAsked(before, wish, own?.search ?? null, format, before.budget, {
      vet: again(before, settings),
      pulls: ({ objects, hoop, budget }, stitches, on) =>
        mechanics.pulls({ stitches, objects, hoop, budget }, on),
    });
    const changed = conditions ? change(before, made.after, conditions) : null;
    const advised = conditions ? overAdvice(free, conditions) : null;
    const overAdvised = advised ? change(before, made.after, advised) : null;
    const outcome = { ...made, threadUse: figures.threadUse };
    const report = relayReport(before, made.after, outcome, changed, overAdvised);
    return { bytes: made.bytes, before, after: made.after, report };
  };

  // objects + growth → rework → proof hole by hole → bytes → vetted again
  const resew: FullShop['resew'] = async (before, request, settings, conditions) => {
    const made = await resewnAsAsked(before, request, catalogue, settings.budget ?? UNBOUNDED);
    const after = again(before, settings)(made.design, made.said);
    const foreseen = conditions && change(before, after, conditions);
    const report = resewReport({ ...made, file: settings.file, before, after, foreseen });
    return { resewing: made.resewing, bytes: made.bytes, after, report };
  };

  // graded sew-outs → the parameters that suit them
  const fit: FullShop['calibrate'] = async (rows, designs, place, budget = UNBOUNDED) => {
    const { washes } = figures.accept;
    const fitted = await budget.run(() => calibrate({ rows, designs, catalogue, parameters, washes }));
    if (isRefused(fitted)) throw noFit(fitted.lack, place);
    return fitted;
  };

  return {
    ...{
      ...shop,
      ...mechanics,
      catalogue,
      parameters,
      change,
      advise,
      openAdvice,
      vetOn,
      digestOn,
      relay,
      resew,
      calibrate: fit,
    },
    columnsRisk: (vetting, conditions) =>
      columnsRisk(vetting, advisedOn(vetting, conditions), conditions, mechanics, catalogue),
    adviseReport: (file, advice, set) => adviceAsReport(file, advice, set, catalogue),
    readSewOuts: (bytes) => readSewOutLog(bytes, catalogue),
  };
}
