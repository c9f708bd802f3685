/** What the operator writes down of the sew-out, with the line that the shop's log of graded sew-outs takes. */
import type { UnderlayChange } from '../../advice/plan.js';
import { LOG_COLUMNS } from '../../calibrate/log-columns.js';
import { underlayText } from '../../calibrate/underlay-text.js';
import { csvRecord } from '../csv.js';
import { html, tag } from '../render/markup.js';
import type { CardWords } from './words.js';

/** Smoothest first, in half steps. */
export const RING_GRADES = [5, 4.5, 4, 3.5, 3, 2.5, 2, 1.5, 1] as const;

/** Height of the fields on paper at least, without heading and log, mm: room for a pen. */
export const RECORD_MM = 25;

export interface RecordFacts {
  /** Name of the file, without folders. */
  file: string;
  fabric: string;
  stackText: string;
  underlay: readonly UnderlayChange[];
}

/** The head and the line of a log (RFC 4180), as the plan says it is sewn; what is left empty the operator fills in. */
export function recordLines({
  file,
  fabric,
  stackText,
  underlay,
}: RecordFacts): [head: string, line: string] {
  return [LOG_COLUMNS, [file, fabric, stackText, underlayText(underlay), '', '', '']].map((cells) =>
    csvRecord(cells).trimEnd(),
  ) as [string, string];
}

export function recordSection(facts: RecordFacts, { card: { record } }: CardWords): string {
  const [head, line] = recordLines(facts);
  return tag(
    'section',
    { class: 'record' },
    tag('h2', {}, html(record.title)),
    tag(
      'div',
      { class: 'blanks' },
      blank(record.operator),
      blank(record.date),
      blank(record.garment, 'wide'),
    ),
    tag(
      'div',
      { class: 'grades' },
      tag('p', {}, html(record.asSewn), ' ', rings()),
      tag(
        'p',
        {},
        html(record.after),
        ' ',
        tag('span', { class: 'fill short' }),
        ` ${html(record.washes)} `,
        rings(),
      ),
    ),
    tag('div', { class: 'blanks remarks' }, blank(record.remarks)),
    tag('p', { class: 'log' }, html(record.log), tag('code', {}, html(head)), tag('code', {}, html(line))),
  );
}

const blank = (label: string, extra = ''): string =>
  tag('p', { class: `blank ${extra}`.trim() }, html(label), ' ', tag('span', { class: 'fill' }));

const rings = (): string =>
  RING_GRADES.map((grade) => tag('span', { class: 'ring' }, String(grade))).join(' ');
