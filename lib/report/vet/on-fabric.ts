/** What a file check predicts on a fabric, and what it advises for it. */
import { isLittleRoom } from '../../materials/places.js';
import { planSentences } from '../advise/in-vet.js';
import { needSentences, objectNeeds } from '../advise/objects.js';
import type { Block, Cell, Fact, Level, ReportSection, TableColumn } from '../document.js';
import { garmentFacts } from '../garment-facts.js';
import { gradeStep } from '../phrases/en/risk.js';
import type { Words } from '../phrases/words.js';
import { capital } from '../quantities.js';
import { namingCells, namingColumns } from './objects.js';
import type { ObjectReport, VetReport } from './report.js';
import { toAsk } from './verdict.js';

type FabricWords = Words<'advice' | 'common' | 'risk' | 'setup' | 'vet'>;

/** How a grade is set apart, smoothest first. */
export const GRADE_LEVELS = ['sound', 'note', 'warn', 'fail'] as const;
/** Objects that paper has room for; a screen has all. */
const MOST_ON_PAPER = 6;
/** What rounds to no percent is no cause. */
const LEAST_SHARE = 0.005;

/** What is predicted on the fabric that was named, and on what that is; nothing without one. */
export function riskFacts({ risk, objects }: VetReport, all: FabricWords): Fact[] {
  if (risk === null) return [];
  const { risk: words } = all;
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
  return [
    { label: words.label, text: [word, ` ${whole}.`] },
    { label: '', text: `${capital(words.on(conditions))}. ${words.sewATest}` },
    ...garmentFacts(conditions.garment, all),
  ];
}

/** How a grade is set apart. */
export const gradeLevel = (grade: number): Level => GRADE_LEVELS[gradeStep(grade)];

/** @param backed something lies behind the fabric */
export const causeWords = (cause: string, backed: boolean, { causes }: Words<'risk'>['risk']) =>
  causes[cause === 'backing' && !backed ? 'no-backing' : (cause as keyof typeof causes)];

/** What is advised, a line each; nothing without a fabric. */
export function adviceSection(report: VetReport, words: FabricWords): ReportSection[] {
  const { advice, objects } = report;
  if (advice === null) return [];
  const each = objects.flatMap((object) => object.advice ?? []);
  const items = [
    ...stopSentence(report, words),
    ...planSentences(advice, words),
    ...needSentences(each, advice.washes, words, report.findings),
    words.vet.moreAdvice({ others: advice.otherPlans }),
  ];
  return [{ is: 'section', title: words.vet.advice, blocks: [{ is: 'list', items }] }];
}

/** What keeps the file from being sewn, or is to be asked first, comes before what it is sewn on. */
function stopSentence(
  { findings, advice: planned }: VetReport,
  { setup, vet, advice }: FabricWords,
): string[] {
  // What is larger than the hoop is not the digitizer's to fix.
  const stops = findings.filter(({ severity, code }) => severity === 'fail' && code !== 'does-not-fit-hoop');
  const codes = stops.map(({ code }) => code);
  const ask = planned ? toAsk(planned).ask : [];
  return [
    ...(codes.length > 0 ? [`${setup.failures({ codes })} ${vet.haveItFixed({})}`] : []),
    ...(codes.length === 0 && ask.length > 0 ? [vet.askFirst({ codes: ask })] : []),
    ...(planned?.hoop === null ? [advice.noHoop({})] : []),
    ...(planned?.hoop?.holds && isLittleRoom(planned.hoop.roomMm)
      ? [`${capital(planned.hoop.name)}: ${setup.traceInHoop(planned.hoop)}.`]
      : []),
  ];
}

/** The same for a page, pull compensation as a table. @param id of that table */
export function adviceOnPage(report: VetReport, words: FabricWords, id: string): ReportSection[] {
  const { advice, objects } = report;
  if (advice === null) return [];
  const each = objects.flatMap((object) => object.advice ?? []);
  const blocks: Block[] = [
    { is: 'list', items: [...stopSentence(report, words), ...planSentences(advice, words)] },
    ...objectNeeds(each, advice.washes, id, words, report.findings),
  ];
  return [{ is: 'section', title: words.vet.advice, blocks }];
}

/** Where the wrinkles come from and what each object does, for a page. @param id for the ids of its tables */
export function fabricSection({ risk, objects }: VetReport, words: FabricWords, id: string): ReportSection[] {
  if (risk === null) return [];
  const { vet } = words;
  const backed = risk.conditions.stack.length > 0;
  const causes = risk.drivers
    .filter(({ share }) => share >= LEAST_SHARE)
    .map(({ cause, share }) => vet.cause({ share, ...causeWords(cause, backed, words.risk) }));
  const blocks: Block[] = [
    { is: 'paragraph', text: vet.movesIn({ mm: risk.pullInMm }) },
    ...(causes.length > 0
      ? [{ is: 'paragraph', text: vet.causes } as const, { is: 'list', items: causes } as const]
      : []),
    ...riskTables(objects, backed, words, id),
  ];
  return [{ is: 'section', title: vet.onFabric({ fabric: risk.conditions.fabricName }), blocks }];
}

function riskTables(
  objects: readonly ObjectReport[],
  backed: boolean,
  words: FabricWords,
  id: string,
): Block[] {
  const { vet, say, common } = words;
  const { column } = vet;
  const risked = objects
    .flatMap((object) => (object.risk ? [{ object, risk: object.risk }] : []))
    .sort((a, b) => b.risk.wrinkleMm - a.risk.wrinkleMm || a.object.id - b.object.id);
  if (risked.length === 0) return [];
  const columns: TableColumn[] = [
    ...namingColumns(words),
    { head: words.risk.label, sorts: true },
    { head: column.wrinkle({}), number: true, sorts: true },
    { head: column.range({}), number: true },
    { head: column.pullIn({}), number: true, sorts: true },
    { head: column.mostly },
  ];
  const rows = risked.map(({ object, risk: { grade, wrinkleMm, range, pullInMm, drivers } }): Cell[] => [
    ...namingCells(object, words),
    // Grades run from 1, severe, to 5.
    { text: vet.graded({ grade, word: words.risk.grade({ grade }) }), by: grade },
    { text: say.bare(wrinkleMm), by: wrinkleMm },
    say.bareRange(range.wrinkleMm),
    { text: say.bare(pullInMm), by: pullInMm },
    // Of what lies flat nothing is the cause.
    grade < 5 && drivers.length > 0 ? causeWords(drivers[0].cause, backed, words.risk).short : common.nothing,
  ]);
  const tail = (left: number) => common.others({ left });
  const table = { is: 'table', caption: vet.riskCaption, columns, rows, tail } as const;
  return [
    { ...table, for: 'screen', id: `${id}-risk` },
    { ...table, for: 'paper', id: `${id}-worst`, mostRows: MOST_ON_PAPER },
  ];
}
