/** What an order takes from the shelf, as a table for a spreadsheet (RFC 4180). */
import { csvRecord } from '../csv.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { round } from '../round.js';
import type { OrderReport } from './report.js';

const COLUMNS = [
  'what',
  'item',
  'pieces',
  'spare',
  'cut_width_mm',
  'cut_height_mm',
  'area_m2',
  'length_m',
  'to_test',
];

/** A row an item; lengths in meters, as cones are sold. */
export function suppliesCsv({ supplies }: Pick<OrderReport, 'supplies'>): string {
  const { order }: Words<'order'> = wordsFor({ units: 'mm', detail: 'full' });
  const { kind } = order;
  const cut = (
    what: string,
    item: string,
    one: OrderReport['supplies']['sheets'][number] | OrderReport['supplies']['toppings'][number],
  ) => [what, item, one.pieces, one.spare, one.widthMm, one.heightMm, round(one.areaM2, 4), '', one.forTests];
  const length = (what: string, item: string, lengthMm: number) => [
    what,
    item,
    '',
    '',
    '',
    '',
    '',
    round(lengthMm / 1000, 1),
    '',
  ];
  return [
    COLUMNS,
    ...supplies.sheets.map((one) => cut(kind.backing, one.sheetName, one)),
    ...supplies.toppings.map((one) => cut(kind.topping, one.toppingName, one)),
    ...supplies.threads.map(({ color, lengthMm }) =>
      length(kind.thread, color ?? order.colorNotGiven, lengthMm),
    ),
    length(kind.bobbin, '', supplies.bobbinMm),
    ...supplies.needles.map(({ needleName }) => [kind.needle, needleName, '', '', '', '', '', '', '']),
  ]
    .map(csvRecord)
    .join('');
}
