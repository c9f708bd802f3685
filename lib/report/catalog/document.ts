/** The catalog as a document: a line a material, or every value with where it comes from. */
import { isSourced, type Sourced } from '../../core/sourced.js';
import { GSM_PER_OZ_YD2, mmToInch } from '../../core/units.js';
import { CATALOGUE_SHELVES, type Shelf } from '../../materials/catalogue.js';
import type { Block, ReportDocument, ReportSection, Table } from '../document.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { renderText } from '../render/text.js';
import type { TextOptions } from '../text-options.js';
import type { CatalogReport } from './report.js';

type CatalogWords = Words<'catalog'>;
type Material = { readonly id: string; readonly name: string };

/** @param everyValue of materials as well; places and hoops have few enough to show them always */
export function catalogDocument(
  report: CatalogReport,
  words: CatalogWords,
  everyValue = false,
): ReportDocument {
  const { catalog } = words;
  const shelves = CATALOGUE_SHELVES.filter((shelf) => report[shelf] !== undefined);
  const materials = shelves.map((shelf): Block => {
    const all: readonly Material[] = Object.values(report[shelf]!);
    const blocks = everyValue ? valuesOf(all, words) : [listOf(shelf, all, words)];
    return { is: 'section', title: strong(catalog.shelves[shelf]), blocks };
  });
  return {
    title: catalog.title,
    language: 'en',
    blocks: [
      ...materials,
      ...(everyValue || shelves.length === 0 ? [] : [howToSeeMore(report, shelves, words)]),
      ...(report.places ? [sizes('place', report.places, words)] : []),
      ...(report.hoops ? [sizes('hoop', report.hoops, words)] : []),
    ],
  };
}

/** The same as text: what `lieflat catalog` prints. Every line fits the width. */
export function catalogToText(report: CatalogReport, options: TextOptions, everyValue = false): string {
  const words = wordsFor({ units: options.units, detail: 'full' });
  return renderText(catalogDocument(report, words, everyValue), options);
}

const strong = (text: string) => [{ text, strong: true }];

function listOf(shelf: Shelf, materials: readonly Material[], words: CatalogWords): Table {
  const { catalog } = words;
  return {
    is: 'table',
    id: shelf,
    columns: [
      { head: catalog.column.id, namesRow: true },
      { head: catalog.column.whatItIs, flexible: true },
    ],
    rows: materials.map((material) => {
      // What the name says is not said again; where a trait comes from stands beside the values.
      const traits = traitsOf({ ...material, useBasis: '' }, words);
      return [
        material.id,
        [material.name, ...traits.filter((trait) => !material.name.includes(trait))].join('; '),
      ];
    }),
  };
}

function howToSeeMore(report: CatalogReport, shelves: readonly Shelf[], { catalog }: CatalogWords): Block {
  const shelf = shelves.find((name) => Object.keys(report[name]!).length > 0);
  const text =
    shelf === undefined
      ? catalog.empty
      : catalog.seeMore({ shelf, id: Object.keys(report[shelf]!)[0], alone: shelves.length === 1 });
  return { is: 'paragraph', text };
}

/** What a material is beside its values, in the order of its fields. */
function traitsOf(material: object, { catalog }: CatalogWords): string[] {
  const { traits } = catalog;
  return Object.entries(material).flatMap(([key, field]) => {
    if (key === 'use') return [traits.use({ use: String(field) })];
    if (['structure', 'kind', 'useBasis'].includes(key)) return field === '' ? [] : [String(field)];
    const trait = Object.hasOwn(traits.is, key)
      ? traits[field ? 'is' : 'isNot'][key as keyof typeof traits.is]
      : '';
    return trait === '' ? [] : [trait];
  });
}

/** A table a material, and under them where the values come from, by number. */
function valuesOf(materials: readonly Material[], words: CatalogWords): Block[] {
  const bases: string[] = [];
  const numberOf = (basis: string): string => {
    if (!bases.includes(basis)) bases.push(basis);
    return `[${bases.indexOf(basis) + 1}]`;
  };
  const tables = materials.map((material) => valueTable(material, numberOf, words));
  return [...tables, { is: 'facts', facts: bases.map((text, i) => ({ label: `[${i + 1}]`, text })) }];
}

function valueTable(
  material: Material,
  numberOf: (basis: string) => string,
  words: CatalogWords,
): ReportSection {
  const { catalog, say } = words;
  const { column, nothing } = catalog;
  const rows = Object.entries(material).flatMap(([key, field]) => {
    if (typeof field !== 'object' || field === null || !isSourced(field)) return [];
    const { value, low, high, unit, basis } = inUnits(field, say.units);
    const range =
      low === high
        ? nothing
        : catalog.range({ low: say.significant(low, 3), high: say.significant(high, 3) });
    const name = catalog.values[key as keyof typeof catalog.values] ?? key;
    return [[name, say.significant(value, 3), range, unit || nothing, numberOf(basis)]];
  });
  return {
    is: 'section',
    title: strong(catalog.material({ id: material.id, is: [material.name, ...traitsOf(material, words)] })),
    blocks: [
      {
        is: 'table',
        id: material.id,
        columns: [
          { head: column.property, namesRow: true },
          { head: column.value, number: true },
          { head: column.range, number: true },
          { head: column.unit },
          { head: column.source },
        ],
        rows,
      },
    ],
  };
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

/** Usual sizes with their range, and the basis of each figure. */
function sizes(
  of: 'place' | 'hoop',
  all: readonly { readonly id: string; readonly widthMm: Sourced; readonly heightMm: Sourced }[],
  { catalog, say }: CatalogWords,
): ReportSection {
  const range = ({ value, low, high }: Sourced): string =>
    low === high
      ? say.bareOutline(value)
      : catalog.usualRange({
          usual: say.bareOutline(value),
          low: say.bareOutline(low),
          high: say.bareOutline(high),
        });
  const basis = (width: Sourced, height: Sourced): string =>
    width.basis === height.basis
      ? width.basis
      : catalog.twoBases({ width: width.basis, height: height.basis });
  return {
    is: 'section',
    title: catalog.sizes[of],
    blocks: [
      {
        is: 'table',
        id: `${of}s`,
        columns: [
          { head: `--${of}`, namesRow: true },
          { head: catalog.column.width({}), number: true },
          { head: catalog.column.height({}), number: true },
          { head: catalog.column.basis, flexible: true },
        ],
        rows: all.map(({ id, widthMm, heightMm }) => [
          id,
          range(widthMm),
          range(heightMm),
          basis(widthMm, heightMm),
        ]),
      },
    ],
  };
}
