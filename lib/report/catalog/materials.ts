/** Fabrics, backing sheets, toppings, threads and needles with every value and where it comes from. */
import type { Sourced } from '../../core/sourced.js';
import { GSM_PER_OZ_YD2, mmToInch } from '../../core/units.js';
import { CATALOGUE_SHELVES, type Catalogue, find, type Shelf } from '../../materials/catalogue.js';
import { NO_PAINT } from '../render/paint.js';
import { printable } from '../render/printable.js';
import { textTable } from '../render/text-table.js';
import { wrap } from '../render/wrap.js';
import type { TextOptions } from '../text-options.js';

/** One or more shelves of the catalogue, every material with its values as they are. */
export type MaterialsCatalog = { schema: 'lieflat/catalog@1' } & Partial<Catalogue>;

/**
 * @param shelves those wanted, in order; all without it
 * @param id that material of theirs alone
 * @throws LieflatError `unknown-id`
 */
export function materialsCatalog(
  catalogue: Catalogue,
  shelves: readonly Shelf[] = CATALOGUE_SHELVES,
  id?: string,
): MaterialsCatalog {
  const wanted = (shelf: Shelf) =>
    id === undefined ? catalogue[shelf] : { [id]: find(catalogue, shelf, id) };
  return {
    schema: 'lieflat/catalog@1',
    ...Object.fromEntries(shelves.map((shelf) => [shelf, wanted(shelf)])),
  };
}

export const SHELF_HEADINGS: Readonly<Record<Shelf, string>> = {
  fabrics: 'Fabrics, for --fabric',
  sheets: 'Backing sheets, for --stack',
  toppings: 'Toppings',
  threads: 'Threads, for --thread',
  needles: 'Needles',
};

/** What a value is called in print. */
const NAMES: Readonly<Record<string, string>> = {
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

const isValue = (field: unknown): field is Sourced =>
  typeof field === 'object' && field !== null && 'basis' in field;

/** What a material is beside its values, where that goes without saying in neither its name nor its id. */
const TRAITS: Readonly<Record<string, (value: unknown) => string>> = {
  structure: String,
  kind: String,
  use: (value) => `for ${value}`,
  useBasis: String,
  stretchy: (value) => (value ? 'stretchy' : ''),
  elastic: (value) => (value ? 'springs back' : ''),
  rigid: (value) => (value ? 'no give at all' : ''),
  pile: (value) => (value ? 'pile' : ''),
  open: (value) => (value ? 'open or loose' : ''),
  sheer: (value) => (value ? 'see-through' : ''),
  perforates: (value) => (value ? 'tears or rinses away' : 'stays'),
  washable: (value) => (value ? '' : 'must not get wet'),
};

/** The words for what a material is, in the order of its fields. */
export function traitsOf(material: object, leaveOut: readonly string[] = []): string[] {
  return Object.entries(material)
    .map(([key, field]) => (leaveOut.includes(key) ? '' : (TRAITS[key]?.(field) ?? '')))
    .filter((words) => words !== '');
}

/**
 * Sets the shelves as text: a table a material, and under each shelf where its values come from, by number. Every line fits the width.
 */
export function materialsToText(catalog: MaterialsCatalog, options: TextOptions): string {
  const sections = CATALOGUE_SHELVES.flatMap((shelf) => {
    const materials = catalog[shelf];
    return materials ? [shelfLines(SHELF_HEADINGS[shelf], Object.values(materials), options)] : [];
  });
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

function shelfLines(
  heading: string,
  materials: readonly { id: string; name: string }[],
  options: TextOptions,
): string[] {
  const { width, paint = NO_PAINT } = options;
  const bases: string[] = [];
  const numberOf = (basis: string): string => {
    if (!bases.includes(basis)) bases.push(basis);
    return `[${bases.indexOf(basis) + 1}]`;
  };
  const tables = materials.flatMap((m) => ['', ...materialLines(m, numberOf, options)]);
  return [
    paint.strong(heading),
    ...tables,
    '',
    ...bases.flatMap((basis, i) => {
      const label = `  [${i + 1}] `.padEnd(7);
      return wrap(printable(basis), width, label, ' '.repeat(label.length));
    }),
  ];
}

function materialLines(
  material: { id: string; name: string },
  numberOf: (basis: string) => string,
  { width, units, paint = NO_PAINT }: TextOptions,
): string[] {
  const fields = Object.entries(material);
  const rows = fields.flatMap(([key, field]) => {
    if (!isValue(field)) return [];
    const { value, low, high, unit, basis } = inUnits(field, units);
    const range = low === high ? '-' : `${figure(low)} - ${figure(high)}`;
    return [[NAMES[key] ?? key, figure(value), range, unit || '-', numberOf(basis)]];
  });
  return [
    ...wrap(
      printable(`${material.id}: ${[material.name, ...traitsOf(material)].join('; ')}`),
      width,
      '  ',
      '    ',
    ).map((line) => paint.strong(line)),
    ...textTable(
      [
        { head: '', align: 'left' },
        { head: 'value', align: 'right' },
        { head: 'low - high', align: 'right' },
        { head: 'unit', align: 'left' },
        { head: 'source', align: 'left' },
      ],
      rows,
      width,
      '    ',
    ),
  ];
}

/** Lengths in inches and weights in ounces a square yard, for those who ask for them; all else has one unit in the trade. */
function inUnits(value: Sourced, units: TextOptions['units']): Sourced {
  if (units === 'mm') return value;
  const scaled = (factor: number, unit: string): Sourced => ({
    ...value,
    value: value.value * factor,
    low: value.low * factor,
    high: value.high * factor,
    unit,
  });
  if (value.unit === 'mm') return scaled(mmToInch(1), 'in');
  if (value.unit === 'g/m²') return scaled(1 / GSM_PER_OZ_YD2, 'oz/yd²');
  return value;
}

/** Three figures are more than any of these is known to. */
const figure = (value: number): string => String(Number(value.toPrecision(3)));
