/** What a vet report foresees on some goods, and what is advised for them. */

import { planSentences } from '../advise/in-vet.js';
import { objectNeeds } from '../advise/objects.js';
import { driverWords } from '../driver-words.js';
import { wordsFor } from '../phrases/words.js';
import { bareLength, fixed, length, type Units } from '../quantities.js';
import { blocksAsHtml } from '../render/html.js';
import { html, tag } from '../render/markup.js';
import { riskWord } from '../risk-word.js';
import { riskWords } from '../summary.js';
import type { VetReport } from '../vet/report.js';
import { htmlTable } from './table.js';
import { NAMING_COLUMNS } from './vet-objects.js';

/** Nothing where no goods were named. @param id of the section */
export function goodsParts(report: VetReport, id: string, units: Units): string {
  const words = riskWords(report, units);
  if (report.risk === null || words === null) return '';
  const { drivers, conditions, pullInMm } = report.risk;
  // What rounds to nothing is no cause.
  const shares = drivers.filter(({ share }) => share >= 0.005);
  const backed = conditions.stack.length > 0;
  return [
    tag('h3', {}, 'On the goods'),
    tag(
      'p',
      {},
      html(
        `Predicted ${words.goods}. The edges of the design move in by about ${length(pullInMm, units)} in sewing.`,
      ),
    ),
    shares.length > 0
      ? tag('p', {}, 'What the wrinkles come from:') +
        tag(
          'ul',
          {},
          ...shares.map(({ cause, share }) => {
            const { short, why } = driverWords(cause, backed);
            return tag('li', {}, html(`${short}, ${fixed(share * 100, 0)} %: ${why}`));
          }),
        )
      : '',
    riskTable(report, id, units),
    adviceParts(report, id, units),
  ].join('\n');
}

function riskTable({ objects, risk }: VetReport, id: string, units: Units): string {
  const rows = objects.flatMap((object) => (object.risk ? [{ object, risk: object.risk }] : []));
  if (rows.length === 0) return '';
  const backed = risk !== null && risk.conditions.stack.length > 0;
  return htmlTable({
    id: `${id}-risk`,
    caption:
      'What is predicted at each object, the worst first; the range is what may come of what is not known exactly',
    rows: rows.toSorted((a, b) => b.risk.wrinkleMm - a.risk.wrinkleMm || a.object.id - b.object.id),
    columns: [
      ...NAMING_COLUMNS,
      {
        head: 'risk',
        cell: ({ risk: { grade } }) => `${riskWord(grade)} (grade ${grade})`,
        // Grades run from 1, severe, to 5.
        sortBy: ({ risk: { grade } }) => grade,
      },
      {
        head: `wrinkle ${units}`,
        number: true,
        cell: ({ risk: { wrinkleMm } }) => bareLength(wrinkleMm, units),
        sortBy: ({ risk: { wrinkleMm } }) => wrinkleMm,
      },
      {
        head: `range ${units}`,
        number: true,
        cell: ({ risk: { range } }) =>
          `${bareLength(range.wrinkleMm[0], units)} to ${bareLength(range.wrinkleMm[1], units)}`,
      },
      {
        head: `pull-in ${units}`,
        number: true,
        cell: ({ risk: { pullInMm } }) => bareLength(pullInMm, units),
        sortBy: ({ risk: { pullInMm } }) => pullInMm,
      },
      {
        head: 'mostly',
        // Of what lies flat nothing is the cause.
        cell: ({ risk: { grade, drivers } }) =>
          grade < 5 && drivers.length > 0 ? html(driverWords(drivers[0].cause, backed).short) : '-',
      },
    ],
  });
}

function adviceParts({ advice, objects }: VetReport, id: string, units: Units): string {
  if (advice === null) return '';
  const words = wordsFor({ units, detail: 'full' });
  const each = objects.flatMap((object) => object.advice ?? []);
  return [
    tag('h3', {}, 'What is advised'),
    tag('ul', {}, ...planSentences(advice, words).map((line) => tag('li', {}, html(line)))),
    blocksAsHtml(objectNeeds(each, advice.washes, `${id}-pull-compensation`, words)),
  ].join('\n');
}
