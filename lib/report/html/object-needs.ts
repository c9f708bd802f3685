/** What the objects of a design need on some goods, for a page. */
import { adviceSentences, DRAWN_OUT_NOTE, type DrawnOut, drawnOut } from '../advice-groups.js';
import type { ObjectAdviceReport } from '../advice-report.js';
import { messageInUnits } from '../message-in-units.js';
import { idList } from '../plan-words.js';
import { bareLength, type Units } from '../quantities.js';
import { html, tag } from '../render/markup.js';
import { htmlTable, type TableColumn } from './table.js';

/** @param id of the table, unique on its page */
export function objectNeeds(
  objects: readonly ObjectAdviceReport[],
  washes: number,
  id: string,
  units: Units,
): string {
  const said = (line: string): string => html(messageInUnits(line, units));
  const sentences = adviceSentences(objects, washes);
  const amounts = drawnOut(objects);
  const amount = (of: Units): TableColumn<DrawnOut> => ({
    head: of,
    number: true,
    cell: ({ mm }) => bareLength(mm, of),
    sortBy: ({ mm }) => mm,
  });
  return [
    ...(sentences.length > 0 ? [tag('ul', {}, ...sentences.map((line) => tag('li', {}, said(line))))] : []),
    ...(amounts.length > 0
      ? [
          htmlTable({
            id,
            caption: `Pull compensation. ${messageInUnits(DRAWN_OUT_NOTE, units)}`,
            rows: amounts,
            columns: [
              { ...amount(units), namesRow: true },
              amount(units === 'mm' ? 'in' : 'mm'),
              { head: 'objects', cell: ({ objects: ids }) => html(idList(ids)) },
            ],
          }),
        ]
      : []),
  ].join('\n');
}
