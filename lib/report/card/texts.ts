/** All words of the card but those about the picture's scale, as plain text: to be measured first and set afterward. */

import { find } from '../../materials/catalogue.js';
import { fieldHolds, isLittleRoom, roomInField } from '../../materials/places.js';
import { atSpeed } from '../../measure/sew-time.js';
import { failuresOf } from '../advise/document.js';
import type { PlanReport, PlanRiskReport } from '../advise/plan-report.js';
import { LOWEST_MM } from '../height-bands.js';
import { sayCoded } from '../phrases/coded.js';
import { MOST_DRAWN } from '../stitch-path.js';
import { toAsk } from '../vet/verdict.js';
import { colorBlocks, layOutColors } from './colors.js';
import type { CardInput, CardOptions } from './input.js';
import type { CardTexts } from './layout.js';
import { layersOf } from './stack-layers.js';
import { type DrawingPlan, originOffset } from './true-scale.js';
import type { CardWords } from './words.js';

/** Colors whose starts are numbered on the picture. */
const MOST_STARTS = 12;
/** A hand that sets a frame sees no less, mm. */
const LEAST_AWAY_MM = 0.05;

export interface Texts extends CardTexts {
  starts: { number: number; x: number; y: number }[];
  /** Under the picture; the scale goes first, in bold. */
  captionOf: (drawing: DrawingPlan) => { scale: string; rest: string };
}

export function textsOf(
  input: CardInput,
  { title, cost }: Pick<CardOptions, 'title' | 'cost'>,
  words: CardWords,
): Texts {
  const { advice, designMeasures, design, stitches, catalogue } = input;
  const { card, setup, say } = words;
  const plan = advice.recommended;
  const named = (name: string) => setup.material({ name });
  const fabric = named(advice.fabricName);
  const needle = named(plan.needleName);
  // At the plan's pace, not at the machine's.
  const blocks = colorBlocks(design, stitches, atSpeed(input.machine, plan.speedSpm), input.threads);
  // More numbers would hide what is sewn.
  const starts = blocks.length <= MOST_STARTS ? blocks : [];
  const captionOf = captionsOf(input, starts.length, words);
  const { checks, cautions } = card;
  const piece = pieceOf(input);
  return {
    captionOf,
    caption: (drawing) => Object.values(captionOf(drawing)).join(' '),
    turning: card.turnSheet,
    joining: `${card.parts['upper-right']} ${card.joining}`,
    title: card.title({ file: title, fabric }),
    job: jobText(input, words),
    facts: [
      say.size(designMeasures.widthMm, designMeasures.heightMm),
      card.stitches({ n: designMeasures.stitches }),
      card.machineTime({ seconds: plan.cost.parts.machineMinutes * 60 }),
      card.threads({ topMm: designMeasures.threadMm, bobbinMm: designMeasures.bobbinMm }),
      card.trims({ n: designMeasures.trims }),
      ...(cost ? [card.cost(plan.cost)] : []),
    ].join(' · '),
    alerts: alertsOf(input, words),
    colors: layOutColors(blocks),
    starts: starts.map(({ number, startsAt }) => ({ number, ...startsAt })),
    layers: layersOf(
      {
        topping:
          plan.toppingName === null ? null : card.layers.toppingLast({ name: named(plan.toppingName) }),
        garment: fabric,
        grainDeg: input.grainDeg,
        sheets: plan.stack.map(({ sheet, angleDeg }) => ({
          name: named(find(catalogue, 'sheets', sheet).name),
          angleDeg,
        })),
      },
      words,
    ),
    stackNote: card.layers.note({ sheets: plan.stack.length }),
    setup: [
      ...(advice.garment ? [[setup.garmentLabel, setup.garment(advice.garment)] as const] : []),
      [card.setup.needle, needle],
      [card.setup.speed, card.setup.speedAtMost(plan)],
      [card.setup.topping, plan.toppingName === null ? setup.none : named(plan.toppingName)],
      [card.setup.thread, named(advice.threadName)],
      [card.setup.hoop, hoopText(input, words)],
    ],
    changes: changedFiles(plan, words),
    hooping: plan.hoopingNotes.map((note) => sayCoded(note, setup.hooping)),
    risk: riskTexts(plan, words),
    checks: [
      checks.file,
      checks.threads,
      checks.bobbin,
      checks.needle({ name: needle }),
      checks.layers[piece],
      checks.hoop[piece],
      checks.trace,
      checks.test[piece],
    ],
    cautions: [
      ...advice.cautionCodes.map((code) => setup.cautions[code]),
      ...(advice.capOrder.length > 0 ? [setup.capOrder({ objects: advice.capOrder })] : []),
      ...Object.values({ ...cautions, children: cautions.children[piece] }),
    ],
    record: { file: title, fabric: advice.fabric, stackText: plan.stackText, underlay: plan.underlay },
    log: card.record.log,
  };
}

/** Pieces without sleeves, by fabric and by place. */
const FLAT = {
  fabrics: ['terry-towel', 'canvas-tote', 'sheer-linen', 'beanie-knit'],
  places: ['towel-border', 'towel-corner', 'tote-front', 'apron-bib', 'beanie'],
};

/** What kind of piece is hooped, for the checks and cautions that fit it. */
function pieceOf({ advice, place, catalogue }: CardInput): 'garment' | 'cap' | 'flat' {
  if (find(catalogue, 'fabrics', advice.fabric).cap || place?.id.startsWith('cap-')) return 'cap';
  const flat = place ? FLAT.places.includes(place.id) : FLAT.fabrics.includes(advice.fabric);
  return flat ? 'flat' : 'garment';
}

/** `Order 4711 · for the ball club · 24 pieces · garment navy · due December 3`; empty where nothing was said. */
function jobText({ job = {}, place }: CardInput, { card, setup }: CardWords): string {
  const { order, customer, quantity, garmentColor, due, remarks } = job;
  return [
    ...(order ? [card.job.order({ text: order })] : []),
    ...(customer ? [card.job.customer({ text: customer })] : []),
    ...(quantity === undefined ? [] : [card.job.quantity({ n: quantity })]),
    ...(garmentColor ? [card.job.garmentColor({ text: garmentColor })] : []),
    ...(place ? [setup.material({ name: place.name })] : []),
    ...(due ? [card.job.due({ text: due })] : []),
    ...(remarks ? [card.job.remarks({ text: remarks })] : []),
  ].join(' · ');
}

/** What is wrong before anything is sewn. */
function alertsOf(
  { advice, stitches, hoop, designMeasures }: CardInput,
  { card, setup }: CardWords,
): string[] {
  const { alerts } = card;
  const failures = failuresOf(advice);
  const { ask } = toAsk(advice);
  const standard = setup.standard(advice.accepted);
  const left = stitches.count - MOST_DRAWN;
  return [
    ...(left > 0 ? [alerts.notWhole({ drawn: MOST_DRAWN, left })] : []),
    ...(failures.length > 0 ? [setup.failures({ codes: failures })] : []),
    // What stops the file goes before what is to be looked at in it.
    ...(failures.length === 0 && ask.length > 0 ? [setup.warnings({ codes: ask })] : []),
    ...(hoop === null ? [`${card.setup.noHoop}.`] : []),
    ...(hoop && !fieldHolds(hoop, designMeasures) ? [alerts.wrongHoop] : []),
    ...(advice.verdictReasons.some(({ because }) => because === 'against-rule') ? [alerts.againstRule] : []),
    ...(advice.meets === 'no'
      ? [
          alerts.notGoodEnough({
            standard,
            changes: advice.changes.map((change) => setup.changes[change]),
          }),
        ]
      : []),
    ...(advice.meets === 'may' ? [alerts.mayMiss({ standard })] : []),
  ];
}

function hoopText({ hoop, designMeasures }: CardInput, { card, setup }: CardWords): string {
  if (!hoop) return card.setup.noHoop;
  const { name, shape, widthMm, heightMm } = hoop;
  const { roomMm } = roomInField(hoop, designMeasures);
  const little = roomMm >= 0 && isLittleRoom(roomMm) ? `; ${setup.traceInHoop({ roomMm })}` : '';
  const field = card.setup.field({
    name: setup.material({ name }),
    round: shape === 'round',
    widthMm: widthMm.value,
    heightMm: heightMm.value,
  });
  return field + little;
}

function changedFiles({ underlay }: PlanReport, { card }: CardWords): string[] {
  return [...new Set(underlay.map(({ to }) => to))].map((to) => {
    const same = underlay.filter((change) => change.to === to);
    return card.alerts.changedFile({ to, objects: same.map(({ object }) => object) });
  });
}

function riskTexts({ riskNow, riskWashed }: PlanReport, { card: { risk } }: CardWords): string[] {
  const { washes } = riskWashed;
  const looks = (when: string, { grade, wrinkleMm }: PlanRiskReport) =>
    risk.looks({ when, grade, wrinkleMm, lowestMm: LOWEST_MM });
  return [
    looks(risk.asSewn, riskNow),
    ...(washes > 0 ? [looks(risk.washed({ washes }), riskWashed)] : []),
    risk.note({ washed: washes > 0 }),
  ];
}

function captionsOf({ designMeasures }: CardInput, starts: number, { card }: CardWords): Texts['captionOf'] {
  const offset = originOffset(designMeasures.bounds);
  const away = (mm: number) => (Math.abs(mm) < LEAST_AWAY_MM ? null : mm);
  const origin = card.origin({
    right: offset && away(offset.right),
    up: offset && away(offset.up),
  });
  return ({ reduction, withHoop }) => ({
    scale: card.scale({ reduction }),
    rest: [
      card.bars({ reduction }),
      origin,
      ...(withHoop ? [card.fieldDashed] : []),
      ...(starts > 1 ? [card.startsNumbered] : []),
    ].join(' '),
  });
}
