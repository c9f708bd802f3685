import { relative } from 'node:path';
import { ratesOf } from '../../lib/advice/index.js';
import { type JsonReports, ORDER_COLUMNS, printable, toJson } from '../../lib/index.js';
import type { OrderLookup } from '../../lib/order/index.js';
import { fullShop } from '../../lib/pipeline.js';
import {
  colorsNamed,
  orderPage,
  orderReport,
  orderToText,
  orderWords,
  ownColors,
  stackOfCards,
  suppliesCsv,
  USUAL_PAPER,
} from '../../lib/report/index.js';
import { badArgument } from '../bad-argument.js';
import { progressOf } from '../batch/progress.js';
import { workersFor } from '../batch/worker-pool.js';
import { boundsOf } from '../budget.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { print } from '../io.js';
import { type AskedOrder, askedLines, madeNames, sayFault } from '../order/asked-lines.js';
import { Crew } from '../order/crew.js';
import { takeGrades } from '../order/graded.js';
import { namesOf, OrderFolder } from '../order/order-folder.js';
import { type DoneWork, threadsFor, workedOrder } from '../order/worked-order.js';
import { textOptions, WORKING_OUT } from '../output.js';
import { profilePath, settingsOf } from '../settings.js';
import { numberOf } from '../setup-options.js';
import { QUANTITY } from '../to-plan.js';

const PARTS = ['relaid', 'cards', 'proofs'];
const OUTPUTS = ['order.html', 'cards.html', 'supplies.csv', 'order.json'];
/** Markup of pictures that a page holds; those beyond it are named. */
const MOST_PICTURES = 6_000_000;

/** `lieflat order`: a whole order, from its table to the files, cards and supplies. */
export const order: Handler<ArgsOf<'order'>> = async (args, io) => {
  const { outDir } = io;
  if (outDir === undefined)
    throw badArgument(
      'order needs a folder to write into',
      'write --out-dir and a folder, as --out-dir done',
    );
  const inForce = await profilePath(args, io);
  if (inForce !== null) io.inputs?.push(inForce);
  const { shop: own, place, hoop } = await settingsOf(args, io);
  if (args.grades !== undefined) {
    if (args.words.length > 0)
      throw badArgument('--grades goes with the folder of an order alone', 'leave the files out');
    return takeGrades(args.grades, outDir, own, io);
  }
  if (args.words.length === 0)
    throw badArgument(
      'order needs an order',
      'give a table, as order.csv, or a folder or files with --fabric',
    );
  const shop = fullShop(own);
  const lookup: OrderLookup = {
    catalogue: shop.catalogue,
    places: own.figures.places,
    checkColors: (list) => void colorsNamed(list, ownColors(own.figures.threadColors)),
    garment: args.fabric,
    quantity: numberOf('quantity', args.quantity, QUANTITY),
    stack: args.stack,
    ...(place && { place }),
  };
  const asked = await askedLines(args.words, lookup, io);
  if (asked.unread.length > 0)
    await print(
      io.stderr,
      `lieflat: note: ${printable(orderWords.unread({ heads: asked.unread, read: ORDER_COLUMNS }))}\n`,
    );
  const faults = [...asked.faults];
  for (const fault of faults) await sayFault(asked.table, fault, io);
  // What was named is not there, as has been said: an order of nothing is none.
  if (asked.lines.length + faults.length === 0 && asked.missing > 0) return EXIT.unable;
  const folder = await OrderFolder.open(outDir, PARTS, args.force, io);
  await folder.refuseOthers(OUTPUTS);
  const { units, language, debug } = args;
  const paper = args.paper ?? own.figures.paper ?? USUAL_PAPER;
  const job = { figures: own.figures, hoop, units, paper, language, ...boundsOf(io) };
  const progress = progressOf(io, { total: asked.lines.length, writesOut: true, notice: WORKING_OUT });
  const threads =
    args.workers === undefined
      ? threadsFor(asked.lines.length)
      : workersFor(args.workers, asked.lines.length, true);
  const crew = await Crew.of({ name: 'order', setup: job, debug }, threads);
  let done: DoneWork[];
  try {
    await progress.begin();
    const fault = async (one: (typeof faults)[number], trace = '') => {
      faults.push(one);
      await progress.clear();
      await sayFault(asked.table, one, io);
      if (trace !== '') await print(io.stderr, trace);
    };
    done = await workedOrder({ shop, job, asked, folder, crew, progress, fault }, io);
  } catch (error) {
    await folder.close();
    throw error;
  } finally {
    await progress.clear();
    await crew.end();
  }
  const report = orderReport(
    done.map((one) => ({ ...one, path: relative(outDir, one.path) })),
    faults.toSorted((a, b) => a.line - b.line),
    ratesOf(own.figures),
    shop.catalogue,
  );
  const possible = [...madeNames(asked.lines).values()].flatMap((names) => Object.values(names));
  await writeAllOf(report, folder, args);
  await folder.finish(new Set([...OUTPUTS, ...done.flatMap(({ worked }) => namesOf(worked))]), possible);
  await print(
    io.stdout,
    args.format === 'json'
      ? toJson(report)
      : orderToText(report, {
          ...(await textOptions({ units, out: undefined, force: args.force }, io)),
          folder: relative(io.cwd, outDir) || '.',
        }),
  );
  return exitOf(report, asked);
};

/** Everything that all lines are in. */
async function writeAllOf(
  report: JsonReports['order'],
  folder: OrderFolder,
  args: ArgsOf<'order'>,
): Promise<void> {
  const decoder = new TextDecoder();
  const pictures = new Map<number, string>();
  const cards: string[] = [];
  let room = MOST_PICTURES;
  for (const { line, card, proof } of report.lines) {
    cards.push(decoder.decode(await folder.read(card)));
    const picture = decoder.decode(await folder.read(proof));
    room -= picture.length;
    if (room >= 0) pictures.set(line, picture);
  }
  await folder.write([
    { name: 'order.html', content: orderPage(report, pictures, args.units) },
    {
      name: 'cards.html',
      content: stackOfCards(cards, orderWords.cardsTitle({ cards: cards.length }), args.language),
    },
    { name: 'supplies.csv', content: suppliesCsv(report) },
    { name: 'order.json', content: toJson(report) },
  ]);
}

function exitOf({ errors, lines }: JsonReports['order'], { missing }: AskedOrder): number {
  if (errors.length + missing > 0) return EXIT.unable;
  return lines.some(({ verdict }) => verdict === 'fail') ? EXIT.found : EXIT.clean;
}
