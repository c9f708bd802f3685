import { type BatchSummary, batchSummaryToText, countToText, toJson } from '../../lib/index.js';
import { badArgument } from '../bad-argument.js';
import type { Io } from '../io.js';
import type { Report } from '../options.js';
import { inLook, lookOf, type PrintLook, writeOut } from '../output.js';

/** From more files than this on the summary is more than a line. */
const FEW_FILES = 10;

/** The summary as it stands under a report: the line that counts the files, with all the rest where they are many. */
export async function summaryText(summary: BatchSummary, look: PrintLook): Promise<string> {
  const options = await inLook(look);
  return isLong(summary) ? batchSummaryToText(summary, options) : countToText(summary, options);
}

/** Whether there is more to say of a batch than its reports do. */
export function isLong({ files }: BatchSummary): boolean {
  return files.vetted + files.unread + files.skipped > FEW_FILES;
}

/** Sets a summary in one of its forms. */
export type SummaryForm = (summary: BatchSummary) => string | Promise<string>;

/** The forms of a summary, by name and by the ending of a file's name. */
const summaryForms = ({ width, units }: PrintLook): Readonly<Record<string, SummaryForm>> => ({
  html: async (summary) => (await import('./pages.js')).batchSummaryPage(summary, units),
  json: toJson,
  txt: (summary) => batchSummaryToText(summary, { width, units }),
});

/**
 * The form that the name of a file asks for.
 *
 * @param option how the command line names the file
 * @param more forms of this command alone, by their endings
 * @throws LieflatError `bad-argument` for another ending
 */
export function summaryFormOf(
  name: string,
  option: string,
  args: Report,
  io: Io,
  more: Readonly<Record<string, SummaryForm>> = {},
): SummaryForm {
  const forms = { ...more, ...summaryForms(lookOf(args, io)) };
  const form = forms[/\.([a-z]+)$/i.exec(name)?.[1].toLowerCase() ?? ''];
  if (form) return form;
  const endings = Object.keys(forms).map((ending) => `.${ending}`);
  const [last] = endings.splice(-1);
  throw badArgument(
    `${option} cannot be ${name}`,
    `write a name that ends in ${endings.join(', ')} or ${last}`,
  );
}

/**
 * What puts the summary into a file, in the form that its name asks for.
 *
 * @throws LieflatError `bad-argument` for another name
 */
export function summaryFile(
  name: string,
  args: Report,
  io: Io,
  more: Readonly<Record<string, SummaryForm>>,
): (summary: BatchSummary) => Promise<void> {
  const form = summaryFormOf(name, '--summary', args, io, more);
  return async (summary) => writeOut(name, await form(summary), args.force, io);
}
