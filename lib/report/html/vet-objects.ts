/** The table of objects in a vet report. */
import { underlayNames } from '../../vetting/words.js';
import { bareLength, fixed, place, type Units } from '../quantities.js';
import { type RankedObject, rankObjects } from '../rank-objects.js';
import { html, tag } from '../render/markup.js';
import { SEVERITIES } from '../summary.js';
import type { ObjectReport, VetReport } from '../vet/report.js';
import { htmlTable, MOST_ROWS, type TableColumn } from './table.js';

/** Which object a row is about. */
export const NAMING_COLUMNS: readonly TableColumn<{ object: ObjectReport }>[] = [
  {
    head: 'object',
    number: true,
    namesRow: true,
    cell: ({ object }) => String(object.id),
    sortBy: ({ object }) => object.id,
  },
  {
    head: 'kind',
    cell: ({ object }) => kindWords(object),
    sortBy: ({ object }) => kindWords(object),
  },
];

/** Every object in sewing order. @param id of the section */
export function objectTable(report: VetReport, id: string, units: Units): string {
  const rows = rankObjects(report);
  if (rows.length === 0) return tag('p', {}, 'No objects were found.');
  // How much an object matters is its place in the ranking.
  const rank = new Map(rows.map(({ object }, i) => [object.id, i]));
  const middle = ({ bounds: b }: ObjectReport): string =>
    place((b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2, units);
  const figure = (
    head: string,
    of: (object: ObjectReport) => number | null,
    set: (value: number) => string,
  ): TableColumn<RankedObject> => ({
    head,
    number: true,
    cell: ({ object }) => {
      const value = of(object);
      return value === null ? '-' : set(value);
    },
    sortBy: ({ object }) => of(object),
  });
  const lengthOf = (value: number): string => bareLength(value, units);
  return htmlTable<RankedObject>({
    id: `${id}-objects`,
    caption:
      'Width is what 95 of 100 stitches across a column stay within; spacing and stitch are the middle value',
    // Where they are too many, those that matter most.
    rows: rows.slice(0, MOST_ROWS).sort((a, b) => a.object.id - b.object.id),
    more: Math.max(0, rows.length - MOST_ROWS),
    columns: [
      ...NAMING_COLUMNS,
      figure('colour', ({ block }) => block, String),
      { head: `middle x, y ${units}`, number: true, cell: ({ object }) => middle(object) },
      figure(`width ${units}`, ({ widthMm }) => widthMm?.p95 ?? null, lengthOf),
      figure(`spacing ${units}`, ({ spacingMm }) => spacingMm?.median ?? null, lengthOf),
      figure(`stitch ${units}`, ({ stitchLengthMm }) => stitchLengthMm.median, lengthOf),
      figure(
        'points a mm²',
        ({ areaMm2, densityPerMm2 }) => (areaMm2 > 0 ? densityPerMm2 : null),
        (value) => fixed(value, 1),
      ),
      {
        head: 'underlay',
        cell: ({ object }) => html(underlayNames(object.underlay.kinds)),
        sortBy: ({ object }) => underlayNames(object.underlay.kinds),
      },
      { head: 'locks', cell: ({ object }) => lockWords(object), sortBy: ({ object }) => lockWords(object) },
      {
        head: 'found',
        cell: ({ counts }) =>
          SEVERITIES.filter((s) => counts[s] > 0)
            .map((s) => `${counts[s]}&nbsp;${s.toUpperCase()}`)
            .join(' ') || '-',
        sortBy: ({ object }) => rank.get(object.id)!,
      },
    ],
  });
}

const kindWords = ({ split, kind, setByShop }: ObjectReport): string =>
  `${split ? 'split satin' : kind}${setByShop ? ' (set by you)' : ''}`;

function lockWords({ locks: { start, end } }: ObjectReport): string {
  if (start && end) return 'both';
  return start ? 'start' : end ? 'end' : 'none';
}
