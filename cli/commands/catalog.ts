import { HOOP_FIELDS, placesCatalog, placesToText, toJson } from '../../lib/index.js';
import { badArgument, suggestion } from '../bad-argument.js';
import { EXIT, type Handler, type Words } from '../command.js';
import type { Everywhere, Report } from '../options.js';
import { outputOf, textOptions } from '../output.js';
import { shopOf } from '../settings.js';

interface CatalogArgs extends Words, Everywhere, Report {
  format: 'text' | 'json';
}

const TOPICS = ['places'];

/** `lieflat catalog`: the built-in figures, with the shop's own in their place where it has some. */
export const catalog: Handler<CatalogArgs> = async (args, io) => {
  const [topic = 'places'] = args.words;
  if (!TOPICS.includes(topic)) {
    throw badArgument(
      `there is no list of ${topic}`,
      await suggestion(topic, TOPICS, '', `choose from ${TOPICS.join(', ')}`),
    );
  }
  const listed = placesCatalog((await shopOf(args, io)).places, HOOP_FIELDS);
  const output = outputOf(args, io, []);
  await output.write(
    args.format === 'json' ? toJson(listed) : placesToText(listed, await textOptions(args, io)),
  );
  await output.finish();
  return EXIT.clean;
};
