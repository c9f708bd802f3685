import { HOOP_FIELDS, placesCatalog, placesToText, toJson } from '../../lib/index.js';
import { EXIT, type Handler } from '../command.js';
import { outputOf, textOptions } from '../output.js';
import { badArgument, suggestion } from '../parse.js';
import { shopOf } from '../settings.js';

const TOPICS = ['places'];

/** `lieflat catalog`: the built-in figures, with the shop's own in their place where it has some. */
export const catalog: Handler = async (args, io) => {
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
    args.choice('format', ['text', 'json'] as const) === 'json'
      ? toJson(listed)
      : placesToText(listed, await textOptions(args, io)),
  );
  await output.finish();
  return EXIT.clean;
};
