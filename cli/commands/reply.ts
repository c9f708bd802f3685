import { factsOf, toJson, type VetReport } from '../../lib/index.js';
import { fullShop } from '../../lib/pipeline.js';
import { replyPage, replyReport, replyToMail, USUAL_PAPER } from '../../lib/report/index.js';
import { badArgument, noStitches } from '../bad-argument.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { outputOf, underNotice, WORKING_OUT } from '../output.js';
import { openDesign, settingsOf } from '../settings.js';
import { conditionsRequest } from '../setup-options.js';
import { keepThreads, threadsFor } from '../threads.js';

/** `lieflat reply`: what the digitizer must fix, as a mail or as one page. */
export const reply: Handler<ArgsOf<'reply'>> = async (args, io) => {
  const { units, relaid } = args;
  const request = conditionsRequest(args, args.stack);
  const { shop: own, place, hoop } = await settingsOf(args, io);
  const shop = fullShop(own);
  const { file, budget } = await openDesign(io, args.words[0]);
  const facts = factsOf(file);
  const settings = { file: facts, place, hoop, budget };
  const threads = threadsFor(args.threads, shop.figures, file.sha256);
  await keepThreads(args, async () => file, io);
  const conditions = request && shop.conditions(request);
  const checked = (design: typeof file.design, of: typeof settings) =>
    conditions ? shop.vetOn(design, of, conditions) : shop.vet(design, of);
  const report = await underNotice(WORKING_OUT, io, async () => {
    const vetting = checked(file.design, settings);
    if (vetting.stitches.count === 0) throw noStitches(file.path);
    const after = relaid === undefined ? await relay(settings, vetting.report) : await given(relaid);
    return { vetting, reply: replyReport({ report: vetting.report, relaid: after, threads }) };
  });

  /** What relaying would do; nothing where no column calls for it. */
  async function relay(of: typeof settings, { findings }: VetReport) {
    const fixes = findings.flatMap(({ fix }) => (fix?.do === 'relay' ? [fix] : []));
    if (fixes.length === 0) return null;
    const objects = fixes.flatMap((fix) => fix.objects);
    const made = await shop.relay(file.design, of, { objects, to: fixes[0].to });
    return { report: made.after.report, columns: made.report.objects.length, done: false };
  }

  async function given(word: string) {
    const { file: second, budget: left } = await openDesign(io, word);
    if (second.sha256 === file.sha256)
      throw badArgument('--relaid is the same file', 'name the file that relay wrote, or leave it out');
    const after = shop.vet(second.design, { ...settings, file: factsOf(second), budget: left });
    return { report: after.report, columns: null, done: true };
  }

  const output = outputOf(args, io);
  const { vetting } = report;
  const written = {
    text: () => replyToMail(report.reply, units),
    json: () => toJson(report.reply),
    html: () =>
      replyPage(report.reply, vetting, { units, paper: args.paper ?? shop.figures.paper ?? USUAL_PAPER }),
  };
  await output.write(written[args.format]());
  await output.finish();
  return EXIT.clean;
};
