import { createRequire } from 'node:module';
import { readBytes } from '../../lib/io/index.js';
import { wrongEnding } from '../bad-argument.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { writeOut } from '../output.js';

/** `lieflat page`: the page for a browser, which the build makes. */
export const page: Handler<ArgsOf<'page'>> = async ({ out, force }, io) => {
  if (!/\.html?$/i.test(out)) throw wrongEnding('-o', out, '.html');
  const made = createRequire(import.meta.url).resolve('lieflat/page.html');
  await writeOut(out, await readBytes(made), force, io);
  return EXIT.clean;
};
