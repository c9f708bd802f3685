/** Garments by their everyday names, each with the fabric of the catalogue that it is most likely made of. */

/** Garments that are made of one fabric. Which fabric is common practice, no source. */
export interface GarmentKind {
  /** Everyday names, small letters, singular. */
  readonly names: readonly string[];
  /** Id of its fabric. */
  readonly fabric: string;
  /** Why that fabric: what it is made of, as `sweatshirt fleece: a knit that is brushed inside`. */
  readonly madeOf: string;
}

const kind = (fabric: string, madeOf: string, ...names: string[]): GarmentKind => ({ names, fabric, madeOf });

export const GARMENT_KINDS: readonly GarmentKind[] = [
  kind(
    'fleece',
    'sweatshirt fleece, a thick knit brushed on one side',
    'hoodie',
    'hoody',
    'hooded sweatshirt',
    'sweatshirt',
    'crewneck sweatshirt',
    'sweatpants',
    'jogger',
    'tracksuit',
    'fleece jacket',
    'fleece vest',
    'fleece blanket',
    'quarter zip',
    'blanket',
    'scarf',
    'polar fleece',
    'microfleece',
  ),
  kind(
    'jersey-tee',
    'light cotton jersey',
    'tee',
    't shirt',
    'tshirt',
    'tee shirt',
    'tank top',
    'onesie',
    'baby onesie',
    'bodysuit',
    'long sleeve tee',
    'pajama',
  ),
  kind('pique-knit', 'piqué knit', 'cotton polo', 'pique polo', 'pique', 'polo', 'polo shirt', 'golf shirt'),
  kind(
    'jersey-knit',
    'jersey of cotton and polyester',
    'blend polo',
    'jersey polo',
    'jersey',
    'henley',
    'rugby shirt',
  ),
  kind(
    'performance-knit',
    'polyester knit that stretches and springs back',
    'performance polo',
    'performance shirt',
    'performance tee',
    'performance',
    'polyester polo',
    'polyester shirt',
    'moisture wicking shirt',
    'wicking polo',
    'wicking shirt',
    'sport shirt',
    'sports jersey',
    'athletic shirt',
    'team jersey',
  ),
  kind(
    'performance-knit-thin',
    'a thin polyester knit that stretches to several times its size',
    'thin performance shirt',
    'running shirt',
    'compression shirt',
    'base layer',
    'rash guard',
  ),
  kind(
    'leggings-knit',
    'a firm knit with spandex',
    'legging',
    'yoga pants',
    'swimsuit',
    'swimwear',
    'dance wear',
    'leotard',
    'bike shorts',
    'sports bra',
    'spandex',
  ),
  kind('stretch-scrub', 'a knit that stretches', 'stretch scrubs', 'scrubs stretch'),
  kind('woven-scrub', 'a tight woven cloth', 'scrubs', 'scrub top', 'classic scrubs', 'lab coat'),
  kind(
    'poplin',
    'a light woven shirting',
    'dress shirt',
    'button down',
    'button up',
    'button down shirt',
    'oxford shirt',
    'woven shirt',
    'shirting',
    'bandana',
    'handkerchief',
    'pillowcase',
    'blouse',
  ),
  kind(
    'twill',
    'a firm woven twill',
    'work shirt',
    'workwear',
    'work pants',
    'coverall',
    'chef coat',
    'chef jacket',
    'apron',
    'uniform',
    'uniform shirt',
    'khakis',
    'chinos',
    'tablecloth',
    'gabardine',
  ),
  kind('denim', 'denim', 'denim jacket', 'jean jacket', 'jeans', 'denim shirt', 'denim vest'),
  kind(
    'canvas-tote',
    'heavy canvas that does not give',
    'tote',
    'tote bag',
    'canvas bag',
    'canvas',
    'duffel bag',
    'duffel',
    'backpack',
    'canvas jacket',
    'duck jacket',
    'duck canvas jacket',
    'bag',
  ),
  kind(
    'terry-towel',
    'terry with loops',
    'towel',
    'bath towel',
    'hand towel',
    'golf towel',
    'bathrobe',
    'robe',
    'washcloth',
  ),
  kind(
    'sheer-linen',
    'thin linen that shows what lies behind',
    'linen',
    'linen napkin',
    'napkin',
    'linen shirt',
    'sheer',
    'curtain',
    'organza',
  ),
  kind(
    'fine-sweater',
    'a fine knit that must not get wet',
    'sweater',
    'cashmere',
    'cashmere sweater',
    'wool sweater',
    'cardigan',
    'merino',
  ),
  kind(
    'beanie-knit',
    'a ribbed knit',
    'beanie',
    'knit cap',
    'knit hat',
    'winter hat',
    'watch cap',
    'rib knit',
    'rib',
  ),
  kind(
    'cap-structured',
    'twill with buckram behind the front',
    'structured cap',
    'baseball cap',
    'ball cap',
    'trucker cap',
    'trucker hat',
    'snapback',
    'cap',
    'hat',
  ),
  kind(
    'cap-unstructured',
    'twill without buckram',
    'unstructured cap',
    'dad cap',
    'dad hat',
    'bucket hat',
    'visor',
  ),
  kind(
    'softshell',
    'a woven face bonded to fleece',
    'softshell jacket',
    'soft shell',
    'soft shell jacket',
    'softshell vest',
  ),
  kind(
    'nylon-jacket',
    'thin coated nylon',
    'windbreaker',
    'wind breaker',
    'rain jacket',
    'nylon',
    'shell jacket',
    'coach jacket',
    'coaches jacket',
    'raincoat',
    'umbrella',
    'puffer jacket',
    'puffer vest',
    'bomber jacket',
  ),
  kind(
    'leather',
    'leather, where every needle hole stays',
    'leather jacket',
    'leather vest',
    'leather patch',
    'suede',
    'suede jacket',
    'vinyl',
    'faux leather',
  ),
  kind(
    'silk',
    'light silk that must not get wet',
    'silk scarf',
    'silk shirt',
    'silk tie',
    'necktie',
    'silk robe',
    'silk blouse',
  ),
];

/** A name as it is looked up: no accents (Unicode normalization form D), small letters, single spaces, plural endings off. */
const plain = (text: string): string[] =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== '')
    .map((word) => (/[^s]s$/.test(word) && word.length > 3 ? word.slice(0, -1) : word));

/** The same as an id: `team-hoodie`. */
export const garmentId = (name: string): string => plain(name).join('-');

const listed = (kinds: readonly GarmentKind[]) =>
  kinds.flatMap((garment) => garment.names.map((name) => ({ garment, words: plain(name) })));

const BUILT_IN = listed(GARMENT_KINDS);

const holds = (words: readonly string[], name: readonly string[]): boolean =>
  words.some((_, start) => name.every((word, k) => words[start + k] === word));

/**
 * The garments that a name as it was typed may mean, by its words and never by spelling: `men's cotton polo, navy` finds the cotton polo. The
 * longest known name in it counts; where names as long lead to several fabrics, one garment of each is given.
 *
 * @param own a shop's own garments: of two that have a name in common its own is meant
 * @example
 * garmentsNamed('Hoodies').map(({ fabric }) => fabric); // ['fleece']
 */
export function garmentsNamed(typed: string, own: readonly GarmentKind[] = []): GarmentKind[] {
  const words = plain(typed);
  const ours = listed(own);
  const taken = new Set(ours.map(({ words: name }) => name.join(' ')));
  const all = [...ours, ...BUILT_IN.filter(({ words: name }) => !taken.has(name.join(' ')))];
  const inIt = all.filter(({ words: name }) => holds(words, name));
  const longest = inIt.reduce((most, { words: { length } }) => Math.max(most, length), 0);
  const meant = inIt.filter(({ words: { length } }) => length === longest).map(({ garment }) => garment);
  return [...new Map(meant.map((garment) => [garment.fabric, garment])).values()];
}

/**
 * The longest name of a garment within a longer one that was typed: whatever else that says was passed over. Null where nothing was.
 *
 * @example
 * nameTakenFrom('silk polo', garmentsNamed('silk polo')[0]); // 'polo'
 */
export function nameTakenFrom(typed: string, { names }: GarmentKind): string | null {
  const words = plain(typed);
  const within = names.filter((name) => holds(words, plain(name)));
  const longest = within.toSorted((a, b) => plain(b).length - plain(a).length)[0];
  return longest === undefined || plain(longest).length === words.length ? null : longest;
}

/** A word is found at the end of another, as `pants` in `sweatpants`, from so many letters on. */
const LEAST_ENDING = 4;
/** A name has fewer words. */
const MOST_WORDS = 10;

/**
 * Names of garments to choose from where a name is not known, for what the garment is comes last in it: `jacket` and `ski jacket, navy` lead to
 * the denim jacket, the rain jacket and so on, by whole words and never by spelling. The plainest name of each fabric; none where there is one alone.
 *
 * @param own a shop's own garments
 * @example
 * garmentsAkin('vest'); // ['fleece vest', 'denim vest', 'softshell vest', 'puffer vest', 'leather vest']
 */
export function garmentsAkin(typed: string, own: readonly GarmentKind[] = []): string[] {
  const all = [...own, ...GARMENT_KINDS].flatMap(({ fabric, names }) =>
    names.map((name) => ({ fabric, name, words: plain(name) })),
  );
  for (const word of plain(typed).reverse()) {
    /** The fewer words, the plainer the name; what the garment is comes last: the word itself, or one that ends in it. */
    const rank = ({ words }: (typeof all)[number]): number => {
      const last = words[words.length - 1];
      if (last === word) return words.length;
      const isEnd = word.length >= LEAST_ENDING && last.endsWith(word);
      return isEnd ? MOST_WORDS + words.length : Infinity;
    };
    const plainest = new Map<string, (typeof all)[number]>();
    for (const one of all) {
      const known = plainest.get(one.fabric);
      if (rank(one) < (known ? rank(known) : Infinity)) plainest.set(one.fabric, one);
    }
    // One alone would be a guess.
    if (plainest.size > 1) return [...plainest.values()].map(({ name }) => name);
  }
  return [];
}
