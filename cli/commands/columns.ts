import {
  columnsCsvHeader,
  columnsReport,
  columnsToCsvRecords,
  columnsToText,
  foreseeColumns,
  goodsOf,
  toJson,
  vetDesign,
} from '../../lib/index.js';
import { batchOf, readOne } from '../batch.js';
import { EXIT, type Handler, type Words } from '../command.js';
import { factsOf } from '../facts.js';
import { formatter } from '../formatter.js';
import { type Goods, goodsRequest } from '../goods.js';
import { lengthMm } from '../lengths.js';
import type { Everywhere, Report } from '../options.js';
import { outputOf, textOptions } from '../output.js';
import { shopOf } from '../settings.js';

interface ColumnsArgs extends Words, Everywhere, Goods, Report {
  over?: string;
  format: 'text' | 'json' | 'csv';
}

/** `lieflat columns`: the satin columns of every file, widest first. */
export const columns: Handler<ColumnsArgs> = async (args, io) => {
  const overMm = args.over === undefined ? null : lengthMm('over', args.over);
  const shop = await shopOf(args, io);
  const request = goodsRequest(args, args.stack);
  const goods = request && (await goodsOf(request, shop));
  const text = await textOptions(args, io);
  const batch = await batchOf(args.words, io);
  const output = outputOf(args, io, batch.files);
  const format = formatter(args.format, batch.files.length, {
    text: (report) => columnsToText(report, text),
    json: toJson,
    csv: { header: columnsCsvHeader, records: columnsToCsvRecords },
  });
  let open = await output.write(format.before);
  for (const path of batch.files) {
    if (!open) break;
    const file = await readOne(path, batch, io);
    if (file === null) continue;
    const vetting = vetDesign(file.design, { file: factsOf(file), shop });
    const foreseen = goods && (await foreseeColumns(vetting, goods, shop));
    open = await output.write(await format.one(columnsReport(vetting, overMm, foreseen)));
  }
  if (open) await output.write(await format.after());
  await output.finish();
  return batch.failed ? EXIT.unable : EXIT.clean;
};
