import {
  HOOP_FIELDS,
  materialsCatalog,
  materialsToText,
  placesCatalog,
  placesToText,
  type Shelf,
  toJson,
} from '../../lib/index.js';
import { badArgument, suggestion } from '../bad-argument.js';
import { EXIT, type Handler, type Words } from '../command.js';
import type { Everywhere, Report } from '../options.js';
import { outputOf, textOptions } from '../output.js';
import { shopOf } from '../settings.js';

interface CatalogArgs extends Words, Everywhere, Report {
  format: 'text' | 'json';
}

const SHELVES = ['fabrics', 'sheets', 'toppings', 'threads', 'needles'] as const satisfies readonly Shelf[];
const TOPICS = [...SHELVES, 'places'] as const;

/** `lieflat catalog`: the built-in figures, with the shop's own in their place where it has some. */
export const catalog: Handler<CatalogArgs> = async (args, io) => {
  const [topic] = args.words;
  if (topic !== undefined && !(TOPICS as readonly string[]).includes(topic)) {
    throw badArgument(
      `there is no list of ${topic}`,
      await suggestion(topic, TOPICS, '', `choose from ${TOPICS.join(', ')}`),
    );
  }
  const shop = await shopOf(args, io);
  const places = topic === undefined || topic === 'places' ? placesCatalog(shop.places, HOOP_FIELDS) : null;
  const shelves = SHELVES.filter((shelf) => topic === undefined || topic === shelf);
  const materials = shelves.length > 0 ? await materialsCatalog(shop.catalogue, shelves) : null;
  const output = outputOf(args, io, []);
  if (args.format === 'json') await output.write(toJson({ ...materials, ...places }));
  else {
    const text = await textOptions(args, io);
    const parts = [
      materials && (await materialsToText(materials, text)),
      places && placesToText(places, text),
    ];
    await output.write(parts.filter((part) => part !== null).join('\n'));
  }
  await output.finish();
  return EXIT.clean;
};
