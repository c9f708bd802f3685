/** The card that goes to the machine operator: one printed page with all that is set up, checked and written down. */
import { launderings, underlayWords } from '../../advice/words.js';
import { mmToInch } from '../../core/units.js';
import type { Design } from '../../format/design.js';
import type { Stitches } from '../../format/stitches.js';
import { type Catalogue, find } from '../../materials/catalogue.js';
import { fieldHolds, type HoopField, type Place } from '../../materials/places.js';
import type { DesignMeasures } from '../../measure/measures.js';
import type { MachineProfile } from '../../measure/sew-time.js';
import type { WrinkleField } from '../../mechanics/risk.js';
import { failuresOf } from '../advise/document.js';
import type { PlanReport, PlanRiskReport } from '../advise/plan-report.js';
import type { AdviseReport } from '../advise/report.js';
import { LOWEST_MM } from '../height-bands.js';
import { sayCoded } from '../phrases/coded.js';
import { wordsFor } from '../phrases/words.js';
import { count, counted, duration, fixed, length, size, threadLength, type Units } from '../quantities.js';
import { html, tag } from '../render/markup.js';
import { htmlPage } from '../render/page.js';
import { riskWord } from '../risk-word.js';
import { notDrawn } from '../stitch-path.js';
import { type ColourLayout, colourBlocks, colourTables, layOutColours } from './card-colours.js';
import { cardCss } from './card-css.js';
import { chooseLayout } from './card-layout.js';
import { recordSection } from './card-record.js';
import { riskPicture } from './card-risk.js';
import { checksBefore, USUAL_CAUTIONS } from './card-words.js';
import { hoopInset } from './hoop-inset.js';
import type { PaperName } from './paper.js';
import { stackLayers } from './stack-layers.js';
import { factList } from './table.js';
import { type DrawingPlan, originOffset, trueScale } from './true-scale.js';

export interface CardInput {
  design: Design;
  stitches: Stitches;
  designMeasures: DesignMeasures;
  /** Every plan, and which one the shop can accept. */
  advice: AdviseReport;
  /** Degrees counter-clockwise from level. */
  grainDeg: number;
  /** That is used; null where none was given and none that is known holds the design. */
  hoop: HoopField | null;
  /** Where on the garment, if that is known. */
  place?: Place;
  /** Of the shown plan (`recommended`) after its washes, with its underlay. */
  maps: WrinkleField;
  machine: MachineProfile;
  catalogue: Catalogue;
}

export interface CardOptions {
  /** What the file is called. Any text; escaped here. */
  title: string;
  units: Units;
  paper: PaperName;
  /** Print what a piece costs: no matter of the operator's. */
  cost: boolean;
}

/**
 * Sets the card.
 *
 * @returns a whole HTML document that fetches nothing, for one sheet of the paper printed at 100 %
 * @throws RangeError for a design without stitches: there is nothing to sew
 */
export async function operatorCard(input: CardInput, options: CardOptions): Promise<string> {
  if (input.stitches.count === 0) throw new RangeError('a card needs stitches');
  const texts = textsOf(input, options);
  const layout = chooseLayout(
    { ...texts, bounds: input.designMeasures.bounds, hoop: input.hoop },
    options.paper,
  );
  const { drawing, across } = layout;
  const caption = texts.captionOf(drawing);
  const picture = tag(
    'figure',
    { class: across ? 'across' : null },
    trueScale(
      {
        stitches: input.stitches,
        bounds: input.designMeasures.bounds,
        hoop: input.hoop,
        grainDeg: input.grainDeg,
        starts: texts.starts,
        label: `The design ${drawing.reduction === 1 ? 'at true size' : `at a scale of 1 to ${drawing.reduction}`}`,
      },
      drawing,
    ),
    tag('figcaption', {}, tag('strong', {}, html(caption.scale)), ' ', html(caption.rest)),
  );
  const colours = section('Colours', colourTables(texts.colours));
  const risk = section(
    'Predicted wrinkles',
    ...texts.risk.map((line) => tag('p', {}, html(line))),
    await riskPicture(
      input.maps,
      input.designMeasures.bounds,
      layout.riskRoom,
      options.units,
      'Map of the predicted wrinkles about the stitches',
    ),
  );
  const hooping = (look: string): string => section('Hooping and finishing', list(look, texts.hooping));
  const right = [
    section('Layers, needle side first', stackLayers(texts.stack), tag('p', {}, html(texts.stackNote))),
    section(
      'Set-up',
      tag('div', { class: 'setup' }, factList(texts.setup.map(([name, value]) => [name, html(value)]))),
      layout.inset && input.hoop ? hoopInset(input.hoop, input.designMeasures.bounds) : '',
    ),
    ...texts.changes.map((line) => tag('p', { class: 'alert' }, html(line))),
    ...(layout.hoopingBelow ? [] : [hooping('hooping')]),
  ];
  const columns = across
    ? picture + tag('div', {}, colours, risk) + tag('div', {}, ...right)
    : tag('div', {}, picture, colours) + tag('div', {}, ...right, risk);
  const body = tag(
    'main',
    { id: 'main', class: 'card' },
    tag('h1', {}, html(texts.title)),
    tag('p', {}, html(texts.facts)),
    ...texts.alerts.map((line) => tag('p', { class: 'alert' }, html(line))),
    tag('div', { class: 'body' }, columns),
    ...(layout.hoopingBelow ? [hooping('marks notes')] : []),
    section('Before starting', list('marks checks', texts.checks)),
    section('Take care', list('marks cautions', texts.cautions)),
    recordSection(texts.record),
  );
  return htmlPage({
    title: `Card for ${options.title}`,
    lang: 'en',
    css: cardCss({ paper: options.paper, ...layout }),
    body,
  });
}

/** Colours whose starts are numbered on the picture. */
const MOST_STARTS = 12;

const section = (heading: string, ...content: readonly string[]): string =>
  tag('section', {}, tag('h2', {}, html(heading)), ...content);

const list = (look: string, lines: readonly string[]): string =>
  tag('ul', { class: look }, ...lines.map((line) => tag('li', {}, html(line))));

/** All words of the card but those about the picture's scale, as plain text: to be measured first and set afterwards. */
function textsOf(input: CardInput, { title, units, cost }: CardOptions) {
  const { advice, designMeasures, design, stitches, hoop, place, catalogue } = input;
  const plan = advice.recommended;
  const words = wordsFor({ units, detail: 'full' });
  const failures = failuresOf(advice);
  // At the plan's pace, not at the machine's.
  const machine = {
    ...input.machine,
    speedSpm: {
      ...input.machine.speedSpm,
      value: Math.min(plan.speedSpm, input.machine.speedSpm.value),
    },
  };
  const blocks = colourBlocks(design, stitches, machine);
  const colours: ColourLayout = layOutColours(blocks);
  // More numbers would hide what is sewn.
  const starts = blocks.length <= MOST_STARTS ? blocks : [];
  const caption = captionOf(input, units, starts.length);
  return {
    captionOf: caption,
    caption: (drawing: DrawingPlan) => Object.values(caption(drawing)).join(' '),
    title: `${title} on ${advice.fabricName}`,
    facts: [
      size(designMeasures.widthMm, designMeasures.heightMm, units),
      counted(designMeasures.stitches, 'stitch', 'stitches'),
      `about ${duration(plan.cost.parts.machineMinutes * 60)} of machine time`,
      `thread ${threadLength(designMeasures.threadMm, units)} and bobbin ${threadLength(designMeasures.bobbinMm, units)}`,
      counted(designMeasures.trims, 'trim'),
      ...(place ? [place.name] : []),
      ...(cost ? [`cost a piece ${words.say.money(plan.cost.total, plan.cost.currency)}`] : []),
    ].join(' · '),
    alerts: [
      ...notDrawn(stitches).map((words) => `THE PICTURE IS NOT WHOLE: ${words}.`),
      ...(failures.length > 0 ? [words.setup.failures({ codes: failures })] : []),
      ...(hoop && !fieldHolds(hoop, designMeasures)
        ? [
            'DO NOT SEW IN THIS HOOP: the design stands out of the field of the hoop that is named here. The needle would hit the frame.',
          ]
        : []),
      ...(advice.meets === 'no'
        ? [
            `ASK BEFORE SEWING: no backing meets your standard (${words.setup.standard(advice.accepted)}). This comes closest. ${advice.changes.map((change) => words.setup.changes[change]).join(' ')}`.trim(),
          ]
        : []),
    ],
    colours,
    starts: starts.map(({ number, startsAt }) => ({ number, ...startsAt })),
    stack: {
      topping: plan.toppingName === null ? null : `${plan.toppingName}, laid on last`,
      garment: advice.fabricName,
      grainDeg: input.grainDeg,
      sheets: plan.stack.map(({ sheet, angleDeg }) => ({
        name: find(catalogue, 'sheets', sheet).name,
        angleDeg,
      })),
    },
    stackNote: 'Hatching runs along a sheet; turns are as seen from the front.',
    setup: [
      ['needle', plan.needleName],
      ['speed', `${count(plan.speedSpm)} a minute at most`],
      ['topping', plan.toppingName ?? 'none'],
      ['thread', advice.threadName],
      ['hoop', hoopWords(hoop, units)],
    ] as const,
    changes: underlayNotes(plan),
    hooping: plan.hoopingNotes.map((note) => sayCoded(note, words.setup.hooping)),
    risk: [
      `As sewn: ${looks(plan.riskNow, units)}.`,
      ...(plan.riskWashed.washes > 0
        ? [`After ${launderings(plan.riskWashed.washes)}: ${looks(plan.riskWashed, units)}.`]
        : []),
      `Foreseen by calculation; the sew-out decides. Heights in ${units === 'mm' ? 'mm' : 'inches'}${plan.riskWashed.washes > 0 ? ', washed' : ''}:`,
    ],
    checks: checksBefore(plan.needleName),
    cautions: [...advice.cautions, ...USUAL_CAUTIONS],
    record: {
      file: title,
      fabric: advice.fabric,
      stackText: plan.stackText,
      underlay: plan.underlay,
    },
  };
}

const looks = ({ grade, wrinkleMm }: PlanRiskReport, units: Units): string =>
  `${riskWord(grade)}, grade ${grade}, ${
    wrinkleMm < LOWEST_MM
      ? `no wrinkle of ${length(LOWEST_MM, units)} or more`
      : `wrinkles about ${length(wrinkleMm, units)} high`
  }`;

/** A length that a hand measures: to 0.1 mm, or to a hundredth of an inch. */
const span = (mm: number, units: Units): string =>
  units === 'mm' ? `${fixed(mm, 1)} mm` : `${fixed(mmToInch(mm), 2)} in`;

function hoopWords(hoop: HoopField | null, units: Units): string {
  if (!hoop) return wordsFor({ units, detail: 'full' }).advice.noHoop;
  const { widthMm, heightMm } = hoop;
  const field =
    hoop.shape === 'round'
      ? `${span(widthMm.value, units)} across`
      : `${span(widthMm.value, units)} by ${span(heightMm.value, units)}`;
  return `${hoop.name}; needles reach ${field}, or what the machine's manual says`;
}

function underlayNotes({ underlay }: PlanReport): string[] {
  const kinds = [...new Set(underlay.map(({ to }) => to))];
  return kinds.map((to) => {
    const ids = underlay.filter((change) => change.to === to).map(({ object }) => object);
    return `CHANGED FILE NEEDED: ${underlayWords(to)} under ${wordsFor({ units: 'mm', detail: 'full' }).say.objects(ids)} in place of what this file has. Stitches and start points here are this file's.`;
  });
}

/** Under the picture; the scale goes first, in bold. */
function captionOf({ designMeasures }: CardInput, units: Units, starts: number) {
  const offset = originOffset(designMeasures.bounds);
  const away = (mm: number, positive: string, negative: string): string[] =>
    Math.abs(mm) < 0.05 ? [] : [`${span(Math.abs(mm), units)} ${mm < 0 ? negative : positive}`];
  return ({ reduction, withHoop }: DrawingPlan): { scale: string; rest: string } => ({
    scale: reduction === 1 ? 'True size, if printed at 100 %:' : `NOT TRUE SIZE: drawn at 1 : ${reduction}.`,
    rest: [
      reduction === 1 ? 'the bars must measure what they say.' : 'The bars are true if printed at 100 %.',
      offset
        ? `Cross: middle of the design. Ring: the file's origin, ${[...away(offset.right, 'to the right', 'to the left'), ...away(offset.up, 'up', 'down')].join(' and ')} from there; centre by the one your machine starts from.`
        : "Cross: middle of the design, and the file's origin.",
      ...(withHoop ? ['Dashed: field of the hoop, the design centred.'] : []),
      ...(starts > 1 ? ['Numbers: where each colour starts.'] : []),
    ].join(' '),
  });
}
