/** Graded cards that come back: rows for the shop's log of sew-outs, beside the order. */
import { type JsonReports, LieflatError, type Shop } from '../../lib/index.js';
import { fileState, pathIn, readBytes, writeFileSafely } from '../../lib/io/index.js';
import { readGradedCards, type SewnOrderLine } from '../../lib/order/index.js';
import { fullShop } from '../../lib/pipeline.js';
import { gradedCardsLog, orderWords } from '../../lib/report/index.js';
import { EXIT } from '../command.js';
import { inFile } from '../error-lines.js';
import { type Io, print } from '../io.js';
import { pathFrom } from '../settings.js';
import { sayFault } from './asked-lines.js';

const LOG = 'sew-outs.csv';

/** Adds the grades to the log in the folder of the order; a row that is there already is not added again. */
export async function takeGrades(name: string, outDir: string, shop: Shop, io: Io): Promise<number> {
  const path = pathFrom(io, name);
  io.inputs?.push(path);
  const sewn = await sewnLines(outDir);
  const { rows, faults } = await inFile(name, async () => readGradedCards(await readBytes(path, io), sewn));
  const log = pathIn(outDir, LOG);
  const before = (await fileState(log)) ? new TextDecoder().decode(await readBytes(log, io)) : '';
  // A log that cannot be read would not be one with more rows either.
  if (before !== '') await inFile(LOG, () => fullShop(shop).readSewOuts(new TextEncoder().encode(before)));
  const { text, added } = gradedCardsLog(before, rows);
  if (added > 0) await writeFileSafely(log, text, { force: true, inputs: io.inputs, within: outDir });
  for (const fault of faults) await sayFault(name, fault, io);
  await print(io.stdout, `${orderWords.logged({ rows: added, log: LOG })}\n`);
  return faults.length > 0 ? EXIT.unable : EXIT.clean;
}

async function sewnLines(outDir: string): Promise<SewnOrderLine[]> {
  const path = pathIn(outDir, 'order.json');
  const text = new TextDecoder().decode(await readBytes(path));
  const report = parsed(text);
  if (report?.schema !== 'lieflat/order@1')
    throw new LieflatError({
      code: 'undecodable',
      place: path,
      what: 'it is not the report of an order',
      todo: 'give the folder that lieflat order wrote with --out-dir',
    });
  const stackOf = new Map(
    report.setups.flatMap(({ lines, stackText }) => lines.map((line) => [line, stackText])),
  );
  return report.lines.map(({ line, order, sewn, fabric }) => ({
    line,
    order,
    sewn,
    fabric,
    stackText: stackOf.get(line)!,
  }));
}

function parsed(text: string): JsonReports['order'] | null {
  try {
    return JSON.parse(text) as JsonReports['order'];
  } catch {
    return null;
  }
}
