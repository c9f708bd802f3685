/** The built-in places and hoops with every value and where it comes from. */
import type { Sourced } from '../../core/sourced.js';
import { mmToInch } from '../../core/units.js';
import type { HoopField, Place } from '../../materials/places.js';
import { fixed } from '../quantities.js';
import { textTable } from '../render/text-table.js';
import { wrap } from '../render/wrap.js';
import type { TextOptions } from '../text-options.js';

export interface PlacesCatalog {
  schema: 'lieflat/catalog@1';
  places?: readonly Place[];
  hoops?: readonly HoopField[];
}

/** What `--place` and `--hoop` may be called, as data; a list that is not given is left out. */
export function placesCatalog(
  places: readonly Place[] | undefined,
  hoops: readonly HoopField[] | undefined,
): PlacesCatalog {
  return { schema: 'lieflat/catalog@1', ...(places && { places }), ...(hoops && { hoops }) };
}

/** The same as text: usual size with its range, and the basis of each figure. */
export function placesToText(catalog: PlacesCatalog, options: TextOptions): string {
  const { width, units } = options;
  // Usual sizes are no finer than this.
  const figure = (mm: number): string => (units === 'mm' ? fixed(mm, 0) : fixed(mmToInch(mm), 1));
  const range = (v: Sourced): string =>
    v.low === v.high ? figure(v.value) : `${figure(v.value)} (${figure(v.low)}-${figure(v.high)})`;
  const basis = (a: Sourced, b: Sourced): string =>
    a.basis === b.basis ? a.basis : `width ${a.basis}; height ${b.basis}`;
  const rows = (all: readonly { id: string; widthMm: Sourced; heightMm: Sourced }[]): string[][] =>
    all.map(({ id, widthMm, heightMm }) => [id, range(widthMm), range(heightMm), basis(widthMm, heightMm)]);
  const columns = (what: string) =>
    [
      { head: what, align: 'left' },
      { head: `width ${units}`, align: 'right' },
      { head: `height ${units}`, align: 'right' },
      { head: 'where it comes from', align: 'left', flexible: true },
    ] as const;
  const section = (
    heading: string,
    option: string,
    all: Parameters<typeof rows>[0] | undefined,
  ): string[][] =>
    all ? [[...wrap(heading, width), ...textTable(columns(option), rows(all), width, '  ')]] : [];
  return [
    ...section('Places: the size that designs there usually keep to', '--place', catalog.places),
    ...section(
      "Hoops: the field the needle may reach; the machine's manual goes before these",
      '--hoop',
      catalog.hoops,
    ),
  ]
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n');
}
