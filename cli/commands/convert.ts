import { type Diagnostic, encodeDesign, oddityInWords, printable } from '../../lib/index.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { print } from '../io.js';
import { formatToWrite, writeOut } from '../output.js';
import { openDesign } from '../settings.js';

function oddities(diagnostics: readonly Diagnostic[]): string {
  const [first] = diagnostics;
  const more = diagnostics.length - 1;
  const said = oddityInWords(first, { units: 'mm', detail: 'short' });
  return `${printable(said)}${more > 0 ? `, and ${more} more ${more === 1 ? 'oddity' : 'oddities'}` : ''}`;
}

/** `lieflat convert`: a stitch file from one format into the other. */
export const convert: Handler<ArgsOf<'convert'>> = async (args, io) => {
  const { out, force } = args;
  const format = formatToWrite(out);
  const {
    file: { path, design },
    budget,
  } = await openDesign(io, args.words[0]);
  await writeOut(
    out,
    budget.run(() => encodeDesign(design, format)),
    force,
    io,
  );
  // Whoever goes on with the copy must know what was odd in the file it was made from.
  if (design.diagnostics.length > 0) {
    await print(
      io.stderr,
      `lieflat: ${printable(path)}: ${oddities(design.diagnostics)}; lieflat vet has the details\n`,
    );
  }
  return EXIT.clean;
};
