import {
  columnsCsvHeader,
  columnsReport,
  columnsToCsvRecords,
  columnsToText,
  toJson,
  vetDesign,
} from '../../lib/index.js';
import { batchOf, readOne } from '../batch.js';
import { EXIT, type Handler } from '../command.js';
import { factsOf } from '../facts.js';
import { formatter } from '../formatter.js';
import { lengthMm } from '../lengths.js';
import { outputOf, textOptions } from '../output.js';
import { shopOf } from '../settings.js';

/** `lieflat columns`: the satin columns of every file, widest first. */
export const columns: Handler = async (args, io) => {
  const over = args.value('over');
  const overMm = over === undefined ? null : lengthMm('over', over);
  const shop = await shopOf(args, io);
  const text = await textOptions(args, io);
  const batch = await batchOf(args.words, io);
  const output = outputOf(args, io, batch.files);
  const format = formatter(args.choice('format', ['text', 'json', 'csv'] as const), batch.files.length, {
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
