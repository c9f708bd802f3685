/** What was found, as a picture with numbers and the list that they lead to. */

import type { Stitches } from '../../format/stitches.js';
import type { Finding } from '../../vetting/finding.js';
import { fileName } from '../file-name.js';
import { wordsFor } from '../phrases/words.js';
import { wordsOf } from '../phrases/words-of.js';
import { count, length, place, type Units } from '../quantities.js';
import { html, tag } from '../render/markup.js';
import { printable } from '../render/printable.js';
import { notDrawn } from '../stitch-path.js';
import { SEVERITIES } from '../summary.js';
import { tidy } from '../svg.js';
import type { VetReport } from '../vet/report.js';
import { type NumberedFindings, numberFindings } from './callouts.js';
import { CALLOUT_RADIUS, calloutKey, findingPicture, frame } from './finding-picture.js';
import { severityMark } from './severity-mark.js';
import { htmlTable } from './table.js';

export interface FoundParts {
  picture: string;
  list: string;
}

/** @param id of the section, for the ids of its parts */
export function foundParts(report: VetReport, stitches: Stitches, id: string, units: Units): FoundParts {
  const framing = frame(report.design);
  // Callouts of one kind that would stand on each other share a number.
  const numbered = numberFindings(report.findings, (2 * CALLOUT_RADIUS) / framing.perMm);
  const label = `The stitches of ${printable(fileName(report.file.path))}, with ${count(numbered.places.length)} numbered places`;
  return {
    picture: tag(
      'figure',
      {},
      tag(
        'div',
        {
          class: 'picture',
          role: 'group',
          tabindex: 0,
          'aria-label': `Picture of ${fileName(report.file.path)}`,
        },
        findingPicture(report, stitches, numbered.places, framing, label),
      ),
      caption(numbered, stitches),
    ),
    list: list(numbered, id, units),
  };
}

function caption({ places }: NumberedFindings, stitches: Stitches): string {
  const less = notDrawn(stitches).map(
    (part) => ` Not whole: ${wordsFor({ units: 'mm', detail: 'short' }).picture.notDrawn(part)}.`,
  );
  if (places.length === 0) return tag('figcaption', {}, 'To scale; the bars show how long.', ...less);
  const severities = SEVERITIES.filter((severity) => places.some((p) => p.severity === severity));
  return tag(
    'figcaption',
    {},
    'To scale; numbers lead to the list. Objects with something found are drawn darker.',
    ...less,
    tag(
      'ul',
      { class: 'keys' },
      ...severities.map((severity) => tag('li', {}, calloutKey(severity), ` ${severity.toUpperCase()}`)),
    ),
  );
}

function list({ list }: NumberedFindings, id: string, units: Units): string {
  if (list.length === 0) return tag('p', {}, 'Nothing was found.');
  return htmlTable({
    id: `${id}-findings`,
    caption: 'The severest first, numbered as in the picture',
    rows: list,
    columns: [
      {
        head: 'No.',
        number: true,
        namesRow: true,
        cell: ({ number }) => (number === null ? '-' : String(number)),
        sortBy: ({ number }) => number,
      },
      {
        head: 'severity',
        cell: ({ finding }) => severityMark(finding.severity),
        sortBy: ({ finding }) => SEVERITIES.indexOf(finding.severity),
      },
      {
        head: 'what, and what to do',
        cell: ({ finding }) =>
          tag('span', { class: 'what' }, html(wordsOf(finding, { units, detail: 'full' }))) +
          tag('br') +
          tag('span', { class: 'quiet small' }, html(finding.code)),
        sortBy: ({ finding }) => finding.code,
      },
      {
        head: 'object',
        number: true,
        cell: ({ finding }) => (finding.object === null ? '-' : String(finding.object)),
        sortBy: ({ finding }) => finding.object,
      },
      {
        head: `x, y ${units}`,
        number: true,
        cell: ({ finding: { at } }) => (at ? place(at.x, at.y, units) : '-'),
      },
      { head: 'measured', number: true, cell: ({ finding }) => amount(finding.measured, finding, units) },
      { head: 'limit', number: true, cell: ({ finding }) => amount(finding.limit, finding, units) },
      {
        head: 'what the limit rests on',
        cell: ({ finding }) => tag('span', { class: 'why' }, html(finding.basis)),
      },
    ],
  });
}

function amount(value: Finding['measured'], { unit }: Finding, units: Units): string {
  if (value === null) return '-';
  if (typeof value === 'number' && unit === 'mm') return length(value, units);
  return html(`${typeof value === 'number' ? tidy(value) : value}${unit === null ? '' : ` ${unit}`}`);
}
