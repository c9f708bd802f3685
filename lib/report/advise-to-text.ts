/** The plans for a person at a terminal: what to do first, then why, then what else there is. */
import { underlayWords } from '../advice/words.js';
import { adviceSentences, DRAWN_OUT_NOTE, drawnOut } from './advice-groups.js';
import type { PlanReport, PlanRiskReport } from './advice-report.js';
import type { AdviseReport } from './advise-report.js';
import { labelled } from './labelled.js';
import { messageInUnits } from './message-in-units.js';
import {
  costWords,
  failureWords,
  idList,
  looksWords,
  moneyWords,
  planHoopWords,
  planTrustWords,
  relayCommand,
  relayWords,
} from './plan-words.js';
import { bareLength, count, counted } from './quantities.js';
import { NO_PAINT } from './render/paint.js';
import { printable } from './render/printable.js';
import { textTable } from './render/text-table.js';
import { wrap } from './render/wrap.js';
import { riskPaint, riskWord } from './risk-word.js';
import { setByYouWords } from './set-words.js';
import type { TextOptions } from './text-options.js';

const INDENT = '  ';
/** Plans shown unless all are asked for. */
const MOST = 6;

/** Sets a report as text. Every line fits the width; names are made safe for a terminal. */
export function adviseToText(report: AdviseReport, options: TextOptions, all = false): string {
  const shown = report.recommended;
  return `${[
    [...headline(report, options), ...planLines(report, shown, options)],
    sentences('Why', shown.why, options),
    sentences('What would have to change', report.mustChange, options),
    sentences('Hooping', shown.hooping, options),
    otherPlans(report, shown, options, all),
    sentences('Object by object', adviceSentences(report.objects, shown.riskWashed.washes), options),
    drawnOutLines(report, options),
    report.objects.length > 0 ? ['lieflat draw shows which object is which.'] : [],
    trust(report, options),
  ]
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n')}`;
}

function headline({ file, fabricName, meets }: AdviseReport, options: TextOptions): string[] {
  const { width, paint = NO_PAINT } = options;
  const word = meets === 'no' ? 'NOT GOOD ENOUGH' : 'DO THIS';
  const dress = { yes: paint.sound, may: paint.warn, no: paint.fail }[meets];
  const text = `${printable(file.path)} on ${printable(fabricName)}`;
  const [first, ...more] = wrap(text, width, `${word}  `, INDENT);
  return [
    `${dress(word)}${paint.strong(first.slice(word.length))}`,
    ...more.map((line) => paint.strong(line)),
  ];
}

function planLines(
  report: AdviseReport,
  plan: PlanReport,
  { width, units, paint = NO_PAINT }: TextOptions,
): string[] {
  const cost = costWords(plan);
  const relay = relayCommand(plan);
  const looks = (risk: PlanRiskReport, when: string): string[] => {
    const word = riskWord(risk.grade);
    const loud = riskPaint(risk.grade, paint)(word.toUpperCase());
    return labelled(when, looksWords(risk, units), width).map((line, i) =>
      i === 0 ? line.replace(word, loud) : line,
    );
  };
  const washed = plan.riskWashed.washes;
  return [
    ...failureWords(report).flatMap((line) => wrap(line, width, INDENT)),
    ...setByYouWords(report.setObjects).flatMap((text) => labelled('objects', printable(text), width)),
    ...labelled('backing', printable(plan.stackName), width),
    ...labelled('underlay', relayWords(plan), width),
    ...(relay ? labelled('', `(${relay} lays it, and names what it has to leave)`, width) : []),
    ...labelled('topping', plan.toppingName ? printable(plan.toppingName) : 'none', width),
    ...labelled('needle', `${printable(plan.needleName)}; ${count(plan.speedSpm)} stitches a minute`, width),
    ...labelled('hoop', printable(planHoopWords(report)), width),
    ...looks(plan.riskNow, 'as sewn'),
    ...(washed > 0
      ? looks(plan.riskWashed, washed === 1 ? '1 wash' : `${washed} washes`)
      : labelled('washed', 'not: these goods must not get wet, or no wash was asked for', width)),
    ...labelled('cost', `${cost.total} a piece: ${cost.parts}`, width),
  ];
}

function sentences(heading: string, lines: readonly string[], { width, units }: TextOptions): string[] {
  if (lines.length === 0) return [];
  const said = (line: string) => printable(messageInUnits(line, units));
  return [heading, ...lines.flatMap((line) => wrap(said(line), width, `${INDENT}- `, `${INDENT}  `))];
}

function otherPlans(report: AdviseReport, shown: PlanReport, options: TextOptions, all: boolean): string[] {
  const { width, units } = options;
  const others = report.plans.filter((plan) => plan !== shown);
  if (others.length === 0) return [];
  const listed = all ? others : others.slice(0, MOST);
  const left = others.length - listed.length;
  return [
    'Other plans, cheapest first',
    ...textTable(
      [
        { head: `cost ${shown.cost.currency}`, align: 'right' },
        { head: 'as sewn', align: 'right' },
        ...(shown.riskWashed.washes > 0 ? [{ head: 'washed', align: 'right' } as const] : []),
        { head: 'backing and underlay', align: 'left', flexible: true },
      ],
      listed.map((plan) => [
        moneyWords(plan.cost.total),
        gradeAndHeight(plan.riskNow, units),
        ...(shown.riskWashed.washes > 0 ? [gradeAndHeight(plan.riskWashed, units)] : []),
        `${printable(plan.stackName)}${plan.underlay.length > 0 ? `; ${underlayWords(plan.underlay[0].to)}` : ''}`,
      ]),
      width,
      INDENT,
    ),
    ...wrap(
      `As sewn and washed: grade (5 smooth, 1 severe) and height of the wrinkles in ${units === 'mm' ? 'mm' : 'inches'}. ${left > 0 ? `${counted(left, 'more plan')}: --all lists them. ` : ''}${count(report.considered.plans)} setups were compared; those not listed cost more and lie no flatter.`,
      width,
      INDENT,
    ),
  ];
}

const gradeAndHeight = (risk: PlanRiskReport, units: TextOptions['units']): string =>
  `${risk.grade} / ${bareLength(risk.wrinkleMm, units)}`;

function drawnOutLines({ objects }: AdviseReport, { width, units }: TextOptions): string[] {
  const amounts = drawnOut(objects);
  if (amounts.length === 0) return [];
  const [first, second] = units === 'mm' ? (['mm', 'in'] as const) : (['in', 'mm'] as const);
  return [
    'Pull compensation',
    ...textTable(
      [
        { head: first, align: 'right' },
        { head: second, align: 'right' },
        { head: 'objects', align: 'left', flexible: true },
      ],
      amounts.map(({ mm, objects: ids }) => [bareLength(mm, first), bareLength(mm, second), idList(ids)]),
      width,
      INDENT,
    ),
    ...wrap(messageInUnits(DRAWN_OUT_NOTE, units), width, INDENT),
  ];
}

function trust(report: AdviseReport, { width }: TextOptions): string[] {
  return [
    'How far to trust it',
    ...wrap(printable(planTrustWords(report)), width, INDENT),
    ...report.cautions.flatMap((line) => wrap(line, width, `${INDENT}Caution: `, `${INDENT}         `)),
  ];
}
