/** The map: the whole way of a design, from the bytes of a file to the bytes of a better one. Each line is a station; each holds its own detail. */
import { adviseOn, planWish } from './advice/advise-on.js';
import { calibrate } from './calibrate/calibrate.js';
import { readSewOutLog } from './calibrate/sew-out-log.js';
import { UNBOUNDED } from './core/budget.js';
import type { FullShop } from './full-shop.js';
import { CATALOGUE, find } from './materials/catalogue.js';
import { PARAMETERS } from './mechanics/parameters.js';
import { DEFAULT_THREAD } from './mechanics/risk.js';
import { mechanicsWith } from './mechanics/with-figures.js';
import { withAdvice } from './report/advice-in-vet.js';
import { adviceAsReport } from './report/advise-report.js';
import { columnsRisk } from './report/columns-risk.js';
import { relayReport } from './report/relay-report.js';
import { resewReport } from './report/resew-report.js';
import { changeForeseen } from './report/risk-change.js';
import { withRisk } from './report/risk-report.js';
import { provenResew } from './rework/proven.js';
import { drawnOut, heldBy, relaidAsAsked } from './rework/relay-design.js';
import { unsureObjects } from './rework/unsure-objects.js';
import { saidAnew } from './segment/set-right/set-right.js';
import type { Shop } from './shop.js';

export type { FullShop, Relaying, Resewn, ResewRequest, RiskedVetting } from './full-shop.js';

/**
 * A shop with everything that takes the mechanics.
 *
 * @example
 * ```ts
 * import { factsOf, readDesignFile, shopOf } from 'lieflat';
 * import { fullShop } from 'lieflat/pipeline';
 * const shop = fullShop(shopOf());
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shop.vet(file.design, { file: factsOf(file) });
 * const [onKnit, onDenim] = shop.risks(vetting, [
 *   shop.conditions({ fabric: 'performance-knit-thin', stack: 'none' }),
 *   shop.conditions({ fabric: 'denim', stack: 'tearaway-1.8oz-firm' }),
 * ]);
 * onKnit.wrinkleMm > onDenim.wrinkleMm; // => true
 * ```
 */
export function fullShop(shop: Shop): FullShop {
  const { figures, vet } = shop; // records → needle points → objects → measures → findings: see shop.ts
  const { catalogue = CATALOGUE, parameters = PARAMETERS } = figures;
  const complete = { ...figures, catalogue, parameters };

  // objects + materials → mechanics → risk
  const mechanics = mechanicsWith(complete);
  const change: FullShop['change'] = (before, after, conditions) => {
    const [[a], [b]] = [before, after].map((design) => mechanics.risks(design, [conditions]));
    return changeForeseen(a, b, conditions, catalogue);
  };

  // risk + the rules of the trade → advice
  const advise: FullShop['advise'] = (vetting, wish) => adviseOn(vetting, wish, complete);
  const adviseReport: FullShop['adviseReport'] = (file, advice, set) =>
    adviceAsReport(file, advice, set, catalogue);

  const vetOn: FullShop['vetOn'] = (design, settings, conditions) => {
    const vetting = vet(design, settings);
    const [risk] = mechanics.risks(vetting, [conditions]);
    const risked = withRisk(vetting.report, risk, conditions, catalogue);
    if (vetting.stitches.count === 0) return { ...vetting, report: risked, conditions, risk };
    const advice = advise(vetting, planWish(conditions, settings.hoop));
    const report = withAdvice(risked, adviseReport(settings.file, advice, []));
    return { ...vetting, report, conditions, risk };
  };

  // objects + underlay → rework → proof → bytes → vetted again
  const relay: FullShop['relay'] = async (design, settings, wish = {}) => {
    const { budget = UNBOUNDED } = settings;
    const { to = 'fill', format = design.format, conditions, compensate } = wish;
    const before = vet(await heldBy(format, design), settings);
    const laid = await relaidAsAsked(before, wish, format, budget);
    const again = (made: typeof design) =>
      vet(made, { ...settings, madeFrom: { said: laid.said, objects: before.objects } });
    const relaid = again(laid.design);
    const pulls =
      conditions &&
      ((stitches: typeof before.stitches) => mechanics.pulls({ ...relaid, stitches }, conditions));
    const compensation = compensate && pulls ? await drawnOut(relaid, pulls, wish, format, budget) : null;
    const after = compensation ? again(compensation.design) : relaid;
    const foreseen = conditions ? change(before, after, conditions) : null;
    const outcome = { ...laid, to, relaid: laid.relaid.keys(), threadUse: figures.threadUse, compensation };
    const report = relayReport(before, after, outcome, foreseen);
    return { bytes: (compensation ?? laid).bytes, before, after, report };
  };

  // objects + growth → rework → proof hole by hole → bytes → vetted again
  const resew: FullShop['resew'] = async (before, request, settings, conditions) => {
    const { thread = DEFAULT_THREAD, objects, format = 'dst', ...wish } = request;
    const unsure = unsureObjects(before.objects, objects);
    const threadMm = find(catalogue, 'threads', thread).cover.value;
    const made = await provenResew(
      before,
      { ...wish, unsure, threadMm },
      format,
      settings.budget ?? UNBOUNDED,
    );
    const said = saidAnew(before.said, before, made.resewing.chosen.written);
    const after = vet(made.design, { ...settings, madeFrom: { said, objects: before.objects } });
    const foreseen = conditions && change(before, after, conditions);
    const report = resewReport({ ...made, file: settings.file, unsure, before, after, foreseen });
    return { resewing: made.resewing, bytes: made.bytes, after, report };
  };

  return {
    ...shop,
    ...mechanics,
    catalogue,
    parameters,
    change,
    columnsRisk: (vetting, conditions) => columnsRisk(vetting, conditions, mechanics, catalogue),
    advise,
    adviseReport,
    vetOn,
    relay,
    resew,
    // graded sew-outs → the parameters that suit them
    readSewOuts: (bytes) => readSewOutLog(bytes, catalogue),
    calibrate: (rows, designs, place, budget = UNBOUNDED) =>
      budget.run(() =>
        calibrate({ rows, designs, catalogue, parameters, washes: figures.accept.washes, place }),
      ),
  };
}
