import { type Answers, NOTHING_KEPT } from '../core/answers.js';
import { once } from '../core/memoize.js';
import type { Design } from '../format/design.js';
import type { Stitches } from '../format/stitches.js';
import { type Catalogue, find } from '../materials/catalogue.js';
import { fieldHolds, type HoopField, roomInField, smallestHoop } from '../materials/places.js';
import { type Prices, withCataloguePrices } from '../materials/prices.js';
import type { DesignMeasures, ObjectMeasures } from '../measure/measures.js';
import type { MachineProfile } from '../measure/sew-time.js';
import type { ThreadUse } from '../measure/thread-length.js';
import type { Conditions } from '../mechanics/conditions.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import { designDrivers, prepare, type RiskMaps } from '../mechanics/risk.js';
import type { NowAndWashed } from '../mechanics/stack-family.js';
import type { StitchObject } from '../segment/objects.js';
import { relaid } from '../stitch/relaid.js';
import type { CalledColumns } from '../vetting/columns-called.js';
import type { Finding } from '../vetting/finding.js';
import { type Accepted, acceptedFor } from './accepted.js';
import type { RankedPlan, RankedStacks, SearchInput, StackOffer } from './candidates.js';
import { againstCapOrder } from './cap-order.js';
import { type FileFaults, fileFaults } from './decided-findings.js';
import { designChanges } from './design-changes.js';
import { type Tools, toolsFor } from './finishing.js';
import type { AdviceJob } from './job.js';
import { type ObjectAdvice, objectAdvice } from './object-advice.js';
import type { AskedRun } from './plan-price.js';
import type { DesignChange } from './reason.js';
import { openSearch, type SearchResult, searchPlans } from './search.js';

export interface AdviceInput {
  readonly design: Design;
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
  readonly measures: readonly ObjectMeasures[];
  readonly designMeasures: DesignMeasures;
  readonly findings: readonly Finding[];
  /** The satin columns that call for another underlay. */
  readonly called: CalledColumns;
  readonly conditions: Conditions;
  readonly accepted: Accepted;
  /** Its washes were asked for: they stand whatever the garment. */
  readonly washesAsked?: boolean;
  readonly hoop: HoopField | null;
  /** What to price; nothing without it. */
  readonly run?: AskedRun;
  readonly prices: Prices;
  readonly machine: MachineProfile;
  readonly threadUse: ThreadUse;
  readonly catalogue: Catalogue;
  /** Ids of the sheets that may be chosen. */
  readonly stock: readonly string[];
  readonly parameters: MechanicsParameters;
}

/** The plans for a vetted design on a fabric, and what each object needs; plain data. */
export interface Advice extends FileFaults {
  readonly conditions: Conditions;
  readonly accepted: Accepted;
  readonly search: SearchResult;
  readonly objects: readonly ObjectAdvice[];
  readonly mustChange: readonly DesignChange[];
  readonly hoop: HoopField | null;
  /** False where the design stands out of the field of the hoop that was asked for, or where no hoop holds it. */
  readonly hoopHolds: boolean;
  /** Least room that the design leaves on a side of that hoop's field, mm; null without a hoop. */
  readonly hoopRoomMm: number | null;
  /** On a cap, the first objects of what is not sewn from the bill up and from the center out. */
  readonly capOrder: readonly number[];
}

/** A design whose stacks can be ranked, to be advised on any of them. */
export interface OpenAdvice {
  /** Every stack that the rules leave. */
  readonly offers: readonly StackOffer[];
  /** What the design asks for whatever lies behind it. */
  readonly tools: Tools;
  /** As in the {@link Advice}. */
  readonly hoop: { readonly holds: boolean } | null;
  /**
   * How one of the stacks ranks, by its text.
   * @throws RangeError for another stack
   */
  ranked(stack: string): readonly RankedPlan[];
  /**
   * The advice with one of the stacks, as its text, at the speed of what is sewn beside it; what single objects need is left out.
   * @throws RangeError for another stack
   */
  on(stack: string, speedSpm: number): MappedAdvice;
}

/** Advice, and how the fabric wrinkles on what it recommends. */
export interface MappedAdvice {
  readonly advice: Advice;
  readonly maps: NowAndWashed<RiskMaps>;
}

/**
 * Plans, advice on every object, and what in the design would have to change where no plan is good enough. Fabric that must not get wet are
 * judged as sewn. A stack that was asked for is looked at alone.
 * @param answers where the advice is kept
 * @throws LieflatError `unknown-id`; `bad-profile` where nothing that may be used has a price
 */
export const advise = (input: AdviceInput, answers: Answers = NOTHING_KEPT): Advice =>
  answers.of(['advice', ...askedIn(input)], () => {
    const job = jobOf(input);
    const { result, objectRisks } = searchPlans(job.searched);
    const objects = objectAdvice(input.measures, input.findings, result.recommended, objectRisks());
    return adviceOf(input, job, result, objects);
  });

/**
 * The same in steps, for designs that have to share a stack: stacks ranked first, advised once one is chosen.
 * @param known how stacks ranked for the same design before
 * @throws LieflatError as {@link advise}
 */
export function openAdvice(
  input: AdviceInput,
  known: RankedStacks = new Map(),
  answers: Answers = NOTHING_KEPT,
): OpenAdvice {
  const asked = askedIn(input);
  const job = jobOf(input);
  const stacks = new Map(known);
  const search = once(() => openSearch(job.searched, stacks));
  const ranked = (stack: string): readonly RankedPlan[] => {
    const plans = stacks.get(stack) ?? answers.of(['ranked', stack, ...asked], () => search().ranked(stack));
    stacks.set(stack, plans);
    return plans;
  };
  return {
    offers: answers.of(['stacks offered', ...asked], () => search().offers),
    ranked,
    tools: toolsFor(job.searched.job, input.machine),
    hoop: job.hoop && { holds: fieldHolds(job.hoop, input.designMeasures) },
    on: (stack, speedSpm) =>
      answers.of(['advice on a stack', stack, speedSpm, ...asked], () => {
        ranked(stack);
        const { result, maps } = search().plans({ stack, speedSpm });
        return { advice: adviceOf(input, job, result, []), maps: maps() };
      }),
  };
}

/** All that advice hangs on. Measures follow from the rest. */
function askedIn({ measures: _, designMeasures: __, called: ___, ...rest }: AdviceInput): unknown[] {
  return Object.entries(rest).flat();
}

/** What the search goes by, and what is settled before it. */
function jobOf(input: AdviceInput) {
  const { design, stitches, objects, measures, designMeasures, called, conditions, catalogue } = input;
  const { parameters } = input;
  const fabric = find(catalogue, 'fabrics', conditions.fabric);
  const accepted = acceptedFor(fabric, input.accepted, input.washesAsked);
  const thread = find(catalogue, 'threads', conditions.thread);
  const job: AdviceJob = {
    ...{ fabric, catalogue, design: designMeasures, objects: measures, called },
    threadWeight: thread.weight,
  };
  const hoop = input.hoop ?? smallestHoop(designMeasures, fabric.cap);
  const sewn = { stitches, objects };
  const searched: SearchInput = {
    job,
    design,
    sewn,
    thread,
    grainDeg: conditions.grainDeg,
    hoopStretchPercent: conditions.hoopStretchPercent,
    accepted,
    hoop,
    prices: withCataloguePrices(input.prices, catalogue),
    stock: input.stock,
    machine: input.machine,
    threadUse: input.threadUse,
    parameters,
    run: input.run,
    ...(conditions.stackGiven && { only: conditions.stack }),
  };
  return { accepted, hoop, sewn, searched };
}

function adviceOf(
  { findings, designMeasures, conditions, catalogue, parameters }: AdviceInput,
  { accepted, hoop, sewn, searched: { job } }: ReturnType<typeof jobOf>,
  search: SearchResult,
  objects: readonly ObjectAdvice[],
): Advice {
  const shown = search.recommended;
  const mustChange = (): DesignChange[] => {
    const changed = relaid(sewn, new Map(shown.underlay.map(({ object, to }) => [object, to])));
    const prepared = prepare(
      { ...changed, thread: conditions.thread, onCap: job.fabric.cap, ...(hoop && { hoop }) },
      catalogue,
    );
    const plan = { ...conditions, stack: shown.stack, washes: accepted.washes };
    return designChanges(designDrivers(prepared, plan, { catalogue, parameters }));
  };
  return {
    conditions: { ...conditions, washes: accepted.washes },
    accepted,
    search,
    objects,
    mustChange: search.meets === 'no' ? mustChange() : [],
    hoop,
    hoopHolds: hoop !== null && fieldHolds(hoop, designMeasures),
    capOrder: againstCapOrder(job),
    hoopRoomMm: hoop && roomInField(hoop, designMeasures).roomMm,
    ...fileFaults(findings, search),
  };
}
