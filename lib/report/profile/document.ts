/** The profile in use as a document: its file and what it changes. */
import type { ReportDocument } from '../document.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { renderText } from '../render/text.js';
import type { TextOptions } from '../text-options.js';
import type { ProfileFigure, ProfileReport } from './report.js';

/** @param name the file that is looked for where none is in use */
export function profileDocument(
  { path, differences }: ProfileReport,
  words: Words<'profile'>,
  name: string,
): ReportDocument {
  const { profile } = words;
  const { column } = profile;
  const line = path === null ? profile.none({ name }) : profile.inUse({ path, figures: differences.length });
  // A heading is nothing without what stands under it.
  if (differences.length === 0)
    return { title: profile.title, language: 'en', blocks: [{ is: 'paragraph', text: line }] };
  return {
    title: profile.title,
    language: 'en',
    blocks: [
      {
        is: 'section',
        title: line,
        blocks: [
          {
            is: 'table',
            id: 'figures',
            columns: [
              { head: column.key, namesRow: true, flexible: true },
              { head: column.here, number: true },
              { head: column.builtIn, number: true },
              { head: column.unit },
            ],
            rows: differences.map(({ key, value, builtIn, unit }) => [
              key,
              shown(value, words),
              shown(builtIn, words),
              unit,
            ]),
          },
        ],
      },
    ],
  };
}

/** The same as text: what `lieflat profile` prints. Every line fits the width. */
export function profileToText(report: ProfileReport, options: TextOptions, name: string): string {
  const words = wordsFor({ units: options.units, detail: 'full' });
  return renderText(profileDocument(report, words, name), options);
}

const shown = (figure: ProfileFigure, { profile, say }: Words<'profile'>): string => {
  if (figure === null) return profile.nothing;
  return typeof figure === 'number' ? say.significant(figure, 6) : String(figure);
};
