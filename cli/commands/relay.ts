import { fullShop } from '../../lib/pipeline.js';
import { badArgument } from '../bad-argument.js';
import { aloneIn, eachFile } from '../batch/each-file.js';
import { stitchNameOf } from '../batch/made-names.js';
import { boundsOf } from '../budget.js';
import type { Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { objectIds } from '../object-ids.js';
import { formatToWrite, lookOf } from '../output.js';
import { settingsOf } from '../settings.js';
import { conditionsRequest } from '../setup-options.js';

/** `lieflat relay`: other underlay under satin columns, written as new files, and what that changes. */
export const relay: Handler<ArgsOf<'relay'>> = async (args, io) => {
  const { out = null, to, compensate, format, debug, 'dry-run': dry } = args;
  if (out !== null) formatToWrite(out);
  const alone = await aloneIn(args.words, io);
  if (alone !== null && out === null && !dry)
    throw badArgument(
      'relay needs a file to write',
      'write -o and a name that ends in .dst or .csv, or --dry-run to write nothing',
    );
  const objects = args.objects === undefined ? undefined : objectIds(args.objects);
  if (compensate && args.fabric === undefined)
    throw badArgument('--compensate needs a fabric', 'add --fabric and an id');
  if (to === 'keep' && !compensate)
    throw badArgument('--to keep changes nothing', 'add --compensate, or name the underlay to lay');
  const { shop, ...fit } = await settingsOf(args, io);
  const request = conditionsRequest(args, args.stack);
  const conditions = request && fullShop(shop).conditions(request);
  const look = lookOf({ ...args, out: undefined }, io);
  const wish = { objects, to, compensate };
  const setup = { figures: shop.figures, fit, wish, conditions, format, look, out, dry, ...boundsOf(io) };
  return eachFile(
    {
      alone,
      job: { name: 'relay', setup, debug },
      notice: 'relaying',
      nameOf: dry ? null : stitchNameOf,
      report: 'terminal',
      ofOne: [...(out === null ? [] : ['-o']), ...(objects === undefined ? [] : ['--objects'])],
    },
    args,
    io,
  );
};
