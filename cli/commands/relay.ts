import { factsOf, type JsonReports, type LaidUnderlay, toJson } from '../../lib/index.js';
import { fullShop } from '../../lib/pipeline.js';
import { relayToText } from '../../lib/report/index.js';
import { badArgument, noStitches } from '../bad-argument.js';
import { EXIT, type Handler, type TypedWords } from '../command.js';
import { goodsRequest, type SetupOptions } from '../goods.js';
import { print } from '../io.js';
import { objectIds } from '../object-ids.js';
import type { Everywhere, PlacementOptions } from '../options.js';
import { formatToWrite, textOptions, underNotice, writeOut } from '../output.js';
import { keepForRewritten } from '../set-right.js';
import { openDesign, settingsOf } from '../settings.js';

interface RelayArgs extends TypedWords, Everywhere, SetupOptions, PlacementOptions {
  out?: string;
  objects?: string;
  to: LaidUnderlay | 'keep';
  compensate: boolean;
  'dry-run': boolean;
  format: 'text' | 'json';
  units: 'mm' | 'in';
  force: boolean;
}

/** `lieflat relay`: other underlay under satin columns, written as a new file, and what that changes. */
export const relay: Handler<RelayArgs> = async (args, io) => {
  const { out, to, compensate, force, units, 'dry-run': dry } = args;
  const format = out === undefined ? undefined : formatToWrite(out);
  if (out === undefined && !dry)
    throw badArgument(
      'relay needs a file to write',
      'write -o and a name that ends in .dst or .csv, or --dry-run to write nothing',
    );
  const objects = args.objects === undefined ? undefined : objectIds(args.objects);
  if (compensate && args.fabric === undefined)
    throw badArgument('--compensate needs a fabric', 'add --fabric and an id');
  if (to === 'keep' && !compensate)
    throw badArgument('--to keep changes nothing', 'add --compensate, or name the underlay to lay');
  const { shop: own, place, hoop } = await settingsOf(args, io);
  const shop = fullShop(own);
  const request = goodsRequest(args, args.stack);
  const conditions = request ? shop.conditions(request) : undefined;
  const { file, budget } = await openDesign(io, args.words[0]);
  const settings = { file: factsOf(file), place, hoop, budget };
  const { bytes, before, after, report } = await underNotice('relaying', io, () =>
    shop.relay(file.design, settings, { objects, to, compensate, format, conditions }),
  );
  if (before.stitches.count === 0) throw noStitches(file.path);
  const written = out !== undefined && !dry;
  if (written) {
    await writeOut(out, bytes, force, io);
    await keepForRewritten(args, io, { out, bytes }, after);
  }
  const text = await textOptions({ units, out: undefined, force }, io);
  await print(
    io.stdout,
    args.format === 'json'
      ? toJson({ ...report, out: written ? out : null } satisfies JsonReports['relay'])
      : await relayToText(report, text, written),
  );
  return EXIT.clean;
};
