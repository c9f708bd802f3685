import { basename } from 'node:path';
import {
  adviseOn,
  adviseReportOf,
  builtInCatalogue,
  operatorCard,
  type PaperName,
  planOnCard,
  readDesignFile,
  risksOf,
  vetDesign,
  withUnderlay,
} from '../../lib/index.js';
import { badArgument } from '../bad-argument.js';
import { EXIT, type Handler, type Words } from '../command.js';
import { factsOf } from '../facts.js';
import { type Goods, goodsRequest } from '../goods.js';
import type { Everywhere, Fit, Report } from '../options.js';
import { underNotice, WORKING_OUT, writeOut } from '../output.js';
import { refuseWithoutStitches } from '../refuse-without-stitches.js';
import { pathFrom, settingsOf } from '../settings.js';

interface CardArgs extends Words, Everywhere, Fit, Omit<Report, 'out'>, Omit<Goods, 'fabric'> {
  fabric: string;
  out: string;
  paper: PaperName;
  cost: boolean;
}

/** `lieflat card`: the printed page that goes to the machine operator. */
export const card: Handler<CardArgs> = async (args, io) => {
  if (!/\.html?$/i.test(args.out))
    throw badArgument('card writes a page', 'write -o and a name that ends in .html');
  const settings = await settingsOf(args, io);
  const { shop, hoop, place } = settings;
  // With a fabric there always is a request.
  const wish = { ...goodsRequest(args, args.stack)!, ...(hoop && { hoop }) };
  const file = await readDesignFile(pathFrom(io, args.words[0]));
  const facts = factsOf(file);
  const vetting = vetDesign(file.design, { ...settings, file: facts });
  refuseWithoutStitches(vetting, file.path);
  const page = await underNotice(WORKING_OUT, io, async () => {
    const advice = await adviseOn(vetting, wish, shop);
    const report = await adviseReportOf(facts, advice, shop);
    const plan = planOnCard(report);
    const sewn = await withUnderlay(vetting, new Map(plan.underlay.map(({ object, to }) => [object, to])));
    const washed = { ...advice.conditions, stack: plan.stack, washes: plan.riskWashed.washes };
    const [{ maps }] = await risksOf(sewn, [washed], shop);
    return operatorCard(
      {
        ...vetting,
        advice: report,
        grainDeg: advice.conditions.grainDeg,
        hoop: advice.hoop,
        place,
        maps,
        machine: shop.machine,
        catalogue: shop.catalogue ?? (await builtInCatalogue()),
      },
      { title: basename(file.path), units: args.units, paper: args.paper, cost: args.cost },
    );
  });
  await writeOut(args.out, page, { force: args.force, inputs: [file.path] }, io);
  return EXIT.clean;
};
