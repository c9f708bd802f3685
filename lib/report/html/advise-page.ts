/** The plans as a page by itself: what to do, why, and what else there is. */
import { demand } from '../../advice/why.js';
import { underlayWords } from '../../advice/words.js';
import type { PlanReport, PlanRiskReport } from '../advice-report.js';
import type { AdviseReport } from '../advise-report.js';
import { messageInUnits } from '../message-in-units.js';
import { idsInWords, moneyWords } from '../plan-words.js';
import { bareLength, count, fixed, length, type Units } from '../quantities.js';
import { riskWord } from '../risk-word.js';
import { shownPlan } from '../shown-plan.js';
import { html, tag } from './markup.js';
import { htmlPage } from './page.js';
import { SORT_SCRIPT } from './sort-script.js';
import { factList, htmlTable } from './table.js';

/**
 * @param title what the file is called
 * @returns a whole HTML document that fetches nothing
 */
export function advisePage(report: AdviseReport, { title, units }: { title: string; units: Units }): string {
  const { recommended, plans, accepted, considered } = report;
  const shown = shownPlan(report);
  const asked = demand(accepted);
  const body = [
    tag(
      'header',
      {},
      tag('h1', {}, `${html(title)} on ${html(report.fabricName)}`),
      tag(
        'p',
        {},
        recommended
          ? `The shop asks for ${asked}. ${count(considered.plans)} plans were worked out; this is the cheapest that keeps it.`
          : tag('strong', {}, `No plan is good enough: none of ${count(considered.plans)} keeps ${asked}.`),
      ),
    ),
    tag(
      'main',
      { id: 'main' },
      section(recommended ? 'Do this' : 'What comes nearest', planFacts(report, shown, units)),
      list(recommended ? 'Why' : 'Why this is the flattest', shown.why, units),
      list('What would have to change', report.mustChange, units),
      list('Hooping', shown.hooping, units),
      section('All plans, cheapest first', planTable(plans, shown, units)),
      objectSection(report, units),
      section(
        'How far to trust it',
        tag(
          'p',
          {},
          html(
            `Reckoned with ${report.threadName} and typical values of the goods, or the shop's own where its profile has some. Two plans whose heights lie within each other's range may come out the other way round. A sew-out on the same goods decides.`,
          ),
        ),
        ...report.cautions.map((line) => tag('p', {}, tag('strong', {}, 'Caution: '), html(line))),
      ),
    ),
  ].join('\n');
  return htmlPage({ title: `Plans for ${title}`, lang: 'en', body, script: SORT_SCRIPT });
}

const section = (heading: string, ...content: readonly string[]): string =>
  tag('section', {}, tag('h2', {}, html(heading)), ...content);

const list = (heading: string, lines: readonly string[], units: Units): string =>
  lines.length === 0
    ? ''
    : section(
        heading,
        tag('ul', {}, ...lines.map((line) => tag('li', {}, html(messageInUnits(line, units))))),
      );

function planFacts({ hoop }: AdviseReport, plan: PlanReport, units: Units): string {
  const { cost, underlay, riskNow, riskWashed } = plan;
  const looks = (risk: PlanRiskReport): string => {
    const [low, high] = risk.range.wrinkleMm;
    return html(
      `${riskWord(risk.grade)} (grade ${risk.grade}): wrinkles about ${length(risk.wrinkleMm, units)} high (${bareLength(low, units)} to ${bareLength(high, units)})`,
    );
  };
  return factList([
    ['backing, from the garment outward', html(plan.stackName)],
    [
      'underlay',
      html(
        underlay.length === 0
          ? 'as it is in the file'
          : `${underlayWords(underlay[0].to)} under ${idsInWords(underlay.map(({ object }) => object))}`,
      ),
    ],
    ['topping', html(plan.toppingName ?? 'none')],
    ['needle', html(plan.needleName)],
    ['speed', `${count(plan.speedSpm)} stitches a minute`],
    ...(hoop ? [['hoop', html(hoop.name)] as const] : []),
    ['as sewn', looks(riskNow)],
    ...(riskWashed.washes > 0 ? [[`after ${riskWashed.washes} washes`, looks(riskWashed)] as const] : []),
    [
      'cost a piece',
      html(
        `${moneyWords(cost.total, cost.currency)}: backing ${moneyWords(cost.backing)}, thread ${moneyWords(cost.thread)}, machine ${moneyWords(cost.machine)} (${fixed(cost.parts.machineMinutes, 1)} min)`,
      ),
    ],
  ]);
}

function planTable(plans: readonly PlanReport[], shown: PlanReport, units: Units): string {
  const currency = shown.cost.currency;
  const risk = (head: string, of: (plan: PlanReport) => PlanRiskReport) =>
    [
      {
        head: `grade ${head}`,
        number: true,
        cell: (plan: PlanReport) => String(of(plan).grade),
        sortBy: (plan: PlanReport) => of(plan).grade,
      },
      {
        head: `wrinkles ${head}, ${units}`,
        number: true,
        cell: (plan: PlanReport) => bareLength(of(plan).wrinkleMm, units),
        sortBy: (plan: PlanReport) => of(plan).wrinkleMm,
      },
    ] as const;
  return htmlTable({
    id: 'plans',
    caption: 'Cost a piece and risk; the plan above is marked',
    rows: plans,
    columns: [
      {
        head: 'backing',
        namesRow: true,
        cell: (plan) => html(plan.stackName) + (plan === shown ? ' <strong>(this one)</strong>' : ''),
      },
      {
        head: 'underlay',
        cell: (plan) => html(plan.underlay.length > 0 ? underlayWords(plan.underlay[0].to) : 'as it is'),
      },
      {
        head: `cost ${currency}`,
        number: true,
        cell: (plan) => moneyWords(plan.cost.total),
        sortBy: (plan) => plan.cost.total,
      },
      ...risk('as sewn', (plan) => plan.riskNow),
      ...(shown.riskWashed.washes > 0 ? risk('washed', (plan) => plan.riskWashed) : []),
    ],
  });
}

function objectSection({ objects }: AdviseReport, units: Units): string {
  if (objects.length === 0) return '';
  return section(
    'Objects that need something',
    htmlTable({
      id: 'objects',
      caption: 'In sewing order',
      rows: objects,
      columns: [
        {
          head: 'object',
          namesRow: true,
          number: true,
          cell: ({ object }) => String(object),
          sortBy: ({ object }) => object,
        },
        {
          head: 'what to do',
          cell: ({ text }) => text.map((line) => tag('p', {}, html(messageInUnits(line, units)))).join(''),
        },
      ],
    }),
  );
}
