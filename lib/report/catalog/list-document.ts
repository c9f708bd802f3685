/** The catalogue for choosing from: a line a material. */
import { CATALOGUE_SHELVES, type Shelf } from '../../materials/catalogue.js';
import { NO_PAINT } from '../render/paint.js';
import { printable } from '../render/printable.js';
import { textTable } from '../render/text-table.js';
import { wrap } from '../render/wrap.js';
import type { TextOptions } from '../text-options.js';
import { type MaterialsCatalog, SHELF_HEADINGS, traitsOf } from './materials.js';

/** Said by no line of a list: where the rest comes from stands beside the values. */
const LEFT_OUT = ['useBasis'];

/** Lists the shelves as text: id, name and a few words, and how to see every value. Every line fits the width. */
export function materialsListToText(catalog: MaterialsCatalog, options: TextOptions): string {
  const { width, paint = NO_PAINT } = options;
  const shelves = CATALOGUE_SHELVES.filter((shelf) => catalog[shelf] !== undefined);
  const sections = shelves.map((shelf) => {
    const materials: readonly { id: string; name: string }[] = Object.values(catalog[shelf]!);
    const columns = [
      { head: 'id', align: 'left' },
      { head: 'what it is', align: 'left', flexible: true },
    ] as const;
    // What the name says is not said again.
    const words = (material: { name: string }): string =>
      printable(
        [
          material.name,
          ...traitsOf(material, LEFT_OUT).filter((trait) => !material.name.includes(trait)),
        ].join('; '),
      );
    const rows = materials.map((material) => [printable(material.id), words(material)]);
    return [paint.strong(SHELF_HEADINGS[shelf]), ...textTable(columns, rows, width, '  ')];
  });
  return [...sections, wrap(howToSeeMore(catalog, shelves), width)]
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n');
}

function howToSeeMore(catalog: MaterialsCatalog, shelves: readonly Shelf[]): string {
  const shelf = shelves.find((name) => Object.keys(catalog[name]!).length > 0);
  if (shelf === undefined) return 'There is nothing on these lists.';
  const [id] = Object.keys(catalog[shelf]!);
  const all = shelves.length === 1 ? `lieflat catalog ${shelf} --all` : '--all';
  return `lieflat catalog ${shelf} ${id} shows every value of one, its range and where it comes from; ${all} shows those of all.`;
}
