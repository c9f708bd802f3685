/** What `lieflat catalog` lists. */
import type { Shelf } from '../../../materials/catalogue.js';
import type { Voice } from '../voice.js';

const shelves: Readonly<Record<Shelf, string>> = {
  fabrics: 'Fabrics, for --fabric',
  sheets: 'Backing sheets, for --stack',
  toppings: 'Toppings',
  threads: 'Threads, for --thread',
  needles: 'Needles',
};

/** What a value of a material is called. */
const values = {
  membraneAlong: 'stretch resistance, along',
  membraneAcross: 'stretch resistance, across',
  membraneShear: 'shear resistance',
  poisson: 'narrowing when stretched',
  bendingAlong: 'bending stiffness, along',
  bendingAcross: 'bending stiffness, across',
  mass: 'weight',
  thickness: 'thickness',
  shrinkage: 'shrinkage in washing',
  stretch: 'stretch by hand',
  price: 'price',
  count: 'yarn count',
  density: 'density',
  cover: 'width one thread hides',
  axialStiffness: 'stretch resistance',
  shaft: 'shaft',
};

/** What a material is, or is not; empty where that goes without saying in its name. */
const is = {
  stretchy: 'stretchy',
  elastic: 'springs back',
  rigid: 'no give at all',
  pile: 'pile',
  open: 'open or loose',
  sheer: 'see-through',
  perforates: 'tears or rinses away',
  washable: '',
};
const isNot: Readonly<Record<keyof typeof is, string>> = {
  stretchy: '',
  elastic: '',
  rigid: '',
  pile: '',
  open: '',
  sheer: '',
  perforates: 'stays',
  washable: 'must not get wet',
};

export const catalog = {
  title: 'Catalog',
  shelves,
  values,
  traits: { is, isNot, use: ({ use }: { use: string }, _: Voice): string => `for ${use}` },
  /** For an empty cell. */
  nothing: '-',
  empty: 'There is nothing on these lists.',
  /** `alone`: it is the only shelf that is listed. */
  seeMore: ({ shelf, id, alone }: { shelf: Shelf; id: string; alone: boolean }, _: Voice): string =>
    `lieflat catalog ${shelf} ${id} shows every value of one, its range and where it comes from; ${alone ? `lieflat catalog ${shelf} --all` : '--all'} shows those of all.`,
  material: ({ id, is }: { id: string; is: readonly string[] }, _: Voice): string =>
    `${id}: ${is.join('; ')}`,
  range: ({ low, high }: Record<'low' | 'high', string>, _: Voice): string => `${low} - ${high}`,
  usualRange: ({ usual, low, high }: Record<'usual' | 'low' | 'high', string>, _: Voice): string =>
    `${usual} (${low}-${high})`,
  twoBases: ({ width, height }: Record<'width' | 'height', string>, _: Voice): string =>
    `width ${width}; height ${height}`,
  sizes: {
    place: 'Places: the size that designs there usually keep to',
    hoop: "Hoops: the field the needle may reach; the machine's manual goes before these",
  },
  column: {
    id: 'id',
    whatItIs: 'what it is',
    property: 'property',
    value: 'value',
    range: 'low - high',
    unit: 'unit',
    source: 'source',
    width: (_: Record<never, never>, say: Voice): string => `width ${say.units}`,
    height: (_: Record<never, never>, say: Voice): string => `height ${say.units}`,
    basis: 'where it comes from',
  },
};
