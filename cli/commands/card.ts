import { USUAL_PAPER } from '../../lib/report/index.js';
import { badArgument, wrongEnding } from '../bad-argument.js';
import { aloneIn, eachFile } from '../batch/each-file.js';
import { pageNameOf } from '../batch/made-names.js';
import type { Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { WORKING_OUT } from '../output.js';
import { openDesign } from '../settings.js';
import { keepThreads, threadsFor } from '../threads.js';
import { planSetup } from '../to-plan.js';

/** `lieflat card`: the printed page that goes to the machine operator, one a design. */
export const card: Handler<ArgsOf<'card'>> = async (args, io) => {
  const { out = null, units, language, cost, debug, threads } = args;
  const alone = await aloneIn(args.words, io);
  if (alone !== null && out === null)
    throw badArgument('card needs a page to write', 'write -o and a name that ends in .html');
  if (out !== null && !/\.html?$/i.test(out)) throw wrongEnding('-o', out, '.html');
  const plan = await planSetup(args, io);
  const { order, customer, 'garment-color': garmentColor, due, remarks } = args;
  // How many are sewn is written down; nothing is priced on a card.
  const { quantity, ...wish } = plan.wish;
  const setup = {
    ...plan,
    wish,
    ...{ units, language, cost, out, threads },
    paper: args.paper ?? plan.figures.paper ?? USUAL_PAPER,
    job: { order, customer, quantity, garmentColor, due, remarks },
  };
  // A color that there is not is said before any work.
  threadsFor(threads, plan.figures, null);
  if (alone !== null) await keepThreads(args, async () => (await openDesign(io, args.words[0])).file, io);
  return eachFile(
    {
      alone,
      job: { name: 'card', setup, debug },
      notice: WORKING_OUT,
      nameOf: pageNameOf,
      report: null,
      ofOne: [...(out === null ? [] : ['-o']), ...(args['keep-threads'] ? ['--keep-threads'] : [])],
    },
    { ...args, format: 'html' },
    io,
  );
};
