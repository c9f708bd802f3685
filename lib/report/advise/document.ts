/** The plans for a design as a document: what to do first, then why, then what else there is, then how sure. */
import { isLittleRoom } from '../../materials/places.js';
import type { Block, ReportDocument, ReportSection, Rich, TableColumn } from '../document.js';
import { garmentFacts } from '../garment-facts.js';
import { sayCoded } from '../phrases/coded.js';
import { gradeStep } from '../phrases/en/risk.js';
import { runsOf } from '../phrases/voice.js';
import { type Words, wordsFor } from '../phrases/words.js';
import type { Units } from '../quantities.js';
import { renderHtml } from '../render/html.js';
import { renderText } from '../render/text.js';
import { setFacts } from '../set-words.js';
import type { TextOptions } from '../text-options.js';
import { GRADE_LEVELS } from '../vet/on-fabric.js';
import { toAsk } from '../vet/verdict.js';
import { objectNeeds } from './objects.js';
import { kindsIn, type PlanReport, type PlanRiskReport, type SheetToAskFor } from './plan-report.js';
import type { AdviseReport } from './report.js';

type AdviceWords = Words<'advice' | 'common' | 'risk' | 'setup' | 'vet'>;

/** Plans shown as text unless all are asked for. */
const MOST_PLANS = 6;

/**
 * Makes the document of a report.
 *
 * @param file what the design is called, with or without its folder
 * @param all every plan, not only the cheapest
 */
export function adviseDocument(
  report: AdviseReport,
  words: AdviceWords,
  { file, all }: { file: string; all: boolean },
): ReportDocument {
  const { advice, setup } = words;
  const { recommended: plan, verdict: level, fabricName: fabric } = report;
  const { washes } = plan.riskWashed;
  const line = advice.title({ file, fabric });
  const verdict = { is: 'verdict', level, word: words.common.verdict[level] } as const;
  const why = plan.reasons.map((reason) => sayCoded(reason, advice.why));
  const { verdictReasons: reasons } = report;
  const because = reasons.length === 0 ? null : advice.because({ reasons });
  return {
    title: line,
    language: 'en',
    blocks: [
      { ...verdict, line: because === null ? line : `${line}: ${because}`, for: 'text' },
      // The heading of a page names the file already.
      { ...verdict, line: because ?? why[0] ?? '', for: 'page' },
      ...faultBlocks(report, words),
      {
        is: 'facts',
        facts: [
          ...garmentFacts(report.garment, words),
          ...setFacts(report.setObjects, words),
          ...planFacts(report, words),
        ],
      },
      ...listSection(advice.whyTitle, why, 'text'),
      ...listSection(advice.whyTitle, because === null ? why.slice(1) : why, 'page'),
      ...listSection(
        advice.changesTitle,
        report.changes.map((change) => setup.changes[change]),
      ),
      ...listSection(
        advice.hoopingTitle,
        plan.hoopingNotes.map((note) => sayCoded(note, setup.hooping)),
      ),
      ...planSection(report, words, all),
      ...objectSection(report, washes, words),
      {
        is: 'section',
        title: advice.trustTitle,
        blocks: [
          { is: 'paragraph', text: advice.trust({ thread: report.threadName }) },
          ...[
            ...report.cautionCodes.map((code) => setup.cautions[code]),
            ...(report.capOrder.length > 0 ? [setup.capOrder({ objects: report.capOrder })] : []),
          ].map((text) => ({ is: 'caution', text: [{ text: advice.caution, strong: true }, text] }) as const),
        ],
      },
    ],
  };
}

/** A report as text: what `lieflat advise` prints. */
export function adviseToText(report: AdviseReport, options: TextOptions, all = false): string {
  const words = wordsFor({ units: options.units, detail: 'full' });
  return renderText(adviseDocument(report, words, { file: report.file.path, all }), options);
}

/** Backings have room for their names. */
const CSS = `#plans tbody th { min-width: 13rem; }
@media print { #plans tbody th { min-width: 0; } }
`;

/**
 * The same as a page by itself.
 *
 * @param title what the file is called
 * @returns a whole HTML document that fetches nothing
 */
export function advisePage(report: AdviseReport, { title, units }: { title: string; units: Units }): string {
  const words = wordsFor({ units, detail: 'full', commands: false });
  return renderHtml(adviseDocument(report, words, { file: title, all: true }), { css: CSS });
}

/** What is wrong with the file itself; what does not fit its hoop is told of with the hoop. */
export const failuresOf = ({ failures }: AdviseReport) =>
  failures.filter((code) => code !== 'does-not-fit-hoop');

/** What to do about what is wrong with the file, in a line before the setup. */
function faultBlocks(report: AdviseReport, { advice }: AdviceWords): Block[] {
  if (failuresOf(report).length > 0) {
    const order = { text: advice.fixFirst({}), level: 'fail', strong: true } as const;
    return [{ is: 'paragraph', text: [order] }];
  }
  if (report.warnings.length === 0) return [];
  const text = { text: advice.beforeHooping(toAsk(report)), level: 'warn', strong: true } as const;
  return [{ is: 'paragraph', text: [text] }];
}

function listSection(title: string, items: readonly string[], only?: ReportSection['for']): ReportSection[] {
  return items.length === 0 ? [] : [{ is: 'section', title, blocks: [{ is: 'list', items }], for: only }];
}

function planFacts(report: AdviseReport, words: AdviceWords): { label: string; text: Rich }[] {
  const { advice, setup, say } = words;
  const { label } = advice;
  const { recommended: plan } = report;
  const { stackName, stack, underlay, needleName, riskNow, riskWashed } = plan;
  const { washes } = riskWashed;
  const command = say.commands ? relayCommand(plan, report.file.path) : null;
  const objects = underlay.map(({ object }) => object);
  return [
    { label: label.backing, text: advice.backing({ name: stackName, kinds: kindsIn(stack) }) },
    ...plan.toAskFor.filter(isWoven).map((sheet) => ({ label: '', text: setup.wovenSheet(sheet) })),
    {
      label: label.underlay,
      text: underlay.length === 0 ? advice.underlayKept : advice.underlay({ to: underlay[0].to, objects }),
    },
    ...(command ? [{ label: '', text: advice.relayWith({ command }) }] : []),
    { label: label.topping, text: plan.toppingName ?? setup.none },
    { label: label.needle, text: needleName },
    { label: label.speed, text: advice.speed(plan) },
    { label: label.hoop, text: hoopText(report, words) },
    { label: label.asSewn, text: looks(riskNow, words) },
    washes > 0
      ? { label: label.washed({ washes }), text: looks(riskWashed, words) }
      : { label: label.notWashed, text: advice.neverWashed },
    { label: label.cost, text: advice.cost(costInCents(plan)) },
    ...runFacts(plan, words),
  ];
}

/** Cost, price and hours of the run that was asked for. */
function runFacts({ price, cost }: PlanReport, { advice }: AdviceWords): { label: string; text: Rich }[] {
  if (price === null) return [];
  const { label } = advice;
  const { currency } = cost;
  const run = { ...price, currency };
  const charged = advice.runPrice(run);
  const text: Rich =
    price.run < price.cost.run ? [charged, { text: advice.belowCost, level: 'fail', strong: true }] : charged;
  return [
    { label: label.run(price), text: advice.runCost(run) },
    { label: label.price(price), text },
    { label: label.time(price), text: advice.runTime(price) },
    ...(price.ratesAreBuiltIn ? [{ label: '', text: advice.startingPrice({}) }] : []),
  ];
}

/** Bonded sheets have kind and weight in their names. */
const isWoven = ({ kind }: SheetToAskFor): boolean => kind === 'woven';

/** The hoop, or what is wrong with it. */
function hoopText({ hoop }: AdviseReport, { advice, setup }: AdviceWords): Rich {
  if (hoop?.holds) return isLittleRoom(hoop.roomMm) ? `${hoop.name}; ${setup.traceInHoop(hoop)}` : hoop.name;
  const text = hoop === null ? advice.noHoop({}) : advice.wrongHoop(hoop);
  return [{ text, level: 'fail', strong: true }];
}

function looks({ grade, wrinkleMm, range }: PlanRiskReport, { advice, setup }: AdviceWords): Rich {
  const word = { text: setup.grade({ grade }).toUpperCase(), level: GRADE_LEVELS[gradeStep(grade)] };
  return [word, advice.looks({ grade, wrinkleMm, range: range.wrinkleMm })];
}

function planSection(report: AdviseReport, words: AdviceWords, all: boolean): ReportSection[] {
  const { advice, say } = words;
  const { plans, recommended, considered } = report;
  if (plans.length < 2) return [];
  const { column } = advice;
  const washed = recommended.riskWashed.washes > 0;
  const columns: TableColumn[] = [
    { head: column.cost(recommended.cost), number: true, sorts: true },
    { head: column.asSewn, number: true, sorts: true },
    ...(washed ? [{ head: column.washed, number: true, sorts: true }] : []),
    { head: column.setup, flexible: true, namesRow: true },
  ];
  const height = (risk: PlanRiskReport) => ({ text: advice.gradeAndHeight(risk), by: risk.wrinkleMm });
  const rows = plans.map((plan) => {
    const name = advice.planSetup({ backing: plan.stackName, to: plan.underlay[0]?.to ?? null });
    const own: Rich = plan === recommended ? [name, { text: advice.thisOne, strong: true }] : name;
    return [
      { text: say.money(plan.cost.total), by: plan.cost.total },
      height(plan.riskNow),
      ...(washed ? [height(plan.riskWashed)] : []),
      own,
    ];
  });
  const table = {
    is: 'table',
    id: 'plans',
    columns,
    rows,
    ...(all ? {} : { mostRows: MOST_PLANS }),
    tail: (left: number) => advice.morePlans({ left }),
    note: advice.plansNote({ compared: considered.plans, listed: plans.length }),
  } as const;
  return [{ is: 'section', title: advice.plansTitle, blocks: [table] }];
}

function objectSection({ objects }: AdviseReport, washes: number, words: AdviceWords): ReportSection[] {
  const { advice } = words;
  const blocks = objectNeeds(objects, washes, 'pull-compensation', words);
  if (blocks.length === 0) return [];
  const which = { is: 'paragraph', text: advice.whichObject({}) } as const;
  return [{ is: 'section', title: advice.objectsTitle, blocks: [...blocks, which] }];
}

/** A list of numbers that is longer than this is not one to type off. */
const LONGEST_LIST = 40;

/** A path that a shell takes as it is. */
const PLAIN_PATH = /^[\w./-]+$/;

/**
 * What writes the file with the plan's underlay, `lieflat relay name.dst -o name-relaid.dst --objects 1-4,7`; `…` for numbers that are too
 * many to type off; null where all stays.
 */
export function relayCommand({ underlay }: PlanReport, path: string): string | null {
  if (underlay.length === 0) return null;
  const { to } = underlay[0];
  const ids = runsOf(underlay.map(({ object }) => object)).map(([a, b]) => (a === b ? `${a}` : `${a}-${b}`));
  const list = ids.join(',');
  const file = PLAIN_PATH.test(path) ? path : '<file>';
  const written = file === path ? `${path.replace(/^.*\/|\.\w+$/g, '')}-relaid.dst` : '<new file>';
  return `lieflat relay ${file} -o ${written} --objects ${list.length <= LONGEST_LIST ? list : '…'}${to === 'fill' ? '' : ` --to ${to}`}`;
}

/** What a piece costs, in whole cents: those that rounding the parts down leaves of the total go to the parts that lost most by it. */
export function costInCents({ cost, topping }: Pick<PlanReport, 'cost' | 'topping'>) {
  const total = Number(cost.total.toFixed(2));
  // A thousandth is as fine as amounts come.
  const thousandths = [cost.backing, cost.thread, cost.machine].map((amount) => Math.round(amount * 1000));
  const cents = thousandths.map((amount) => Math.floor(amount / 10));
  const left = Math.round(total * 100) - cents.reduce((sum, part) => sum + part, 0);
  const byLoss = [0, 1, 2].sort((a, b) => (thousandths[b] % 10) - (thousandths[a] % 10));
  for (const i of byLoss.slice(0, left)) cents[i]++;
  const [backing, thread, machine] = cents.map((part) => part / 100);
  const { currency, parts } = cost;
  // What lies over the fabric is paid for with what lies behind it.
  return {
    total,
    backing,
    thread,
    machine,
    currency,
    minutes: parts.machineMinutes,
    topped: topping !== null,
  };
}
