/** The file check of one design as a document: the answer, the totals, what to do, what was found, the objects. */

import { planSentences } from '../advise/in-vet.js';
import { needSentences } from '../advise/objects.js';
import type { Block, Column, Level, ReportDocument, Rich, Section } from '../document.js';

import { gradeStep } from '../phrases/en/risk.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { rankObjects } from '../rank-objects.js';
import { renderText } from '../render/text.js';
import { tally, verdictOf } from '../summary.js';
import type { TextOptions } from '../text-options.js';
import { findingEntries, groupFindings } from './found.js';
import type { ObjectReport, SetObjectReport, VetReport } from './report.js';

type VetWords = Words<'advice' | 'common' | 'findings' | 'risk' | 'setup' | 'vet'>;

/** Objects shown unless all are asked for. */
const MOST_OBJECTS = 6;
/** How a grade is set apart, smoothest first. */
export const GRADE_LEVELS = ['sound', 'note', 'warn', 'fail'] as const;

/**
 * Makes the document of a report.
 *
 * @param allObjects every object in sewing order, not only the few that matter most
 */
export function vetDocument(report: VetReport, words: VetWords, allObjects = false): ReportDocument {
  return {
    title: words.vet.title,
    language: 'en',
    blocks: [
      verdictBlock(report, words),
      {
        is: 'facts',
        facts: [...totals(report, words), ...riskFacts(report, words), ...setFacts(report.setObjects, words)],
      },
      ...adviceSection(report, words),
      ...findingBlocks(report, words),
      ...objectSection(report, words, allObjects),
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

function verdictBlock({ file, findings }: VetReport, { common }: VetWords): Block {
  const counts = tally(findings);
  const { level } = verdictOf(counts);
  return {
    is: 'verdict',
    level,
    word: common.verdict[level],
    line: `${file.path} (${common.tally(counts)})`,
  };
}

interface Fact {
  label: string;
  text: Rich;
}

/** Size, stitches, stops and thread. */
export function totals({ design, objects }: VetReport, { vet, common, say }: VetWords): Fact[] {
  const kinds = (['satin', 'fill', 'run'] as const).map(
    (kind) => [objects.filter((object) => object.kind === kind).length, common.kind[kind]] as const,
  );
  const { stitches, trims, colourChanges: colorChanges, stops, jumps, sewSeconds: seconds } = design;
  return [
    { label: vet.size, text: say.size(design.widthMm, design.heightMm) },
    { label: vet.stitchesLabel, text: vet.stitches({ stitches, objects: objects.length, kinds }) },
    { label: vet.machineLabel, text: vet.machine({ trims, colorChanges, stops, jumps, seconds }) },
    { label: vet.threadLabel, text: vet.thread({ topMm: design.threadMm, bobbinMm: design.bobbinMm }) },
  ];
}

/** What is predicted on the fabric that was named, and on what that is. */
function riskFacts({ risk, objects }: VetReport, { risk: words }: VetWords): Fact[] {
  if (risk === null) return [];
  const { conditions, drivers, grade, wrinkleMm, range } = risk;
  // Of what lies flat nothing is the cause, and no object is the worst.
  const [main] = grade < 5 ? drivers : [];
  const cause = main ? causeWords(main.cause, conditions.stack.length > 0, words).short : null;
  const worst = objects.reduce<ObjectReport | null>(
    (most, object) => ((object.risk?.wrinkleMm ?? 0) > (most?.risk?.wrinkleMm ?? 0) ? object : most),
    null,
  );
  const whole = words.whole({ grade, wrinkleMm, range: range.wrinkleMm, cause, worst: worst?.id ?? null });
  const word = { text: words.grade({ grade }).toUpperCase(), level: gradeLevel(grade) };
  const on = words.on({
    fabric: conditions.fabricName,
    backing: conditions.stackName,
    given: conditions.stackGiven,
  });
  return [
    { label: words.label, text: [word, ` ${whole}. ${words.sewATest}`] },
    { label: '', text: on },
  ];
}

/** How a grade is set apart. */
export const gradeLevel = (grade: number): Level => GRADE_LEVELS[gradeStep(grade)];

/** @param backed something lies behind the fabric */
export const causeWords = (cause: string, backed: boolean, { causes }: Words<'risk'>['risk']) =>
  causes[cause === 'backing' && !backed ? 'no-backing' : (cause as keyof typeof causes)];

/** What the shop has set right: a fact for all that stands, and one for each that cannot be so. */
export function setFacts(set: readonly SetObjectReport[], { vet }: Words<'vet'>): Fact[] {
  const nameOf = ({ object, stitchRange: stitches }: SetObjectReport) => vet.objectName({ object, stitches });
  const done = set.filter((one) => one.done);
  const back = done.find(({ object }) => object !== null)?.object ?? null;
  const objects = done.map((one) => ({ name: nameOf(one), is: one.is }));
  return [
    ...(done.length > 0 ? [vet.setRight({ objects, back })] : []),
    ...set.flatMap((one) =>
      one.done ? [] : [vet.notSetRight({ name: nameOf(one), is: one.is, why: one.why ?? '' })],
    ),
  ].map((text) => ({ label: vet.objectsLabel, text }));
}

function adviceSection({ advice, objects }: VetReport, words: VetWords): Section[] {
  if (advice === null) return [];
  const each = objects.flatMap((object) => object.advice ?? []);
  const items = [
    ...planSentences(advice, words),
    ...needSentences(each, advice.washes, words),
    words.vet.moreAdvice,
  ];
  return [{ is: 'section', title: words.vet.advice, blocks: [{ is: 'list', items }] }];
}

/** The findings under their title, those of one kind as one; nothing where there are none. */
function findingBlocks({ findings }: VetReport, words: VetWords): Section[] {
  const entries = findingEntries(groupFindings(findings, words), words);
  if (entries.length === 0) return [];
  return [{ is: 'section', title: words.findings.title, blocks: [{ is: 'entries', entries }] }];
}

function objectSection(report: VetReport, words: VetWords, all: boolean): Section[] {
  const { vet, common, say } = words;
  const ranked = rankObjects(report);
  const shown = all
    ? ranked.toSorted((a, b) => a.object.id - b.object.id)
    : ranked.filter(({ counts }) => counts.fail + counts.warn > 0).slice(0, MOST_OBJECTS);
  if (shown.length === 0) return [];
  const columns: Column[] = [
    { head: vet.column.object, number: true },
    { head: vet.column.kind },
    { head: vet.column.place({}), number: true },
    { head: vet.column.width({}), number: true },
    { head: vet.column.spacing({}), number: true },
    { head: vet.column.underlay, flexible: true },
    { head: vet.column.found },
  ];
  const rows = shown.map(({ object, counts }) => [
    String(object.id),
    object.split ? common.kind.split : common.kind[object.kind],
    say.place(middleOf(object)),
    object.widthMm ? say.bare(object.widthMm.p95) : common.nothing,
    object.spacingMm ? say.bare(object.spacingMm.median) : common.nothing,
    common.underlayList({ kinds: object.underlay.kinds }),
    vet.found(counts),
  ]);
  const more = report.objects.length - shown.length;
  const tail = (left: number) => vet.listAll({ left });
  const table = { is: 'table', id: 'objects', columns, rows, more, tail } as const;
  return [{ is: 'section', title: all ? vet.allObjects : vet.objectsThatMatter, blocks: [table] }];
}

/** The middle of the box of an object. */
export const middleOf = ({ bounds: { minX, minY, maxX, maxY } }: ObjectReport) => ({
  x: (minX + maxX) / 2,
  y: (minY + maxY) / 2,
});
