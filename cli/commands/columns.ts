import {
  columnsCsvHeader,
  columnsReport,
  columnsToCsvRecords,
  columnsToText,
  toJson,
  vetDesign,
} from '../../lib/index.js';
import { batchOf, readOne } from '../batch.js';
import { EXIT, type Handler, type Words } from '../command.js';
import { factsOf } from '../facts.js';
import { formatter } from '../formatter.js';
import { lengthMm } from '../lengths.js';
import type { Everywhere, Report } from '../options.js';
import { outputOf, textOptions } from '../output.js';
import { shopOf } from '../settings.js';

interface ColumnsArgs extends Words, Everywhere, Report {
  over?: string;
  format: 'text' | 'json' | 'csv';
}

/** `lieflat columns`: the satin columns of every file, widest first. */
export const columns: Handler<ColumnsArgs> = async (args, io) => {
  const overMm = args.over === undefined ? null : lengthMm('over', args.over);
  const shop = await shopOf(args, io);
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
    open = await output.write(format.one(columnsReport(vetting, overMm)));
  }
  if (open) await output.write(format.after);
  await output.finish();
  return batch.failed ? EXIT.unable : EXIT.clean;
};
