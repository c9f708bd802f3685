import type { CardLanguage, PaperName } from '../../lib/report/index.js';
import { badArgument, wrongEnding } from '../bad-argument.js';
import { aloneIn, eachFile } from '../batch/each-file.js';
import { pageNameOf } from '../batch/made-names.js';
import type { Handler } from '../command.js';
import type { Many, Report } from '../options.js';
import { WORKING_OUT } from '../output.js';
import { type PlanArgs, planSetup } from '../to-plan.js';

interface CardArgs extends PlanArgs, Many, Report {
  paper: PaperName;
  language: CardLanguage;
  cost: boolean;
}

/** `lieflat card`: the printed page that goes to the machine operator, one a design. */
export const card: Handler<CardArgs> = async (args, io) => {
  const { out = null, units, paper, language, cost, debug } = args;
  const alone = await aloneIn(args.words, io);
  if (alone !== null && out === null)
    throw badArgument('card needs a page to write', 'write -o and a name that ends in .html');
  if (out !== null && !/\.html?$/i.test(out)) throw wrongEnding('-o', out, '.html');
  const setup = { ...(await planSetup(args, io)), units, paper, language, cost, out };
  return eachFile(
    {
      alone,
      job: { name: 'card', setup, debug },
      notice: WORKING_OUT,
      nameOf: pageNameOf,
      report: null,
      ofOne: out === null ? [] : ['-o'],
    },
    { ...args, format: 'html' },
    io,
  );
};
