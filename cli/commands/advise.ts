import { aloneIn, eachFile } from '../batch/each-file.js';
import { pageNameOf } from '../batch/made-names.js';
import type { Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { lookOf, WORKING_OUT } from '../output.js';
import { planSetup } from '../to-plan.js';

/** `lieflat advise`: the plans for a design on one fabric, or for several. */
export const advise: Handler<ArgsOf<'advise'>> = async (args, io) => {
  const { format, all, debug, out } = args;
  const alone = await aloneIn(args.words, io);
  const pages = alone === null && format === 'html';
  const setup = { ...(await planSetup(args, io)), format, all, pages, look: lookOf(args, io) };
  return eachFile(
    {
      alone,
      job: { name: 'advise', setup, debug },
      notice: WORKING_OUT,
      nameOf: pages ? pageNameOf : null,
      report: pages ? null : 'out',
      ofOne: pages && out !== undefined ? ['-o'] : [],
    },
    args,
    io,
  );
};
