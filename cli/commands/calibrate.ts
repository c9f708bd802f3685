import { dirname, resolve } from 'node:path';
import { type Fault, type RowFault, unsewnRows } from '../../lib/calibrate/index.js';
import { LieflatError, penetrations, toJson } from '../../lib/index.js';
import { readBytes } from '../../lib/io/index.js';
import { type FullShop, fullShop } from '../../lib/pipeline.js';
import { withCalibration } from '../../lib/profile/index.js';
import {
  calibrateReport,
  calibrateToText,
  type RowFaultReport,
  rowFaultReport,
} from '../../lib/report/index.js';
import type { SewnDesign } from '../../lib/rework/index.js';
import { budgetOf, USUAL_LIMITS } from '../budget.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { errorLine, inFile } from '../error-lines.js';
import { type Io, print } from '../io.js';
import { textOptions, underNotice, writeOut } from '../output.js';
import { openDesign, pathFrom, profileInForce } from '../settings.js';

/**
 * `lieflat calibrate`: fits the model to a shop's own graded and measured sew-outs and writes the profile in force with the result in it. Rows that are
 * wrong are reported and the rest go on.
 */
export const calibrate: Handler<ArgsOf<'calibrate'>> = async (args, io) => {
  const { out, force, format } = args;
  const name = args.words[0];
  const path = pathFrom(io, name);
  const profile = await profileInForce(args, io);
  const shop = fullShop(profile.shop);
  const log = await inFile(name, async () => shop.readSewOuts(await readBytes(path, io)));
  const { designs, unread } = await designsOf(
    new Set(log.rows.map(({ file }) => file)),
    dirname(path),
    shop,
    io,
  );
  const faults: RowFault[] = [
    ...log.faults,
    ...log.rows.flatMap(({ line, file }): RowFault[] =>
      unread.has(file) ? [{ line, ...unread.get(file)! }] : [],
    ),
    ...unsewnRows({ rows: log.rows, designs }),
  ].sort((a, b) => a.line - b.line);
  await reportFaults(name, faults.map(rowFaultReport), io);
  const wrong = new Set(faults.map(({ line }) => line));
  const rows = log.rows.filter(({ line }) => !wrong.has(line));
  const calibration = await underNotice('working out what the sew-outs say', io, () =>
    shop.calibrate(rows, designs, name, budgetOf(path, io.limits ?? USUAL_LIMITS)),
  );
  const report = await calibrateReport({ path: name, log: { ...log, faults }, calibration });
  await writeOut(out, await withCalibration(profile.text, report.calibration), force, io);
  await print(
    io.stdout,
    format === 'json'
      ? toJson(report)
      : await calibrateToText(report, await textOptions({ units: 'mm', out: undefined, force }, io), args),
  );
  return faults.length > 0 ? EXIT.unable : EXIT.clean;
};

/** Every design once, from where the log lies; what is in the way of one is told of each of its rows. */
async function designsOf(files: ReadonlySet<string>, folder: string, shop: FullShop, io: Io) {
  const designs = new Map<string, SewnDesign>();
  const unread = new Map<string, Fault>();
  for (const file of files) {
    const path = resolve(folder, file);
    io.inputs?.push(path);
    try {
      const { file: read, budget } = await openDesign(io, path);
      const stitches = penetrations(read.design);
      if (stitches.count > 0)
        designs.set(file, { stitches, objects: budget.run(() => shop.objectsOf(stitches, read)) });
      else unread.set(file, { code: 'design-empty', params: { file } });
    } catch (error) {
      if (!(error instanceof LieflatError)) throw error;
      unread.set(file, {
        code: 'design-unreadable',
        params: { file, what: error.what, todo: error.todo },
      });
    }
  }
  return { designs, unread };
}

/** Every fault once, at the first row that has it: a design that cannot be read may stand in many. */
async function reportFaults(name: string, faults: readonly RowFaultReport[], io: Io): Promise<void> {
  const alike = new Map<string, RowFaultReport & { others: number }>();
  for (const fault of faults) {
    const known = alike.get(fault.what);
    if (known) known.others++;
    else alike.set(fault.what, { ...fault, others: 0 });
  }
  for (const { line, what, todo, others } of alike.values()) {
    const more = others === 0 ? '' : ` and ${others} more`;
    const error = new LieflatError({
      code: 'undecodable',
      place: `${name}: line ${line}${more}`,
      what,
      todo,
    });
    await print(io.stderr, errorLine(error));
  }
}
