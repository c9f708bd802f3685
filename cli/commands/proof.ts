import { basename } from 'node:path';
import { factsOf } from '../../lib/index.js';
import { fullShop } from '../../lib/pipeline.js';
import {
  advisedCaption,
  colorNamed,
  ownColors,
  type ProofView,
  presentCaption,
  proofOf,
  proofPage,
  proofPng,
  proofSvg,
} from '../../lib/report/index.js';
import { withUnderlay } from '../../lib/rework/index.js';
import { noStitches, wrongEnding } from '../bad-argument.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { print } from '../io.js';
import { underNotice, WORKING_OUT, writeOut } from '../output.js';
import { openDesign, settingsOf } from '../settings.js';
import { conditionsRequest } from '../setup-options.js';
import { keepThreads, threadsFor } from '../threads.js';

const FORMS = { svg: proofSvg, png: proofPng, html: proofPage } as const;

/** `lieflat proof`: what the customer will get, as a picture at true size. */
export const proof: Handler<ArgsOf<'proof'>> = async (args, io) => {
  const { out, units, force } = args;
  const ending = /\.(svg|png|html?)$/i.exec(out)?.[1].toLowerCase();
  if (ending === undefined) throw wrongEnding('-o', out, '.png, .svg or .html');
  const form = FORMS[ending === 'htm' ? 'html' : (ending as keyof typeof FORMS)];
  const color = args['garment-color'];
  const request = conditionsRequest(args, args.stack);
  const { shop: own, place, hoop } = await settingsOf(args, io);
  const shop = fullShop(own);
  const { file, budget } = await openDesign(io, args.words[0]);
  const vetting = shop.vet(file.design, { place, hoop, file: factsOf(file), budget });
  const { stitches, designMeasures } = vetting;
  if (stitches.count === 0) throw noStitches(file.path);
  const garment = color === undefined ? null : colorNamed(color, ownColors(shop.figures.threadColors));
  const threads = threadsFor(args.threads, shop.figures, file.sha256);
  await keepThreads(args, async () => file, io);
  const reader = { units, detail: 'full' } as const;
  const views: ProofView[] =
    request === null
      ? [{ stitches, maps: null, caption: [] }]
      : await underNotice(WORKING_OUT, io, async () => {
          const now = shop.conditions(request);
          const advice = shop.advise(vetting, { ...request, stack: undefined, hoop });
          const { recommended: plan } = shop.adviseReport(factsOf(file), advice, vetting.set);
          const sewn = withUnderlay(vetting, new Map(plan.underlay.map(({ object, to }) => [object, to])));
          const then = { ...now, stack: plan.stack };
          const present = shop.mappedRisk(vetting, now);
          const advised = shop.mappedRisk({ ...sewn, hoop, budget }, then);
          return [
            {
              stitches,
              maps: present.maps,
              caption: presentCaption(present.risk, now, shop.catalogue, reader),
            },
            {
              stitches: sewn.stitches,
              maps: advised.maps,
              caption: advisedCaption(advised.risk, plan, now, reader),
            },
          ];
        });
  if (threads.length === 0)
    await print(
      io.stderr,
      'lieflat: the thread colors are stand-ins: a stitch file holds none; give --threads "navy, white"\n',
    );
  const made = proofOf({ ...designMeasures, name: basename(file.path), views, threads, garment }, reader);
  await writeOut(out, await form(made), force, io);
  return EXIT.clean;
};
