import { fullShop } from '../../lib/pipeline.js';
import type { ResewRequest } from '../../lib/rework/index.js';
import { badArgument } from '../bad-argument.js';
import { aloneIn, eachFile } from '../batch/each-file.js';
import { stitchNameOf } from '../batch/made-names.js';
import { boundsOf } from '../budget.js';
import type { Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { growth, lengthMm, moveMm } from '../lengths.js';
import { objectIds } from '../object-ids.js';
import { formatToWrite, lookOf } from '../output.js';
import { pictureKind, writePicture } from '../picture.js';
import { settingsOf } from '../settings.js';
import { conditionsRequest } from '../setup-options.js';

/** What the trade usually enlarges by; common practice, no source. */
const USUAL = '5%';

/** `lieflat resew`: designs made larger, to be sewn again over stitches that were picked out, and which old holes they hide. */
export const resew: Handler<ArgsOf<'resew'>> = async (args, io) => {
  const { out = null, map, force, thread, format, debug } = args;
  if (out !== null) formatToWrite(out);
  const alone = await aloneIn(args.words, io);
  if (alone !== null && out === null && map === undefined && !args['dry-run'])
    throw badArgument(
      'resew needs a file to write',
      'write -o and a name that ends in .dst or .csv, or --dry-run for the report alone',
    );
  if (map !== undefined) pictureKind('--map', map);
  // With a map alone the one design is looked at, and not written.
  const dry = args['dry-run'] || (alone !== null && out === null);
  const wish = { ...wishOf(args), thread };
  const { shop, ...fit } = await settingsOf(args, io);
  // The thread decides what is covered, with fabric or without.
  const request = conditionsRequest(
    args.fabric === undefined ? { ...args, thread: undefined } : args,
    args.stack,
  );
  const conditions = request && fullShop(shop).conditions(request);
  const look = lookOf({ ...args, out: undefined }, io);
  const setup = {
    ...{ figures: shop.figures, fit, wish, conditions, format, look, out, dry, map: map !== undefined },
    ...boundsOf(io),
  };
  return eachFile(
    {
      alone,
      job: { name: 'resew', setup, debug },
      notice: 'looking at every needle hole',
      nameOf: dry ? null : stitchNameOf,
      report: 'terminal',
      ofOne: [
        ...(out === null ? [] : ['-o']),
        ...(map === undefined ? [] : ['--map']),
        ...(args.objects === undefined ? [] : ['--objects']),
      ],
      beside: async ({ picture }) => {
        if (map !== undefined && picture !== undefined) await writePicture(picture, { out: map, force }, io);
      },
    },
    args,
    io,
  );
};

function wishOf(args: ArgsOf<'resew'>): Omit<ResewRequest, 'thread'> {
  const { mode, scale, x, y, find, slack, offset, objects, units } = args;
  const apart = x !== undefined || y !== undefined;
  if (apart && (x === undefined || y === undefined))
    throw badArgument('--x and --y go together', 'give both, or --scale for the same in both directions');
  if (apart && scale !== undefined)
    throw badArgument('--scale says the same as --x and --y', 'give one or the other');
  if (find && (apart || scale !== undefined))
    throw badArgument('--find looks for the scale itself', 'leave out --scale, --x and --y');
  const growX = growth(apart ? 'x' : 'scale', x ?? scale ?? USUAL);
  const growY = growth(apart ? 'y' : 'scale', y ?? scale ?? USUAL);
  const move = offset === undefined ? { dx: 0, dy: 0 } : moveMm('offset', offset, units);
  return {
    mode: mode ?? null,
    by: find ? { ...move, find } : { ...move, x: growX, y: growY },
    offsetGiven: offset !== undefined,
    slackMm: slack === undefined ? 0 : lengthMm('slack', slack),
    ...(objects === undefined ? {} : { objects: objectIds(objects) }),
  };
}
