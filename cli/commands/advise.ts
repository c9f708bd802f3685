import { basename } from 'node:path';
import { toJson } from '../../lib/index.js';
import { advisePage, adviseToText } from '../../lib/report/index.js';
import { EXIT, type Handler } from '../command.js';
import type { Report } from '../options.js';
import { outputOf, textOptions, underNotice, WORKING_OUT } from '../output.js';
import { type PlanArgs, toPlan } from '../to-plan.js';

interface AdviseArgs extends PlanArgs, Report {
  format: 'text' | 'json' | 'html';
  all: boolean;
}

/** `lieflat advise`: the plans for one design on one fabric. */
export const advise: Handler<AdviseArgs> = async (args, io) => {
  const { shop, wish, path, facts, vetting } = await toPlan(args, io);
  const output = outputOf(args, io);
  const report = await underNotice(WORKING_OUT, io, async () =>
    shop.adviseReport(facts, shop.advise(vetting, wish), vetting.set),
  );
  const written = {
    text: async () => adviseToText(report, await textOptions(args, io), args.all),
    json: async () => toJson(report),
    html: async () => advisePage(report, { title: basename(path), units: args.units }),
  };
  await output.write(await written[args.format]());
  await output.finish();
  return EXIT.clean;
};
