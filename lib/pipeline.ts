/** The map: the whole way from the records of a file to the report, every step's result kept. */

import type { Advice } from './advice/advise.js';
import type { Calibration } from './calibrate/calibrate.js';
import type { LoggedSewOut, RowFault, SewOutLog } from './calibrate/sew-out-log.js';
import { type Budget, UNBOUNDED } from './core/budget.js';
import type { DesignFormat } from './format/decode.js';
import type { Design } from './format/design.js';
import { penetrations, type Stitches } from './format/stitches.js';
import type { Catalogue } from './materials/catalogue.js';
import type { HoopField, Place } from './materials/places.js';
import { measureDesign } from './measure/measure-design.js';
import { measureObjects } from './measure/measure-object.js';
import type { DesignMeasures, PackedMeasures } from './measure/measures.js';
import { vetBytes, vettedBytes } from './measure/memory.js';
import type { Conditions, GoodsRequest } from './mechanics/conditions.js';
import type { DesignRisk, WrinkleField } from './mechanics/risk.js';
import { DEFAULT_SHOP, type Shop } from './profile.js';
import type { AdviseReport } from './report/advise-report.js';
import { type ColumnsForeseen, HEAVY_UNDERLAY } from './report/columns.js';
import type { ChangeForeseen } from './report/compare.js';
import type { RelayReport } from './report/relay-report.js';
import type { ResewReport } from './report/resew-report.js';
import { buildVetReport, type FileFacts } from './report/vet/build.js';
import type { VetReport } from './report/vet/report.js';
import type { Resewing, ResewWish } from './rework/resew.js';
import { findObjects } from './segment/find-objects.js';
import { type StitchObject, UNSURE } from './segment/objects.js';
import type { SetObject, SetOutcome } from './segment/set-right/saying.js';
import { numberedAs, saidAnew, setRight } from './segment/set-right/set-right.js';
import type { LaidUnderlay } from './stitch/laid-underlay.js';
import type { SewnDesign } from './stitch/relaid.js';
import { findFindings } from './vetting/find-findings.js';
import type { Finding } from './vetting/finding.js';

export interface VetSettings {
  /** What the report says of the file; `readDesignFile` gives it. */
  file: FileFacts;
  /** The shop's own figures; the built-in ones where it has none. */
  shop?: Shop;
  /** Where on the garment the design goes, if that is known. */
  place?: Place;
  /** The hoop it is sewn in, if that is known. */
  hoop?: HoopField;
  /** What it may take; as much as it does where nobody says. */
  budget?: Budget;
  /** Of a design that was made from another: what the shop has said of its objects, and the objects whose numbers it keeps. */
  madeFrom?: { said: readonly SetObject[]; objects: readonly StitchObject[] };
}

/** Every result on the way, each made of those before it. */
export interface Vetting {
  design: Design;
  stitches: Stitches;
  /** As found, but as the shop says where it has said something of them. */
  objects: readonly StitchObject[];
  /** What the shop has said of objects. */
  said: readonly SetObject[];
  /** What came of it. */
  set: readonly SetOutcome[];
  measures: readonly PackedMeasures[];
  designMeasures: DesignMeasures;
  findings: readonly Finding[];
  report: VetReport;
  /** What is left of it is for the work that goes on from here. */
  budget: Budget;
  /** The hoop it is sewn in, if that is known. */
  hoop?: HoopField;
}

/**
 * Vets a decoded design: its needle points, the objects in them, their measures, what is wrong, and the report of
 * it all. Linear in the design's size; the design is not changed. A design without stitches gives an empty report
 * with a finding that says so.
 * @throws LieflatError `over-budget` where there is a budget
 */
export function vetDesign(design: Design, settings: VetSettings): Vetting {
  return (settings.budget ?? UNBOUNDED).run(() => vetWithin(design, settings));
}

function vetWithin(design: Design, settings: VetSettings): Vetting {
  const { file, shop = DEFAULT_SHOP, place, hoop, budget = UNBOUNDED } = settings;
  budget.reserve(vetBytes(design));
  const stitches = penetrations(design);
  const { madeFrom } = settings;
  const said = madeFrom?.said ?? saidOf(file, shop);
  const { objects: found, set } = setRight(stitches, findObjects(stitches), said);
  const objects = madeFrom && said.length > 0 ? numberedAs(found, madeFrom.objects) : found;
  budget.reserve(vettedBytes(design, objects.length));
  const measures = measureObjects(stitches, objects);
  const designMeasures = measureDesign(design, stitches, measures, shop.machine, shop.threadUse);
  const findings = findFindings({
    design,
    stitches,
    objects: measures,
    measures: designMeasures,
    limits: shop.limits,
    place,
    hoop,
  });
  let report: VetReport | undefined;
  return {
    design,
    stitches,
    objects,
    said,
    set,
    measures,
    designMeasures,
    findings,
    budget,
    hoop,
    // As large as all the rest, and not everybody asks for it.
    get report() {
      report ??= budget.run(() => buildVetReport(file, designMeasures, measures, findings, set));
      return report;
    },
  };
}

/** What a shop has said of the objects of a file. */
const saidOf = (file: Pick<FileFacts, 'sha256'>, { setObjects }: Shop): readonly SetObject[] =>
  setObjects?.get(file.sha256)?.objects ?? [];

/** The objects in the needle points of a file, as a shop says where it has said something of them. */
export const objectsOf = (
  stitches: Stitches,
  file: Pick<FileFacts, 'sha256'>,
  shop: Shop = DEFAULT_SHOP,
): readonly StitchObject[] => setRight(stitches, findObjects(stitches), saidOf(file, shop)).objects;

/** A design vetted, and its risk on goods. */
export interface RiskedVetting extends Vetting {
  conditions: Conditions;
  risk: DesignRisk;
}

/** What the mechanics need of a vetted design. */
export type MechanicsInput = Pick<Vetting, 'stitches' | 'objects'> &
  Partial<Pick<Vetting, 'budget' | 'hoop'>>;

// Mechanics and materials are loaded only where goods are asked for: vetting alone must not wait for them.

/**
 * Looks up the goods that a person asks for, defaults filled in.
 * @throws LieflatError `unknown-id`, `bad-argument`
 */
export async function goodsOf(request: GoodsRequest, shop: Shop = DEFAULT_SHOP): Promise<Conditions> {
  const { conditionsOf } = await import('./mechanics/conditions.js');
  return conditionsOf(request, await catalogueOf(shop));
}

/**
 * The risk of a vetted design on each of several goods, in their order; what does not depend on the goods is worked out once.
 * @throws LieflatError `bad-argument`
 */
export async function risksOf(
  { stitches, objects, hoop, budget = UNBOUNDED }: MechanicsInput,
  goods: readonly Conditions[],
  shop: Shop = DEFAULT_SHOP,
): Promise<DesignRisk[]> {
  const [{ prepare, assessFully }, { riskBytes }] = await Promise.all([
    import('./mechanics/risk.js'),
    import('./mechanics/memory.js'),
  ]);
  const { parameters } = shop;
  const catalogue = await catalogueOf(shop);
  const threads = new Set(goods.map(({ thread }) => thread));
  return budget.run(() => {
    budget.reserve(riskBytes(stitches, objects, threads.size, goods.length));
    const prepared = new Map(
      [...threads].map((thread) => [thread, prepare({ stitches, objects, thread, hoop, catalogue })]),
    );
    return goods.map((on) => assessFully(prepared.get(on.thread)!, on, catalogue, parameters));
  });
}

/**
 * How high a design wrinkles on some goods, cell by cell: the map alone, for a small part of what {@link risksOf} takes.
 * @throws LieflatError `bad-argument`
 */
export async function wrinklesOn(
  { stitches, objects, hoop, budget = UNBOUNDED }: MechanicsInput,
  goods: Conditions,
  shop: Shop = DEFAULT_SHOP,
): Promise<WrinkleField> {
  const [{ prepare, wrinkleField }, { riskBytes }] = await Promise.all([
    import('./mechanics/risk.js'),
    import('./mechanics/memory.js'),
  ]);
  const { parameters } = shop;
  const catalogue = await catalogueOf(shop);
  return budget.run(() => {
    budget.reserve(riskBytes(stitches, objects, 1, 1));
    const prepared = prepare({ stitches, objects, thread: goods.thread, hoop, catalogue });
    return wrinkleField(prepared, goods, catalogue, parameters);
  });
}

/**
 * {@link vetDesign}, with the risk of every object and of the whole in the report, and the advice. The risk is that over the backing asked for,
 * the advice is free to choose.
 */
export async function vetOnGoods(
  design: Design,
  settings: VetSettings,
  conditions: Conditions,
): Promise<RiskedVetting> {
  const [{ withRisk }, { withAdvice }] = await Promise.all([
    import('./report/risk-report.js'),
    import('./report/advice-in-vet.js'),
  ]);
  const { shop = DEFAULT_SHOP, file, hoop } = settings;
  const vetting = vetDesign(design, settings);
  const [risk] = await risksOf(vetting, [conditions], shop);
  const risked = withRisk(vetting.report, risk, conditions, await catalogueOf(shop));
  if (vetting.stitches.count === 0) return { ...vetting, report: risked, conditions, risk };
  const { stack: _, washes, ...goods } = conditions;
  const advice = await adviseOn(vetting, { ...goods, ...(washes > 0 && { washes }), hoop }, shop);
  const report = withAdvice(risked, await adviseReportOf(file, advice, shop));
  return { ...vetting, report, conditions, risk };
}

/**
 * What the satin columns of a vetted design do on some goods, as they are and with a light fill under all that are said to need a
 * lighter underlay.
 * @throws LieflatError `bad-argument`
 */
export async function foreseeColumns(
  { stitches, objects, hoop, findings, budget }: Vetting,
  conditions: Conditions,
  shop: Shop = DEFAULT_SHOP,
): Promise<ColumnsForeseen> {
  const [{ prepare, assess }, { riskBytes }, { relaid }, { conditionsReport, riskByObject }] =
    await Promise.all([
      import('./mechanics/risk.js'),
      import('./mechanics/memory.js'),
      import('./stitch/relaid.js'),
      import('./report/risk-report.js'),
    ]);
  const { parameters } = shop;
  const catalogue = await catalogueOf(shop);
  const heavy = heavyColumns(findings);
  const ids = objects.map(({ id }) => id);
  const foresee = (design: { stitches: Stitches; objects: readonly StitchObject[] }) => {
    const prepared = prepare({ ...design, thread: conditions.thread, hoop, catalogue });
    return riskByObject(assess(prepared, conditions, catalogue, parameters), ids);
  };
  return budget.run(() => {
    budget.reserve(riskBytes(stitches, objects, 1, 1));
    return {
      conditions: conditionsReport(conditions, catalogue),
      relaid: [...heavy],
      now: foresee({ stitches, objects }),
      onLightFill:
        heavy.size > 0
          ? foresee(relaid({ stitches, objects }, new Map([...heavy].map((id) => [id, 'fill']))))
          : null,
    };
  });
}

/**
 * The risk of two versions of a design on the same goods, for `compareReports`.
 * @throws LieflatError `bad-argument`
 */
export async function foreseeChange(
  before: Vetting,
  after: Vetting,
  conditions: Conditions,
  shop: Shop = DEFAULT_SHOP,
): Promise<ChangeForeseen> {
  const { changeForeseen } = await import('./report/risk-change.js');
  const [a] = await risksOf(before, [conditions], shop);
  const [b] = await risksOf(after, [conditions], shop);
  return changeForeseen(a, b, conditions, await catalogueOf(shop));
}

/** What is asked for beside the goods. */
export interface AdviceWish extends GoodsRequest {
  /** The hoop it is sewn in; the smallest that holds the design where nobody says. */
  readonly hoop?: HoopField;
}

/**
 * What to do about a design on some goods: every plan that the rules of the trade leave, worked out. With a stack in the wish that stack alone is
 * looked at; `washes` goes before the shop's own.
 * @throws LieflatError `unknown-id`, `bad-argument`, `bad-profile` where the profile prices nothing that may be used
 */
export async function adviseOn(
  vetting: Pick<Vetting, 'design' | 'stitches' | 'objects' | 'measures' | 'designMeasures' | 'findings'> &
    MechanicsInput,
  wish: AdviceWish,
  shop: Shop = DEFAULT_SHOP,
): Promise<Advice> {
  const { budget = UNBOUNDED, stitches, objects } = vetting;
  const [{ advise }, { conditionsOf }, { riskBytes }] = await Promise.all([
    import('./advice/advise.js'),
    import('./mechanics/conditions.js'),
    import('./mechanics/memory.js'),
  ]);
  const catalogue = await catalogueOf(shop);
  const conditions = conditionsOf(wish, catalogue);
  return budget.run(() => {
    budget.reserve(riskBytes(stitches, objects, 1, 1));
    return advise({
      ...vetting,
      heavy: heavyColumns(vetting.findings),
      conditions,
      accepted: wish.washes === undefined ? shop.accept : { ...shop.accept, washes: wish.washes },
      washesAsked: wish.washes !== undefined,
      hoop: wish.hoop ?? null,
      prices: shop.prices,
      machine: shop.machine,
      threadUse: shop.threadUse,
      catalogue,
      parameters: shop.parameters,
    });
  });
}

/** The report of plans: what `lieflat advise --format json` prints; `set` is what came of what the shop has said of the objects. */
export async function adviseReportOf(
  file: FileFacts,
  advice: Advice,
  shop: Shop = DEFAULT_SHOP,
  set: Vetting['set'] = [],
): Promise<AdviseReport> {
  const { adviseReport } = await import('./report/advise-report.js');
  const { search, ...rest } = advice;
  const { objectRisks: _, ...found } = search;
  return adviseReport({ ...rest, ...found, file, set, catalogue: await catalogueOf(shop) });
}

/** What is to be relaid, and into what file. */
export interface RelayWish {
  /** Ids of satin columns; those that call for a lighter underlay where nobody says. */
  readonly objects?: readonly number[];
  /** A light fill where nobody says; `keep` leaves all underlay as it is. */
  readonly to?: LaidUnderlay | 'keep';
  /** The format of the file that is made; that of the design where nobody says. */
  readonly format?: DesignFormat;
  /** Goods to foresee the change on. */
  readonly conditions?: Conditions;
  /** Draw columns and areas out by as much as they draw in on these goods: those of `objects`, or all. */
  readonly compensate?: boolean;
}

/** A design relaid: the file, what is found in it when it is read again, and the report of the change. */
export interface Relaying {
  readonly bytes: Uint8Array;
  readonly before: Vetting;
  readonly after: Vetting;
  readonly report: RelayReport;
}

/**
 * The design with other underlay under some of its satin columns, as a file. What that file holds is decoded and vetted again; a column that
 * would not come out as asked is left as it was, and the report says why; so is one without the proof that all that is seen of the design stays as it is.
 * @throws LieflatError `unknown-id` for an object that there is not, `bad-argument` for one that is no satin column or a design that the
 * format cannot hold
 */
export async function relayDesign(
  design: Design,
  settings: VetSettings,
  wish: RelayWish = {},
): Promise<Relaying> {
  const [{ provenRelay }, { columnsAsked }, { relayReport }, { decodeDesign, encodeDesign }] =
    await Promise.all([
      import('./rework/proven.js'),
      import('./rework/columns-asked.js'),
      import('./report/relay-report.js'),
      import('./format/decode.js'),
    ]);
  const { shop = DEFAULT_SHOP, budget = UNBOUNDED } = settings;
  const { to = 'fill', format = design.format, conditions, compensate = false } = wish;
  // What the other format cannot say would come out as a change.
  const start = format === design.format ? design : await decodeDesign(encodeDesign(design, format), format);
  const before = vetDesign(start, settings);
  const choices =
    to === 'keep'
      ? []
      : (columnsAsked(before.objects, wish.objects) ?? sureOf(before, heavyColumns(before.findings))).map(
          (id) => [id, to] as const,
        );
  const relaying = await provenRelay(before, new Map(choices), format, budget);
  const { relaid, left, proofs, failed, said } = relaying;
  const vetted = (made: Design) =>
    vetDesign(made, { ...settings, madeFrom: { said, objects: before.objects } });
  const relaidDesign = vetted(relaying.design);
  const drawnOut =
    compensate && conditions ? await drawOut(relaidDesign, conditions, format, wish.objects, settings) : null;
  const bytes = drawnOut ? drawnOut.bytes : relaying.bytes;
  const after = drawnOut ? vetted(drawnOut.design) : relaidDesign;
  const foreseen = conditions ? await foreseeChange(before, after, conditions, shop) : null;
  const report = relayReport(
    before,
    after,
    { to, relaid: relaid.keys(), left, proofs, failed, threadUse: shop.threadUse, compensation: drawnOut },
    foreseen,
  );
  return { bytes, before, after, report };
}

/** The pull compensation of a vetted design on some goods, as a file with its proof. */
async function drawOut(
  vetting: Vetting,
  conditions: Conditions,
  format: DesignFormat,
  asked: readonly number[] | undefined,
  { shop = DEFAULT_SHOP }: VetSettings,
) {
  const [{ provenCompensation }, { unsureObjects }, { prepare }, { pullsInHoop }, { riskBytes }] =
    await Promise.all([
      import('./rework/proven-compensation.js'),
      import('./rework/unsure-objects.js'),
      import('./mechanics/risk.js'),
      import('./mechanics/compensation.js'),
      import('./mechanics/memory.js'),
    ]);
  const catalogue = await catalogueOf(shop);
  const { objects, hoop, budget } = vetting;
  const named = asked && new Set(asked);
  const only = objects.filter(({ id }) => named === undefined || named.has(id)).map(({ id }) => id);
  const pullsOn = (stitches: Stitches) => {
    budget.reserve(riskBytes(stitches, objects, 1, 1));
    const prepared = prepare({ stitches, objects, thread: conditions.thread, hoop, catalogue });
    return pullsInHoop(prepared, conditions, catalogue, shop.parameters);
  };
  return provenCompensation(vetting, pullsOn, format, budget, {
    only: new Set(only),
    unsure: unsureObjects(objects, asked),
  });
}

/** How a design is sewn again over stitches that were picked out; the thread by its id, `polyester-40` without it. */
export interface ResewRequest extends Omit<ResewWish, 'threadMm' | 'leave' | 'unsure'> {
  readonly thread?: string;
  /** Ids of objects to be sewn anew though it is not sure what they are. */
  readonly objects?: readonly number[];
}

/** A design made larger to be sewn again, and everything that is said of it. */
export interface Resewn {
  resewing: Resewing;
  /** The file to sew. */
  bytes: Uint8Array;
  /** What reading that file again gives. */
  after: Vetting;
  report: ResewReport;
}

/**
 * Makes a vetted design larger, to be sewn again over its own needle holes, and proves hole by hole what is hidden. The new design is vetted as its file reads; on
 * goods, the risk of both is foreseen.
 *
 * @param format of the file to sew
 * An object without the proof that all stays covered is not laid anew, nor one of which it is not sure what it is; the report names both.
 * @throws LieflatError `unknown-id` for the thread or an object, `bad-argument` for a growth that no file can hold or the mode cannot do without bare places
 */
export async function resewDesign(
  before: Vetting,
  { thread = 'polyester-40', objects, ...wish }: ResewRequest,
  settings: VetSettings,
  format: Design['format'] = 'dst',
  conditions: Conditions | null = null,
): Promise<Resewn> {
  const [{ provenResew }, { unsureObjects }, { resewReport }, { compareReports }, { find }] =
    await Promise.all([
      import('./rework/proven.js'),
      import('./rework/unsure-objects.js'),
      import('./report/resew-report.js'),
      import('./report/compare.js'),
      import('./materials/catalogue.js'),
    ]);
  const { shop, budget = UNBOUNDED } = settings;
  const threadMm = find(await catalogueOf(shop), 'threads', thread).cover.value;
  const unsure = unsureObjects(before.objects, objects);
  const { resewing, bytes, proofs, failed, design } = await provenResew(
    before,
    { ...wish, unsure, threadMm },
    format,
    budget,
  );
  const { modes } = resewing;
  const said = saidAnew(before.said, before, resewing.chosen.written);
  const after = vetDesign(design, { ...settings, madeFrom: { said, objects: before.objects } });
  const report = resewReport({
    file: settings.file,
    resewing,
    proofs,
    failed,
    unsure,
    before,
    after,
    measuresAfter: new Map(
      modes.map(({ mode, written: { stitches, objects } }) => [mode, measureObjects(stitches, objects)]),
    ),
    findings: compareReports(before.report, after.report).findings.gained,
    foreseen: conditions && (await foreseeChange(before, after, conditions, shop)),
  });
  return { resewing, bytes, after, report };
}

/**
 * A shop's log of graded sew-outs, its ids looked up; rows that cannot be used are listed.
 * @throws LieflatError `undecodable`, its place `line N`, where there is no table
 */
export async function readSewOuts(bytes: Uint8Array, shop: Shop = DEFAULT_SHOP): Promise<SewOutLog> {
  const { readSewOutLog } = await import('./calibrate/sew-out-log.js');
  return readSewOutLog(bytes, await catalogueOf(shop));
}

/** Rows of a log that cannot have been sewn or measured as they say: an object that is not there, underlay under no column, a width that cannot be. */
export async function unsewnRows(
  rows: readonly LoggedSewOut[],
  designs: ReadonlyMap<string, SewnDesign>,
): Promise<RowFault[]> {
  const calibration = await import('./calibrate/calibrate.js');
  return calibration.unsewnRows({ rows, designs });
}

/**
 * The parameters of the model that suit graded and measured sew-outs. Rows are taken as they are: leave those of {@link unsewnRows} out before.
 *
 * @param designs stitches and objects by the names that the rows have for them
 * @param place what the log is called in errors
 * @throws LieflatError `no-fit` where the sew-outs cannot carry a fit, saying what is missing; `bad-argument` for a design that is not given
 */
export async function calibrateTo(
  rows: readonly LoggedSewOut[],
  designs: ReadonlyMap<string, SewnDesign>,
  place: string,
  shop: Shop = DEFAULT_SHOP,
  budget: Budget = UNBOUNDED,
): Promise<Calibration> {
  const { calibrate } = await import('./calibrate/calibrate.js');
  const { accept, parameters } = shop;
  const catalogue = await catalogueOf(shop);
  return budget.run(() => calibrate({ rows, designs, catalogue, parameters, washes: accept.washes, place }));
}

/** Ids of the wide columns that call for a lighter underlay. */
const heavyColumns = (findings: readonly Finding[]): Set<number> =>
  new Set(findings.flatMap((f) => (f.code === HEAVY_UNDERLAY && f.object ? [f.object] : [])));

/** Those of some objects that are hardly anything else: what is not sure is rewritten only where it is asked for by its id. */
const sureOf = ({ objects }: Vetting, ids: ReadonlySet<number>): number[] =>
  objects.flatMap(({ id, confidence }) => (ids.has(id) && confidence >= UNSURE ? [id] : []));

async function catalogueOf(shop: Shop = DEFAULT_SHOP): Promise<Catalogue> {
  return shop.catalogue ?? (await import('./materials/catalogue.js')).CATALOGUE;
}
