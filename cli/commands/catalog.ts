import { HOOP_FIELDS, LieflatError, toJson } from '../../lib/index.js';
import { CATALOGUE, type Catalogue, type Shelf } from '../../lib/materials/index.js';
import {
  type CatalogReport,
  catalogToText,
  materialsCatalog,
  placesCatalog,
} from '../../lib/report/index.js';
import { badArgument, suggestion } from '../bad-argument.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { outputOf, textOptions } from '../output.js';
import { shopInForce } from '../settings.js';

const SHELVES = ['fabrics', 'sheets', 'toppings', 'threads', 'needles'] as const satisfies readonly Shelf[];
/** Lists that are short enough to show every value of all. */
const SIZES = ['places', 'hoops'] as const;
const TOPICS = [...SHELVES, ...SIZES] as const;
type Topic = (typeof TOPICS)[number];

/** `lieflat catalog`: the built-in figures, with the shop's own in their place where it has some. */
export const catalog: Handler<ArgsOf<'catalog'>> = async (args, io) => {
  const { catalogue = CATALOGUE, places: own } = (await shopInForce(args, io)).figures;
  const [word, id] = args.words;
  const topic = await topicOf(word, catalogue);
  const shelves = SHELVES.filter((shelf) => topic === undefined || topic === shelf);
  const sized = topic === undefined || topic === 'places' || topic === 'hoops';
  const places = sized ? placesCatalog(...(await sizesOf(topic, id, own))) : null;
  const materials = shelves.length > 0 ? materialsCatalog(catalogue, shelves, id) : null;
  const output = outputOf(args, io);
  const report: CatalogReport = { schema: 'lieflat/catalog@1', ...materials, ...places };
  await output.write(
    args.format === 'json'
      ? toJson(report)
      : catalogToText(report, await textOptions(args, io), args.all || id !== undefined),
  );
  await output.finish();
  return EXIT.clean;
};

async function topicOf(word: string | undefined, catalogue: Catalogue): Promise<Topic | undefined> {
  if (word === undefined || isTopic(word)) return word;
  const shelf = SHELVES.find((name) => Object.hasOwn(catalogue[name], word));
  const todo = shelf
    ? `write lieflat catalog ${shelf} ${word}`
    : await suggestion(word, TOPICS, '', `choose from ${TOPICS.join(', ')}`);
  throw badArgument(`there is no list of ${word}`, todo);
}

const isTopic = (word: string): word is Topic => (TOPICS as readonly string[]).includes(word);

type SizeLists = Parameters<typeof placesCatalog>;

/** The list of places brings that of hoops with it: a size is held against both. */
async function sizesOf(
  topic: Topic | undefined,
  id: string | undefined,
  places: NonNullable<SizeLists[0]>,
): Promise<SizeLists> {
  if (id === undefined) return [topic === 'hoops' ? undefined : places, HOOP_FIELDS];
  const all: readonly { id: string }[] = topic === 'hoops' ? HOOP_FIELDS : places;
  const named = <T extends { id: string }>(list: readonly T[]): T[] => list.filter((one) => one.id === id);
  if (named(all).length > 0)
    return topic === 'hoops' ? [undefined, named(HOOP_FIELDS)] : [named(places), undefined];
  const ids = all.map((one) => one.id);
  throw new LieflatError({
    code: 'unknown-id',
    place: `lieflat catalog ${topic}`,
    what: `${id} is not in the list`,
    todo: await suggestion(id, ids, '', `lieflat catalog ${topic} lists them`),
  });
}
