import { basename } from 'node:path';
import { factsOf, toJson } from '../../lib/index.js';
import { fullShop } from '../../lib/pipeline.js';
import {
  puckerComparison,
  puckerComparisonToText,
  puckerReport,
  puckerToText,
  wrinkleMap,
} from '../../lib/report/index.js';
import { badArgument } from '../bad-argument.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { outputOf, textOptions, underNotice, WORKING_OUT } from '../output.js';
import { pictureKind, writePicture } from '../picture.js';
import { openDesign, settingsOf } from '../settings.js';
import { conditionsRequest } from '../setup-options.js';

/** Every backing takes its own solves, and a line of the comparison: so many fit on a screen. */
const MOST_COMPARED = 12;

/** `lieflat pucker`: the risk of one design on one fabric, over one backing or over several side by side. */
export const pucker: Handler<ArgsOf<'pucker'>> = async (args, io) => {
  const { stack: stacks = [undefined], map, force } = args;
  if (stacks.length > MOST_COMPARED)
    throw badArgument(
      `${stacks.length} backings are more than the ${MOST_COMPARED} that are compared at once`,
      'give --stack fewer times',
    );
  if (map !== undefined) {
    pictureKind('--map', map);
    if (stacks.length > 1)
      throw badArgument('--map shows one backing', 'give --stack once, or leave --map out');
  }
  const { shop: own, place, hoop } = await settingsOf(args, io);
  const shop = fullShop(own);
  // With a fabric there always is a request.
  const conditions = stacks.map((stack) => shop.conditions(conditionsRequest(args, stack)!));
  const { file, budget } = await openDesign(io, args.words[0]);
  const vetting = shop.vet(file.design, { file: factsOf(file), place, hoop, budget });
  const risks = await underNotice(WORKING_OUT, io, () => shop.risks(vetting, conditions));
  const { catalogue, parameters } = shop;
  const inputs = risks.map((risk, i) => ({
    file: factsOf(file),
    measures: vetting.measures,
    set: vetting.set,
    risk,
    conditions: conditions[i],
    catalogue,
    parameters,
  }));
  const output = outputOf(args, io);
  const text = await textOptions(args, io);
  if (inputs.length > 1) {
    const comparison = await puckerComparison(inputs);
    await output.write(
      args.format === 'json' ? toJson(comparison) : await puckerComparisonToText(comparison, text),
    );
  } else {
    const report = await puckerReport(inputs[0]);
    if (map !== undefined) {
      const { stitches, designMeasures } = vetting;
      const shown = { stitches, bounds: designMeasures.bounds, maps: risks[0].maps, report };
      const svg = await wrinkleMap(shown, { title: basename(file.path), units: args.units });
      await writePicture(svg, { out: map, force }, io);
    }
    await output.write(
      args.format === 'json' ? toJson(report) : await puckerToText(report, text, args.objects),
    );
  }
  await output.finish();
  return EXIT.clean;
};
