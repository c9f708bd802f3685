import {
  compareReports,
  compareToText,
  readDesignFile,
  toJson,
  type VetReport,
  vetDesign,
} from '../../lib/index.js';
import { EXIT, type Handler, type Words } from '../command.js';
import { factsOf } from '../facts.js';
import type { Everywhere, Fit, Report } from '../options.js';
import { outputOf, textOptions } from '../output.js';
import { pathFrom, settingsOf } from '../settings.js';

interface CompareArgs extends Words, Everywhere, Fit, Report {
  format: 'text' | 'json';
}

/** `lieflat compare`: both designs vetted by the same measure, then laid side by side. */
export const compare: Handler<CompareArgs> = async (args, io) => {
  const settings = await settingsOf(args, io);
  const paths = args.words.map((word) => pathFrom(io, word));
  const reports: VetReport[] = [];
  for (const path of paths) {
    const file = await readDesignFile(path);
    reports.push(vetDesign(file.design, { ...settings, file: factsOf(file) }).report);
  }
  const result = await compareReports(reports[0], reports[1]);
  const output = outputOf(args, io, paths);
  await output.write(
    args.format === 'json' ? toJson(result) : compareToText(result, await textOptions(args, io)),
  );
  await output.finish();
  return EXIT.clean;
};
