import { basename } from 'node:path';
import { factsOf, type ResewMode, toJson, type Units } from '../../lib/index.js';
import { fullShop } from '../../lib/pipeline.js';
import { coverMap, resewToText } from '../../lib/report/index.js';
import type { ResewRequest } from '../../lib/rework/index.js';
import { badArgument, noStitches } from '../bad-argument.js';
import { EXIT, type Handler, type TypedWords } from '../command.js';
import { goodsRequest, type SetupOptions } from '../goods.js';
import { print } from '../io.js';
import { growth, lengthMm, moveMm } from '../lengths.js';
import { objectIds } from '../object-ids.js';
import type { Everywhere, PlacementOptions } from '../options.js';
import { formatToWrite, textOptions, underNotice, writeOut } from '../output.js';
import { pictureKind, writePicture } from '../picture.js';
import { keepForRewritten } from '../set-right.js';
import { openDesign, settingsOf } from '../settings.js';

interface ResewArgs extends TypedWords, Everywhere, PlacementOptions, SetupOptions {
  out?: string;
  mode: ResewMode | undefined;
  objects?: string;
  scale?: string;
  x?: string;
  y?: string;
  find: boolean;
  slack?: string;
  offset?: string;
  map?: string;
  format: 'text' | 'json';
  'dry-run': boolean;
  units: Units;
  force: boolean;
}

/** What the trade usually enlarges by; common practice, no source. */
const USUAL = '5%';

/** `lieflat resew`: a design made larger, to be sewn again over stitches that were picked out, and which old holes it hides. */
export const resew: Handler<ResewArgs> = async (args, io) => {
  const { out, map, force, units, thread } = args;
  const writes = out !== undefined && !args['dry-run'];
  const format = out === undefined ? 'dst' : formatToWrite(out);
  if (out === undefined && map === undefined && !args['dry-run'])
    throw badArgument(
      'resew needs a file to write',
      'write -o and a name that ends in .dst or .csv, or --dry-run for the report alone',
    );
  if (map !== undefined) pictureKind('--map', map);
  const wish = wishOf(args);
  const { shop: own, ...fit } = await settingsOf(args, io);
  const shop = fullShop(own);
  // the thread decides what is covered, with goods or without
  const request = goodsRequest(args.fabric === undefined ? { ...args, thread: undefined } : args, args.stack);
  const goods = request && shop.conditions(request);
  const { file, budget } = await openDesign(io, args.words[0]);
  const asked = { ...fit, file: factsOf(file), budget };
  const before = shop.vet(file.design, asked);
  if (before.stitches.count === 0) throw noStitches(file.path);
  const resewn = await underNotice('looking at every needle hole', io, () =>
    shop.resew(before, { ...wish, thread, format }, asked, goods),
  );
  if (writes) {
    await writeOut(out, resewn.bytes, force, io);
    await keepForRewritten(args, io, { out, bytes: resewn.bytes }, resewn.after);
  }
  if (map !== undefined)
    await writePicture(
      await coverMap(resewn.resewing, { title: basename(file.path), units }),
      { out: map, force },
      io,
    );
  const { report } = resewn;
  await print(
    io.stdout,
    args.format === 'json'
      ? toJson(report)
      : await resewToText(report, await textOptions({ ...args, out: undefined }, io)),
  );
  return report.holes.exposed > 0 ? EXIT.found : EXIT.clean;
};

function wishOf(args: ResewArgs): Omit<ResewRequest, 'thread'> {
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
