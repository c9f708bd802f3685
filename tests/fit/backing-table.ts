/**
 * Prints the materials' table of fabrics: on each the kind of backing that the trade recommends against the wrong kind (common practice, no
 * source), under the sample name drop, as sewn.
 *
 *     node --import tsx tests/fit/backing-table.ts
 */

import { CATALOGUE } from '../../lib/materials/catalogue.js';
import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import { assess, prepare, type Risk } from '../../lib/mechanics/risk.js';
import { parseStack } from '../../lib/mechanics/stack-notation.js';
import { wordsFor } from '../../lib/report/phrases/words.js';
import { SHOP } from '../built-in-shop.js';
import { sampleDesign } from '../mechanics/sample-designs.js';

const BONDED = 'cutaway-2.5oz';
const FIRM = 'tearaway-1.8oz-firm';
const WOVEN = 'woven-polyester';

/** By fabric: recommended, wrong. */
export const CHOICES: Readonly<Record<string, readonly [recommended: string, wrong: string]>> = {
  'pique-knit': [BONDED, FIRM],
  'jersey-knit': [BONDED, FIRM],
  'jersey-tee': [BONDED, FIRM],
  'performance-knit': [BONDED, FIRM],
  'performance-knit-thin': [`${WOVEN}+${BONDED}+${WOVEN}@45`, BONDED],
  'stretch-scrub': [`${WOVEN}+${WOVEN}@45`, BONDED],
  fleece: [BONDED, FIRM],
  'fine-sweater': [BONDED, FIRM],
  'woven-scrub': [FIRM, 'none'],
  poplin: [BONDED, 'none'],
  twill: [BONDED, 'none'],
  denim: [BONDED, 'none'],
  'sheer-linen': ['tearaway-1.8oz-crisp', 'none'],
  'terry-towel': ['soluble-film', 'none'],
  'cap-unstructured': ['cap-backing+cap-backing', 'none'],
  'cap-structured': [FIRM, 'none'],
  'canvas-tote': [FIRM, 'none'],
  'beanie-knit': [BONDED, FIRM],
  'leggings-knit': [`${WOVEN}+${WOVEN}@45`, BONDED],
  softshell: [BONDED, 'none'],
  'nylon-jacket': [BONDED, 'none'],
  leather: [FIRM, 'none'],
  silk: ['cutaway-mesh-1.5oz', 'none'],
};

/** What comes of both kinds on one fabric. */
export interface BackingRow {
  readonly fabric: string;
  readonly right: Risk;
  readonly wrong: Risk;
}

export const backingRows = (design: PreparedDesign, fabrics = Object.keys(CHOICES)): BackingRow[] =>
  fabrics.map((fabric) => {
    const [right, wrong] = CHOICES[fabric].map((stack) =>
      assess(design, { fabric, stack: parseStack(stack, CATALOGUE) }, SHOP),
    );
    return { fabric, right, wrong };
  });

/** Rows of the table in Markdown. */
export function backingLines(rows: readonly BackingRow[]): string[] {
  const cell = ({ wrinkleMm, grade }: Risk): string =>
    `${wrinkleMm.toFixed(2)} mm, grade ${grade} (${wordsFor({ units: 'mm', detail: 'full' }).risk.grade({ grade })})`;
  const row = ({ fabric, right, wrong }: BackingRow): string => {
    const [recommended, instead] = CHOICES[fabric];
    return `| \`${fabric}\` | \`${recommended}\` | ${cell(right)} | \`${instead}\` | ${cell(wrong)} |`;
  };
  return rows.map(row);
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  const rows = backingRows(prepare(await sampleDesign('name-drop.dst'), SHOP.catalogue));
  const head = [
    '| fabric | recommended | wrinkles | instead | wrinkles |',
    '| --- | --- | --- | --- | --- |',
  ];
  console.log([...head, ...backingLines(rows)].join('\n'));
}
