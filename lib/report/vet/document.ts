/** The file check of one design as a document: the answer, the totals, what to do, what was found, the objects. */
import type { Fact, ReportDocument, Verdict } from '../document.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { renderText } from '../render/text.js';
import { setFacts } from '../set-words.js';
import type { TextOptions } from '../text-options.js';
import { findingEntries, groupFindings } from './found.js';
import { objectsToLookAt } from './objects.js';
import { adviceSection, riskFacts } from './on-fabric.js';
import type { VetReport } from './report.js';
import { tally, verdictOf } from './verdict.js';

export type VetWords = Words<'advice' | 'common' | 'findings' | 'picture' | 'risk' | 'setup' | 'vet'>;

/**
 * Makes the document of a report for text; a page has more (`page.ts`).
 *
 * @param allObjects every object in sewing order, not only the few that matter most
 */
export function vetDocument(report: VetReport, words: VetWords, allObjects = false): ReportDocument {
  const { common } = words;
  const found = findingEntries(groupFindings(report.findings, words), words);
  return {
    title: words.vet.title,
    language: 'en',
    blocks: [
      verdictBlock(report, `${report.file.path} (${common.tally(tally(report.findings))})`, words),
      { is: 'facts', facts: factsOf(report, words) },
      ...adviceSection(report, words),
      ...(found.length > 0
        ? [
            {
              is: 'section',
              title: words.findings.title,
              blocks: [{ is: 'entries', entries: found }],
            } as const,
          ]
        : []),
      ...objectsToLookAt(report, words, {
        id: 'objects',
        all: allObjects,
        tail: (left) => words.vet.listAll({ left }),
      }),
    ],
  };
}

/**
 * The same as text: what `lieflat vet` prints of one file.
 *
 * @example
 * ```ts
 * import { factsOf, readDesignFile, shopOf, toText } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shopOf().vet(file.design, { file: factsOf(file) });
 * toText(vetting.report, { width: 80, units: 'mm' }).includes('938 in 8 objects'); // => true
 * ```
 */
export function toText(report: VetReport, options: TextOptions, allObjects = false): string {
  const words = wordsFor({ units: options.units, detail: 'full' });
  return renderText(vetDocument(report, words, allObjects), options);
}

/** The answer, what it is about, and on a garment why it is no better. */
export function verdictBlock(
  { advice: planned, findings }: VetReport,
  line: string,
  words: VetWords,
): Verdict {
  const { common, advice } = words;
  const level = verdictOf({ advice: planned }, tally(findings));
  const reasons = planned?.verdictReasons ?? [];
  const why = reasons.length === 0 ? '' : `: ${advice.because({ reasons })}`;
  return { is: 'verdict', level, word: common.verdict[level], line: line + why };
}

/** What there is to know of a design in a line each. */
export const factsOf = (report: VetReport, words: VetWords): Fact[] => [
  ...totals(report, words),
  ...riskFacts(report, words),
  ...setFacts(report.setObjects, words),
];

/** Size, stitches, stops and thread. */
function totals({ design, objects }: VetReport, { vet, common, say }: VetWords): Fact[] {
  const kinds = (['satin', 'fill', 'run'] as const).map(
    (kind) => [objects.filter((object) => object.kind === kind).length, common.kind[kind]] as const,
  );
  const { stitches, trims, colourChanges: colorChanges, stops, jumps } = design;
  const pace = { seconds: design.sewSeconds, speedSpm: design.sewSpeedSpm };
  return [
    { label: vet.size, text: say.size(design.widthMm, design.heightMm) },
    { label: vet.stitchesLabel, text: vet.stitches({ stitches, objects: objects.length, kinds }) },
    { label: vet.machineLabel, text: vet.machine({ trims, colorChanges, stops, jumps, ...pace }) },
    { label: vet.threadLabel, text: vet.thread({ topMm: design.threadMm, bobbinMm: design.bobbinMm }) },
  ];
}
