import { basename } from 'node:path';
import { type CardLanguage, operatorCard, type PaperName } from '../../lib/report/index.js';
import { withUnderlay } from '../../lib/rework/index.js';
import { wrongEnding } from '../bad-argument.js';
import { EXIT, type Handler } from '../command.js';
import type { Report } from '../options.js';
import { underNotice, WORKING_OUT, writeOut } from '../output.js';
import { type PlanArgs, toPlan } from '../to-plan.js';

interface CardArgs extends PlanArgs, Omit<Report, 'out'> {
  out: string;
  paper: PaperName;
  language: CardLanguage;
  cost: boolean;
}

/** `lieflat card`: the printed page that goes to the machine operator. */
export const card: Handler<CardArgs> = async (args, io) => {
  if (!/\.html?$/i.test(args.out)) throw wrongEnding('-o', args.out, '.html');
  const { shop, place, wish, path, facts, vetting } = await toPlan(args, io);
  const page = await underNotice(WORKING_OUT, io, async () => {
    const advice = shop.advise(vetting, wish);
    const report = shop.adviseReport(facts, advice, vetting.set);
    const plan = report.recommended;
    const sewn = withUnderlay(vetting, new Map(plan.underlay.map(({ object, to }) => [object, to])));
    const washed = { ...advice.conditions, stack: plan.stack, washes: plan.riskWashed.washes };
    return operatorCard(
      {
        ...vetting,
        advice: report,
        grainDeg: advice.conditions.grainDeg,
        hoop: advice.hoop,
        place,
        maps: shop.wrinkles({ ...sewn, budget: vetting.budget }, washed),
        machine: shop.figures.machine,
        catalogue: shop.catalogue,
      },
      {
        title: basename(path),
        units: args.units,
        paper: args.paper,
        language: args.language,
        cost: args.cost,
      },
    );
  });
  await writeOut(args.out, page, args.force, io);
  return EXIT.clean;
};
