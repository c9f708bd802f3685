/** The objects of a design as tables. */
import { middleOf } from '../../core/bounds.js';
import type { Cell, ReportSection, TableColumn } from '../document.js';
import type { Words } from '../phrases/words.js';
import { type RankedObject, rankObjects } from '../rank-objects.js';
import type { ObjectReport, VetReport } from './report.js';

type ObjectWords = Words<'common' | 'vet'>;

/** Objects shown unless all are asked for. */
const MOST_OBJECTS = 6;
/** Rows of the table of all objects on a page; where they are more, those that matter most. */
const MOST_ON_PAGE = 2000;

/** `satin`, `split satin`. */
const kindOf = ({ split, kind }: ObjectReport, { common }: ObjectWords): string =>
  split ? common.kind.split : common.kind[kind];

/**
 * The few objects that matter most, for text and paper; with `all` every object in sewing order.
 *
 * @param tail says what is left out
 */
export function objectsToLookAt(
  report: VetReport,
  words: ObjectWords,
  { id, all = false, tail }: { id: string; all?: boolean; tail: (left: number) => string },
): ReportSection[] {
  const { vet, common, say } = words;
  const ranked = rankObjects(report);
  const shown = all
    ? ranked.toSorted((a, b) => a.object.id - b.object.id)
    : ranked.filter(({ counts }) => counts.fail + counts.warn > 0).slice(0, MOST_OBJECTS);
  if (shown.length === 0) return [];
  const { column } = vet;
  const columns: TableColumn[] = [
    { head: column.object, number: true, namesRow: true },
    { head: column.kind },
    { head: column.place({}), number: true },
    { head: column.width({}), number: true },
    { head: column.spacing({}), number: true },
    { head: column.underlay, flexible: true },
    { head: column.found },
  ];
  const rows = shown.map(({ object, counts }) => [
    String(object.id),
    kindOf(object, words),
    say.place(middleOf(object.bounds)),
    object.widthMm ? say.bare(object.widthMm.p95) : common.nothing,
    object.spacingMm ? say.bare(object.spacingMm.median) : common.nothing,
    common.underlayList({ kinds: object.underlay.kinds }),
    vet.found(counts),
  ]);
  const more = report.objects.length - shown.length;
  const table = { is: 'table', id, columns, rows, more, tail } as const;
  return [{ is: 'section', title: all ? vet.allObjects : vet.objectsThatMatter, blocks: [table] }];
}

/** Every object in sewing order, to sort on a screen. */
export function allObjects(report: VetReport, words: ObjectWords, id: string): ReportSection {
  const { vet, common, say } = words;
  const { column } = vet;
  const ranked = rankObjects(report);
  if (ranked.length === 0)
    return { is: 'section', title: vet.allObjects, blocks: [{ is: 'paragraph', text: vet.noObjects }] };
  // How much an object matters is its place in the ranking.
  const rank = new Map(ranked.map(({ object }, i) => [object.id, i]));
  const figure = (value: number | null, said: (value: number) => string): Cell =>
    value === null ? { text: common.nothing, by: null } : { text: said(value), by: value };
  const length = (mm: number) => say.bare(mm);
  const columns: TableColumn[] = [
    ...namingColumns(words),
    { head: column.color, number: true, sorts: true },
    { head: column.middle({}), number: true },
    { head: column.width({}), number: true, sorts: true },
    { head: column.spacing({}), number: true, sorts: true },
    { head: column.stitch({}), number: true, sorts: true },
    { head: column.points, number: true, sorts: true },
    { head: column.underlay, sorts: true },
    { head: column.locks, sorts: true },
    { head: column.found, sorts: true },
  ];
  const row = ({ object, counts }: RankedObject): Cell[] => [
    ...namingCells(object, words),
    figure(object.block, String),
    say.place(middleOf(object.bounds)),
    figure(object.widthMm?.p95 ?? null, length),
    figure(object.spacingMm?.median ?? null, length),
    figure(object.stitchLengthMm.median, length),
    figure(object.areaMm2 > 0 ? object.densityPerMm2 : null, (value) => say.fixed(value, 1)),
    common.underlayList({ kinds: object.underlay.kinds }),
    vet.locks(object.locks),
    { text: vet.found(counts), by: rank.get(object.id) ?? null },
  ];
  const shown = ranked.slice(0, MOST_ON_PAGE).sort((a, b) => a.object.id - b.object.id);
  return {
    is: 'section',
    title: vet.allObjects,
    blocks: [
      {
        is: 'table',
        id,
        caption: vet.objectsCaption,
        columns,
        rows: shown.map(row),
        more: ranked.length - shown.length,
        tail: (left) => common.others({ left }),
      },
    ],
  };
}

/** Which object a row is about. */
export const namingColumns = ({ vet }: ObjectWords): TableColumn[] => [
  { head: vet.column.object, number: true, namesRow: true, sorts: true },
  { head: vet.column.kind, sorts: true },
];

export function namingCells(object: ObjectReport, words: ObjectWords): Cell[] {
  const kind = kindOf(object, words);
  return [{ text: String(object.id), by: object.id }, object.setByShop ? words.vet.kindSet({ kind }) : kind];
}
