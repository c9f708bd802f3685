import { basename } from 'node:path';
import { factsOf } from '../../lib/index.js';
import { fullShop } from '../../lib/pipeline.js';
import { type Drawing, type DrawOptions, drawDesign, puckerReport } from '../../lib/report/index.js';
import { badArgument } from '../bad-argument.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { underNotice, WORKING_OUT } from '../output.js';
import { pictureKind, pixelsWide, writePicture } from '../picture.js';
import { openDesign, shopInForce } from '../settings.js';
import { conditionsRequest } from '../setup-options.js';

/** `lieflat draw`: the stitches to scale as a picture. */
export const draw: Handler<ArgsOf<'draw'>> = async (args, io) => {
  const { out, by, pixels, units, force } = args;
  const kind = pictureKind('-o', out);
  if (pixels !== undefined && kind !== 'png') {
    throw badArgument('--pixels is only for .png', 'leave it out: an .svg has no fixed size');
  }
  const wide = pixels === undefined ? undefined : pixelsWide(pixels);
  const request = conditionsRequest(args, args.stack);
  if (by === 'risk' && request === null) {
    throw badArgument('--by risk needs a fabric', 'add --fabric and an id');
  }
  const { file, budget } = await openDesign(io, args.words[0]);
  const facts = factsOf(file);
  const shop = fullShop(await shopInForce(args, io));
  let drawing: Drawing;
  let on: DrawOptions['on'];
  if (by === 'risk' && request !== null) {
    const conditions = shop.conditions(request);
    const vetting = shop.vet(file.design, { file: facts, budget });
    const [risk] = await underNotice(WORKING_OUT, io, () => shop.risks(vetting, [conditions]));
    const report = await puckerReport({ ...shop, file: facts, measures: vetting.measures, risk, conditions });
    drawing = { ...vetting, grades: new Map(report.objects.map(({ id, risk }) => [id, risk.grade])) };
    on = report.conditions;
  } else drawing = shop.vet(file.design, { file: facts, budget });
  const svg = await drawDesign(drawing, { by, title: basename(file.path), units, on });
  await writePicture(svg, { out, pixels: wide, force }, io);
  return EXIT.clean;
};
