import { factsOf, toJson, type Vetting } from '../../lib/index.js';
import { fullShop } from '../../lib/pipeline.js';
import { compareReports, compareToText } from '../../lib/report/index.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { outputOf, textOptions, underNotice, WORKING_OUT } from '../output.js';
import { openDesign, settingsOf } from '../settings.js';
import { conditionsRequest } from '../setup-options.js';

/** `lieflat compare`: both designs vetted by the same measure, then laid side by side; with a fabric, which lies flatter. */
export const compare: Handler<ArgsOf<'compare'>> = async (args, io) => {
  const { shop: own, ...fit } = await settingsOf(args, io);
  const shop = fullShop(own);
  const request = conditionsRequest(args, args.stack);
  const conditions = request && shop.conditions(request);
  const paths: string[] = [];
  const vettings: Vetting[] = [];
  for (const word of args.words) {
    const { file, budget } = await openDesign(io, word);
    paths.push(file.path);
    vettings.push(shop.vet(file.design, { ...fit, file: factsOf(file), budget }));
  }
  const [before, after] = vettings;
  const foreseen =
    conditions && (await underNotice(WORKING_OUT, io, () => shop.change(before, after, conditions)));
  const result = await compareReports(before.report, after.report, foreseen);
  const output = outputOf(args, io);
  await output.write(
    args.format === 'json' ? toJson(result) : compareToText(result, await textOptions(args, io)),
  );
  await output.finish();
  return EXIT.clean;
};
