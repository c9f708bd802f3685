/** What to do about a design on a fabric: the plans, why they are as they are, what each object needs. */
import type { UpperEnd } from '../../../advice/meets.js';
import type { OwnAndLaid, Why, WhyParams } from '../../../advice/reason.js';
import type { UnderlayKind } from '../../../segment/objects.js';
import type { LaidUnderlay } from '../../../stitch/laid-underlay.js';
import type { FindingCode } from '../../../vetting/finding.js';
import { capital } from '../../quantities.js';
import type { VerdictReason } from '../../vet/verdict.js';
import type { Voice } from '../voice.js';
import { common } from './common.js';
import { type Height, risk } from './risk.js';
import { namesFound, setup, type Worded } from './setup.js';
import { keptUnderlay } from './underlay.js';

/** Lower than this prints as no wrinkle at all, mm. */
const NO_WRINKLE_MM = 0.005;
/** Runs of objects that are named; the rest are counted. */
const MOST_RUNS = 40;

const topping: Readonly<Record<WhyParams['topping']['because'], string>> = {
  'not-washable': 'Use a topping that heat takes off: this fabric must not get wet.',
  pile: 'Use a water-soluble topping: without one the stitches sink into the pile.',
  'open-knit':
    'Use a water-soluble topping: stitches look better on an open knit. Try one piece with it and one without.',
  elastic:
    'No topping needed. Many polyester knits look better with a water-soluble one: try one piece with it and one without.',
};

/** Height of letters that the usual thread and needle begin to close up, mm (common practice, no source). */
const SMALL_LETTERS_MM = 5;

/** Strokes that are narrow for 40-weight thread. */
export const smallLetters = (say: Voice): string =>
  `strokes as narrow as in letters under about ${say.length(SMALL_LETTERS_MM)} sew cleaner in 60-weight thread with a 65/9 needle`;

type NeedleBecause = WhyParams['needle']['because'];
const needle: Readonly<Record<Exclude<NeedleBecause, 'narrow-for-thread'>, string>> = {
  cap: 'A sharp 80/12 needle for a cap.',
  'fine-knit': 'A fine ball point needle slides between the loops of a fine knit.',
  'narrow-on-knit': 'A fine ball point needle slides between the loops and sews narrow strokes.',
  knit: 'A ball point needle slides between the loops of a knit.',
  heavy: 'A strong sharp needle for heavy fabric.',
  'heavy-woven': 'A sharp 80/12 needle for heavy woven fabric.',
  narrow: 'A fine sharp needle: the strokes are narrow.',
  woven: 'A sharp needle for woven fabric.',
};

const slower: Readonly<Record<WhyParams['speed']['because'], string>> = {
  cap: 'caps bounce on the frame',
  'thin-knit': 'thin knits lift with the needle',
  pile: 'pile catches the foot',
  'wide-satin': 'long stitches pull harder at speed',
};

const afterWashes = (washes: number, say: Voice): string =>
  washes > 0 ? ` after ${setup.washes({ washes }, say)}` : '';

/** What may miss a standard that is most likely met: the upper end of the predicted range. */
export const upperEnd = ({ wrinkleMm, grade, washes }: UpperEnd, say: Voice): string =>
  `wrinkles may come out as high as ${say.length(wrinkleMm)}${washes > 0 ? afterWashes(washes, say) : ' as sewn'}, grade ${grade}`;

const why: Worded<WhyParams> = {
  'meets-standard': ({ accepted, only }, say) =>
    only
      ? `Meets your standard (${setup.standard(accepted, say)}).`
      : `The cheapest setup that meets your standard (${setup.standard(accepted, say)}).`,
  'may-miss-standard': ({ accepted, only, upper }, say) => {
    const close = upper === null ? 'it is close' : upperEnd(upper, say);
    return `May miss your standard (${setup.standard(accepted, say)}): ${close}.${only ? '' : ' No other setup by these rules is likelier to meet it.'}`;
  },
  'cheaper-may-miss': ({ upper }, say) =>
    `A cheaper setup in the list below most likely meets it too, but is not sure to: ${upper === null ? 'it is close' : upperEnd(upper, say)}.`,
  'comes-closest': ({ accepted, only }, say) =>
    only
      ? `Does not meet your standard (${setup.standard(accepted, say)}).`
      : `No backing fully meets your standard (${setup.standard(accepted, say)}); this comes closest.`,
  'usual-sheet-first': ({ flatterMm, washes }, say) =>
    `The usual sheet goes first. Another setup at the same price lies ${say.length(flatterMm)} flatter${afterWashes(washes, say)}: take it if you stock it.`,
  'beside-recommended': ({ cost, lowerMm, washes, accepted }, say) => {
    const price = { less: 'Costs less than', more: 'Costs more than', same: 'Costs the same as' }[cost];
    const beside =
      lowerMm >= NO_WRINKLE_MM
        ? `its wrinkles are ${say.length(lowerMm)} lower${afterWashes(washes, say)}`
        : `it is less likely to meet your standard (${setup.standard(accepted, say)})`;
    return `${price} the recommended setup; ${beside}.`;
  },
  'lighter-underlay': ({ to, columns, nowMm, washedMm, washes }, say) => {
    const heights = ([own, laid]: OwnAndLaid): string =>
      own < NO_WRINKLE_MM && laid < NO_WRINKLE_MM
        ? 'no wrinkles either way'
        : `wrinkles ${say.length(laid)} instead of ${say.length(own)}`;
    const washed = washes > 0 ? `, ${heights(washedMm)}${afterWashes(washes, say)}` : '';
    return `${capital(setup.laid[to])} under ${say.counted(columns, 'wide column')} instead of zigzag: ${heights(nowMm)} as sewn${washed}.`;
  },
  'underlay-where-none': ({ to, columns }, say) =>
    `${capital(setup.laid[to])} under ${say.counted(columns, 'wide column', 'wide columns')} with no underlay: the fabric has to be held to the backing before the column pulls.`,
  'underlay-kept': ({ columns, because }, say) =>
    `The zigzag under ${say.counted(columns, 'wide column')} can stay: ${keptUnderlay[because]}.`,
  'against-rule': ({ rule }, say) => `The trade would not load this backing here. ${reasonSaid(rule, say)}`,
  'some-backing': 'Stitching needs backing: fabric alone does not hold it.',
  'washable-sheets': 'This fabric gets washed, so the backing has to stand washing.',
  'nothing-to-rinse': 'This fabric must not get wet: use no backing that water has to take out.',
  'sheets-that-stay':
    'The fabric stretches: only backing that stays (cut-away or woven) keeps holding the stitching in wear and washing.',
  'woven-on-elastic':
    'Very stretchy knit takes woven polyester, which gives neither along nor across; a bonded sheet gives with the fabric and works only between two woven ones.',
  'crossed-woven':
    'The satin pulls in several directions, and one woven sheet gives along its diagonal: two, the second turned by 45 degrees, do not.',
  'woven-sandwich':
    'The thinnest, stretchiest fabric needs the most: a bonded 2.5 oz sheet between two woven ones, the second woven one turned by 45 degrees.',
  'tear-away-on-rigid':
    'Fabric without any stretch holds its own shape: a firm tear-away is enough and leaves the inside clean.',
  'crisp-on-sheer': 'Whatever stays behind see-through fabric shows: a crisp tear-away comes off clean.',
  'structured-cap':
    'Buckram already stiffens the front of this cap: a firm tear-away or cap backing is enough.',
  'soft-cap': 'Nothing stiffens the front of this cap: two pieces of cap backing do the work of the buckram.',
  'towel-backing': ({ light, stitches, most }, say) =>
    light
      ? 'Both sides of a towel are seen: water-soluble film as backing rinses out and leaves nothing behind, and it carries a design as light as this.'
      : `Both sides of a towel are seen, so the backing has to come off. Film alone carries up to about ${say.count(most)} stitches; this design has ${say.count(stitches)}, and a tear-away holds it and comes off as well.`,
  'stable-woven': ({ small }) =>
    small
      ? 'A small design on tight, stable fabric: cut-away is the safe choice, and a firm tear-away holds it too.'
      : 'When in doubt, cut-away: it keeps holding the stitching after washing.',
  topping: ({ because }) => topping[because],
  needle: ({ because }, say) =>
    because === 'narrow-for-thread'
      ? `A 75/11 needle for 40-weight thread; ${smallLetters(say)}${say.typed(' (--thread polyester-60)')}.`
      : needle[because],
  speed: ({ speedSpm, because }, say) =>
    `Slow down to ${say.count(speedSpm)} stitches a minute: ${slower[because]}.`,
};

function reasonSaid({ code, params }: Why, say: Voice): string {
  const phrase = why[code];
  return typeof phrase === 'string' ? phrase : phrase(params as never, say);
}

/** Objects that need the same, by their ids. */
export interface ForObjects {
  objects: readonly number[];
}

const them = ({ objects }: ForObjects, one: string, many: string): string =>
  objects.length === 1 ? one : many;

/** A run, and what is charged once for it. */
type RunSaid = Record<'labor' | 'spoilagePercent' | 'setupFee' | 'digitizing', number> & { currency: string };

const chargedOnce = (
  { setupFee, digitizing }: Pick<RunSaid, 'setupFee' | 'digitizing'>,
  say: Voice,
): string =>
  [
    setupFee > 0 ? `, setup fee ${say.money(setupFee)}` : '',
    digitizing > 0 ? `, digitizing ${say.money(digitizing)}` : '',
  ].join('');

/** Kinds of finding that a clause names; the rest are counted. */
const MOST_KINDS = 2;

function because(reason: VerdictReason, say: Voice): string {
  switch (reason.because) {
    case 'failures':
    case 'warnings': {
      const left = reason.codes.length - MOST_KINDS;
      const named = reason.codes.slice(0, MOST_KINDS).map((code) => namesFound({ codes: [code] }, say));
      return say.list(left > 0 ? [...named, `${say.count(left)} more`] : named);
    }
    case 'underlay':
      return 'its underlay has to be changed';
    case 'no-hoop':
      return 'no hoop in the list holds it';
    case 'too-large-for-hoop':
      return 'too large for its hoop';
    case 'against-rule':
      return 'the trade would not load this backing here';
    case 'misses':
      return 'wrinkles more than your standard allows';
    case 'may-miss':
      return `may wrinkle more than your standard allows${reason.washes === null ? '' : reason.washes === 0 ? ' as sewn' : afterWashes(reason.washes, say)}`;
  }
}

/** Where a shop has given no figures of its own. */
export const startingPrice = (_: Record<never, never>, say: Voice): string =>
  `Not your figures yet: labor and margin are ours, with no setup fee and no least price. Put in yours before you quote${say.typed(': lieflat profile --init writes the file for it')}.`;

export const advice = {
  why,
  /** Name of the page, and the line behind the answer. */
  title: ({ file, fabric }: { file: string; fabric: string }, _: Voice): string => `${file} on ${fabric}`,
  /** Behind a verdict that is not the best: why, in a clause. */
  because: ({ reasons }: { reasons: readonly VerdictReason[] }, say: Voice): string =>
    reasons.map((reason) => because(reason, say)).join('; '),
  /** Of a file that is not to be sewn as it is. */
  fixFirst: (_: Record<never, never>, say: Voice): string =>
    `Have the file fixed before you hoop: ${say.typed('lieflat vet', 'the file check')} says where, and what to do.`,
  /** What is wrong with the file: `ask` is for whoever digitized it; `relay` where the underlay that is advised is not in the file. */
  beforeHooping: ({ ask, relay }: { ask: readonly FindingCode[]; relay: boolean }, say: Voice): string => {
    const see = say.typed(', see lieflat vet', ', see the file check');
    const steps = [
      ...(ask.length > 0 ? [`ask the digitizer about ${namesFound({ codes: ask }, say)}${see}`] : []),
      ...(relay ? ['have the underlay changed as said below'] : []),
    ];
    return `Before you hoop: ${steps.join('; ')}.`;
  },
  label: {
    backing: 'backing',
    underlay: 'underlay',
    topping: 'topping',
    needle: 'needle',
    speed: 'speed',
    hoop: 'hoop',
    asSewn: 'as sewn',
    washed: ({ washes }: { washes: number }, say: Voice): string => setup.washes({ washes }, say),
    notWashed: 'washed',
    cost: 'cost',
    run: ({ quantity }: { quantity: number }, say: Voice): string => `cost of ${say.count(quantity)}`,
    price: ({ quantity }: { quantity: number }, say: Voice): string => `price of ${say.count(quantity)}`,
    time: ({ quantity }: { quantity: number }, say: Voice): string => `time for ${say.count(quantity)}`,
  },
  backing: ({ name, kinds }: { name: string; kinds: number }, _: Voice): string =>
    kinds > 1 ? `${name} (from the garment outward)` : name,
  underlayKept: 'as it is in the file',
  underlay: ({ to, objects }: { to: LaidUnderlay } & ForObjects, say: Voice): string =>
    `${setup.laid[to]} under ${say.objects(objects, MOST_RUNS)} instead of any underlay in the file`,
  relayWith: ({ command }: { command: string }, _: Voice): string =>
    `${command} lays it and lists any it can't change`,
  speed: ({ speedSpm }: { speedSpm: number }, say: Voice): string =>
    `${say.count(speedSpm)} stitches a minute`,
  noHoop: (_: Record<never, never>, say: Voice): string =>
    `NO HOOP IN THE LIST HOLDS THIS DESIGN${say.typed(' (lieflat catalog hoops)')}: use a larger one of yours${say.typed(' and give its field with --hoop')}, or have the design made smaller or split for two hoopings.`,
  wrongHoop: ({ name }: { name: string }, _: Voice): string =>
    `NOT ${name}: the design is larger than its field, and the needle would hit the frame.`,
  /** `slight (grade 3.5 of 5): wrinkles about 0.21 mm high`, without the word. */
  looks: ({ grade, ...height }: Height & { grade: number }, say: Voice): string =>
    ` (grade ${grade} of 5): ${risk.height(height, say)}`,
  neverWashed: 'not judged: no wash is expected',
  /** Amounts in whole cents that add up to the total. */
  cost: (
    {
      total,
      backing,
      thread,
      machine,
      currency,
      minutes,
      topped,
    }: Record<'total' | 'backing' | 'thread' | 'machine' | 'minutes', number> & {
      currency: string;
      topped: boolean;
    },
    say: Voice,
  ): string =>
    `${say.money(total, currency)} a piece before labor: backing${topped ? ' and topping' : ''} ${say.money(backing)}, thread ${say.money(thread)}, machine ${say.money(machine)} (${say.time(minutes * 60)})`,
  /** What the shop pays. */
  runCost: (
    {
      cost,
      labor,
      spoilagePercent,
      currency,
    }: Pick<RunSaid, 'labor' | 'spoilagePercent' | 'currency'> & { cost: { each: number; run: number } },
    say: Voice,
  ): string =>
    `${say.money(cost.run, currency)}: ${say.money(cost.each)} a piece with labor ${say.money(labor)} and ${say.plain(spoilagePercent, 1)} % spoiled pieces`,
  /** What the customer pays. */
  runPrice: (
    {
      each,
      run,
      marginPercent,
      offPercent,
      currency,
      ...once
    }: RunSaid & Record<'each' | 'run' | 'marginPercent' | 'offPercent', number>,
    say: Voice,
  ): string => {
    const off = offPercent > 0 ? `, ${say.plain(offPercent, 1)} % off for the quantity` : '';
    return `${say.money(run, currency)}: ${say.money(each)} a piece (margin ${say.plain(marginPercent, 1)} %${off})${chargedOnce(once, say)}`;
  },
  belowCost: ' BELOW COST',
  startingPrice,
  runTime: (
    { machineMinutes, laborMinutes, heads }: { machineMinutes: number; laborMinutes: number; heads: number },
    say: Voice,
  ): string =>
    `${say.time(machineMinutes * 60)} at the machine with ${say.counted(heads, 'head')}, ${say.time(laborMinutes * 60)} to hoop and trim`,
  whyTitle: 'Why',
  changesTitle: 'What would have to change',
  hoopingTitle: 'Hooping',
  plansTitle: 'Plans, cheapest first',
  column: {
    cost: ({ currency }: { currency: string }, _: Voice): string => `cost ${currency}`,
    asSewn: 'as sewn',
    washed: 'washed',
    setup: 'backing and underlay',
  },
  gradeAndHeight: ({ grade, wrinkleMm }: { grade: number; wrinkleMm: number }, say: Voice): string =>
    `${grade} / ${say.bare(wrinkleMm)}`,
  planSetup: ({ backing, to }: { backing: string; to: LaidUnderlay | null }, _: Voice): string =>
    to === null ? backing : `${backing}; ${setup.laid[to]}`,
  thisOne: ' (this one)',
  morePlans: ({ left }: { left: number }, say: Voice): string =>
    `${say.counted(left, 'more plan')}: --all lists them.`,
  plansNote: ({ compared, listed }: { compared: number; listed: number }, say: Voice): string =>
    `Cost: a piece before labor. As sewn and washed: grade (5 smooth, 1 severe) / height of the wrinkles in ${say.units === 'mm' ? 'mm' : 'inches'}. ${say.count(compared)} setups compared${compared > listed ? '; those not listed cost more and lie no flatter' : ''}.`,
  objectsTitle: 'Object by object',
  whichObject: (_: Record<never, never>, say: Voice): string =>
    say.typed('lieflat draw shows which object is which.', 'Objects are numbered as they are sewn.'),
  relay: (
    {
      objects,
      to,
      from,
      heights,
      washes,
    }: ForObjects & {
      to: LaidUnderlay;
      /** Null where not all have the same. */
      from: readonly UnderlayKind[] | null;
      heights: readonly OwnAndLaid[];
      washes: number;
    },
    say: Voice,
  ): string => {
    const around = them({ objects }, 'it', 'them');
    const under = `Lay ${setup.laid[to]} under ${say.objects(objects, MOST_RUNS)}`;
    if (from?.length === 0) return `${under}: nothing holds the fabric there before the column pulls.`;
    const own =
      from === null ? 'any underlay in the file' : say.list(from.map((kind) => common.underlay[kind]));
    const lay = `${under} instead of ${own}`;
    if (heights.flat().every((mm) => mm < NO_WRINKLE_MM))
      return `${lay}: the fabric around ${around} lies flat either way, and the design as a whole gains.`;
    const [before, after] = [0, 1].map((k) => say.range(heights.map((pair) => pair[k])));
    const when = washes > 0 ? afterWashes(washes, say) : ' as sewn';
    return `${lay}: wrinkles around ${around} ${after} instead of ${before}${when}.`;
  },
  split: ({ over, ...of }: ForObjects & { over: LaidUnderlay | null }, say: Voice): string =>
    `Split the satin of ${say.objects(of.objects, MOST_RUNS)}, or fill the ${them(of, 'shape', 'shapes')} instead${over === null ? '' : `, over ${setup.laid[over]}`}: the stitches are too long.`,
  locks: ({ objects }: ForObjects, say: Voice): string =>
    `Add lock stitches where the thread of ${say.objects(objects, MOST_RUNS)} starts or ends.`,
  /** Where edges move by more than drawing them out makes up for: a matter of size, not of wrinkles. */
  drawsIn: (
    { movedMm, mostMm, ...of }: ForObjects & { movedMm: readonly number[]; mostMm: number },
    say: Voice,
  ): string =>
    `Add ${say.length(mostMm)} of pull compensation to ${say.objects(of.objects, MOST_RUNS)}, the most that works, let the neighbors overlap, and measure a test. ${them(of, 'It comes', 'They come')} out smaller than drawn, wrinkles or none: the edges draw in ${say.range(movedMm)} on each side, along the stitches.`,
  drawnOut: (
    { amounts }: { amounts: readonly { readonly mm: number; readonly objects: readonly number[] }[] },
    say: Voice,
  ): string =>
    `Pull compensation on each side, along the stitches, counting what the file has: ${amounts.map(({ mm, objects }) => `${say.length(mm)} for ${say.objects(objects, MOST_RUNS)}`).join('; ')}.`,
  drawnOutTitle: 'Pull compensation',
  drawnOutObjects: 'objects',
  ids: ({ objects }: ForObjects, say: Voice): string => say.ids(objects),
  drawnOutNote: ({ stepMm }: { stepMm: number }, say: Voice): string =>
    `On each side, along the stitches, to the nearest ${say.length(stepMm)}, counting what the file has already. Edges draw in whether the fabric wrinkles or not.`,
  trustTitle: 'How sure',
  trust: ({ thread }: { thread: string }, _: Voice): string =>
    `Sew a test on the same fabric. The figures use ${thread} thread and typical values for this fabric, not yours unless your profile has them. Two plans whose heights overlap may come out the other way around.`,
  caution: 'Caution: ',
  /** The plan in a sentence, for the file check. */
  sewIt: (
    {
      backing,
      underlay,
      topping: over,
      needle: with_,
      now,
      washed,
      washes,
      total,
      currency,
    }: {
      backing: string;
      underlay: ({ to: LaidUnderlay } & ForObjects) | null;
      topping: string | null;
      needle: string;
      /** Grades. */
      now: number;
      washed: number;
      washes: number;
      total: number;
      currency: string;
    },
    say: Voice,
  ): string =>
    [
      `Sew it over ${backing}`,
      underlay === null ? '' : ` with ${advice.underlay(underlay, say)}`,
      over === null ? '' : `, under ${over}`,
      `, needle ${with_}: ${risk.grade({ grade: now }, say)} as sewn`,
      washes > 0 ? `, ${risk.grade({ grade: washed }, say)}${afterWashes(washes, say)}` : '',
      `; ${say.money(total, currency)} a piece before labor.`,
    ].join(''),
};
