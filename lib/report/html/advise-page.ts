/** The plans as a page by itself: what to do, why, and what else there is. */
import { demand } from '../../advice/why.js';
import { launderings, underlayWords } from '../../advice/words.js';
import type { PlanReport, PlanRiskReport } from '../advice-report.js';
import type { AdviseReport } from '../advise-report.js';
import { messageInUnits } from '../message-in-units.js';
import {
  costWords,
  failureWords,
  looksWords,
  moneyWords,
  planHoopWords,
  planTrustWords,
  relayWords,
} from '../plan-words.js';
import { count, length, type Units } from '../quantities.js';
import { html, tag } from '../render/markup.js';
import { htmlPage } from '../render/page.js';
import { printable } from '../render/printable.js';
import { SORT_SCRIPT } from '../render/sort-script.js';
import { setByYouWords } from '../set-words.js';
import { objectNeeds } from './object-needs.js';
import { factList, htmlTable, type TableColumn } from './table.js';

/** What the page adds to the look that all pages share: backings have room for their names. */
const ADVISE_CSS = `#plans tbody th { min-width: 13rem; }
td p:last-child { margin-bottom: 0; }
@media print { #plans tbody th { min-width: 0; } }
`;

/**
 * @param title what the file is called
 * @returns a whole HTML document that fetches nothing
 */
export function advisePage(report: AdviseReport, { title, units }: { title: string; units: Units }): string {
  const { meets, plans, accepted, considered } = report;
  const shown = report.recommended;
  const asked = demand(accepted);
  const body = [
    tag(
      'header',
      {},
      tag('h1', {}, `${html(title)} on ${html(report.fabricName)}`),
      tag(
        'p',
        {},
        meets === 'no'
          ? tag('strong', {}, `No backing fully meets your standard (${asked}); this comes closest.`)
          : meets === 'may'
            ? `Your standard is ${asked}. This is likeliest of ${count(considered.plans)} setups to meet it, but may miss it.`
            : `Your standard is ${asked}. This is the cheapest of ${count(considered.plans)} setups that meets it.`,
        ' Grade 5 is smooth, grade 1 severe.',
      ),
      ...failureWords(report).map((line) => tag('p', {}, tag('strong', {}, html(line)))),
      ...setByYouWords(report.setObjects).map((line) => tag('p', {}, html(printable(line)))),
    ),
    tag(
      'main',
      { id: 'main' },
      section(meets === 'no' ? 'What comes closest' : 'Do this', planFacts(report, shown, units)),
      // How it stands to the standard, which comes first there, is in the header.
      list('Why', shown.why.slice(1), units),
      list('What would have to change', report.mustChange, units),
      list('Hooping', shown.hooping, units),
      section('All plans, cheapest first', planTable(plans, shown, units)),
      report.objects.length === 0
        ? ''
        : section(
            'Object by object',
            tag('p', {}, 'lieflat draw shows which object is which.'),
            objectNeeds(report.objects, shown.riskWashed.washes, 'pull-compensation', units),
          ),
      section(
        'How far to trust it',
        tag('p', {}, html(planTrustWords(report))),
        ...report.cautions.map((line) => tag('p', {}, tag('strong', {}, 'Caution: '), html(line))),
      ),
    ),
  ].join('\n');
  return htmlPage({ title: `Plans for ${title}`, lang: 'en', css: ADVISE_CSS, body, script: SORT_SCRIPT });
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

function planFacts(report: AdviseReport, plan: PlanReport, units: Units): string {
  const { riskNow, riskWashed } = plan;
  const cost = costWords(plan);
  const { hoop } = report;
  const hoopMarkup = html(planHoopWords(report));
  return factList([
    ['backing', `${html(plan.stackName)}${plan.stack.length > 1 ? ' (from the garment outward)' : ''}`],
    ['underlay', html(relayWords(plan))],
    ['topping', html(plan.toppingName ?? 'none')],
    ['needle', html(plan.needleName)],
    ['speed', `${count(plan.speedSpm)} stitches a minute`],
    ['hoop', hoop?.holds ? hoopMarkup : tag('strong', {}, hoopMarkup)],
    ['as sewn', html(looksWords(riskNow, units))],
    ...(riskWashed.washes > 0 ? [[after(riskWashed), html(looksWords(riskWashed, units))] as const] : []),
    ['cost a piece', html(`${cost.total}: ${cost.parts}`)],
  ]);
}

const after = ({ washes }: PlanRiskReport): string => `after ${launderings(washes)}`;

function planTable(plans: readonly PlanReport[], shown: PlanReport, units: Units): string {
  const currency = shown.cost.currency;
  const risk = (head: string, of: (plan: PlanReport) => PlanRiskReport): TableColumn<PlanReport> => ({
    head,
    number: true,
    cell: (plan) => `grade ${of(plan).grade}, ${length(of(plan).wrinkleMm, units)}`,
    sortBy: (plan) => of(plan).wrinkleMm,
  });
  return htmlTable({
    id: 'plans',
    caption:
      'What a piece costs, and the grade and height of the predicted wrinkles; the plan above is marked',
    rows: plans,
    columns: [
      {
        head: 'backing',
        namesRow: true,
        cell: (plan) => html(plan.stackName) + (plan === shown ? ' <em>(this one)</em>' : ''),
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
      risk('as sewn', (plan) => plan.riskNow),
      ...(shown.riskWashed.washes > 0 ? [risk(after(shown.riskWashed), (plan) => plan.riskWashed)] : []),
    ],
  });
}
