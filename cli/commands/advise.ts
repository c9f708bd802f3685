import { basename } from 'node:path';
import {
  adviseOn,
  advisePage,
  adviseReportOf,
  adviseToText,
  readDesignFile,
  toJson,
  vetDesign,
} from '../../lib/index.js';
import { EXIT, type Handler, type Words } from '../command.js';
import { factsOf } from '../facts.js';
import { type Goods, goodsRequest } from '../goods.js';
import type { Everywhere, Fit, Report } from '../options.js';
import { outputOf, textOptions } from '../output.js';
import { refuseWithoutStitches } from '../refuse-without-stitches.js';
import { pathFrom, settingsOf } from '../settings.js';

interface AdviseArgs extends Words, Everywhere, Fit, Report, Omit<Goods, 'fabric'> {
  fabric: string;
  format: 'text' | 'json' | 'html';
  all: boolean;
}

/** `lieflat advise`: the plans for one design on one fabric. */
export const advise: Handler<AdviseArgs> = async (args, io) => {
  const settings = await settingsOf(args, io);
  const { shop, hoop } = settings;
  // With a fabric there always is a request.
  const wish = { ...goodsRequest(args, args.stack)!, ...(hoop && { hoop }) };
  const file = await readDesignFile(pathFrom(io, args.words[0]));
  const output = outputOf(args, io, [file.path]);
  const vetting = vetDesign(file.design, { ...settings, file: factsOf(file) });
  refuseWithoutStitches(vetting, file.path);
  const advice = await adviseOn(vetting, wish, shop);
  const report = await adviseReportOf(factsOf(file), advice, shop);
  const written = {
    text: async () => adviseToText(report, await textOptions(args, io), args.all),
    json: async () => toJson(report),
    html: async () => advisePage(report, { title: basename(file.path), units: args.units }),
  };
  await output.write(await written[args.format]());
  await output.finish();
  return EXIT.clean;
};
