import { printable } from '../../lib/index.js';
import { jsonLines, shardOf } from '../../lib/io/index.js';
import { PartsTally, partLineOf } from '../../lib/report/index.js';
import { badLines } from '../batch/earlier.js';
import { isFound } from '../batch/fail-on.js';
import { summaryFormOf } from '../batch/sum-up.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { type Io, print } from '../io.js';
import { outputOf } from '../output.js';
import { pathFrom } from '../settings.js';

const ENDINGS = { text: '.txt', html: '.html', json: '.json' } as const;

/** `lieflat summary`: one summary of an archive that was checked in parts. */
export const summary: Handler<ArgsOf<'summary'>> = async (args, io) => {
  const { format, out, words } = args;
  const form = summaryFormOf(format ? ENDINGS[format] : (out ?? ENDINGS.text), '-o', args, io);
  const output = outputOf(args, io);
  const parts = new PartsTally();
  let spoiled = false;
  for (const name of words) spoiled = (await takePart(name, parts, io)) || spoiled;
  const all = parts.summary(shardOf);
  await output.write(await form(all));
  await output.finish();
  if (all.files.unread > 0 || (all.gaps?.parts ?? 0) > 0)
    await print(io.stderr, 'lieflat: the summary is not of the whole archive; it says what is missing\n');
  else if (!spoiled) return isFound(all, args['fail-on']) ? EXIT.found : EXIT.clean;
  return EXIT.unable;
};

/** Whether the file holds lines that no part has; they are named and left out. */
async function takePart(name: string, parts: PartsTally, io: Io): Promise<boolean> {
  const read = await jsonLines(pathFrom(io, name), (value) => {
    const line = partLineOf(value);
    if (line !== null) parts.add(line);
    return line !== null;
  });
  if (read.badLines.length > 0) await print(io.stderr, badLines(name, read.badLines, 'left out'));
  if (read.cutOff)
    await print(io.stderr, `lieflat: ${printable(name)}: the last line breaks off; left out\n`);
  return read.badLines.length > 0 || read.cutOff;
}
