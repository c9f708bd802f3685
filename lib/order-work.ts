/** The work on a line of an order: its design ranked on every backing, then worked out on the setup that all lines of its fabric share. */
import type { MappedAdvice, OpenAdvice } from './advice/advise.js';
import type { RankedStacks } from './advice/candidates.js';
import { cutSize } from './advice/cost.js';
import { fileFaults } from './advice/decided-findings.js';
import { type Budget, UNBOUNDED } from './core/budget.js';
import { LieflatError } from './core/errors.js';
import type { FullShop } from './full-shop.js';
import { type DesignFile, sha256 } from './io/read-file.js';
import type { HoopField } from './materials/places.js';
import { threadByBlock } from './measure/thread-length.js';
import type { OrderLine } from './order/order-table.js';
import type { OfferedLine, OrderSetup } from './order/shared-setup.js';
import type { CardJob, CardOptions } from './report/card/input.js';
import { operatorCard } from './report/card/page.js';
import type { WorkedLine } from './report/order/report.js';
import { proofOf, proofSvg } from './report/proof/proof.js';
import { colorNamed, colorsNamed, ownColors } from './report/proof/thread-colors.js';
import type { FileFacts } from './report/vet/build.js';
import { factsOf, type Vetting } from './shop.js';
import { callsForUnderlay } from './vetting/columns-called.js';

/** What is known of a design before anything is worked out; plain data. */
export type OfferedDesign = Omit<OfferedLine, 'quantity'>;

/** A file of an order, named within its folder. */
export interface OrderFile {
  name: string;
  content: string | Uint8Array;
}

/** A line with its design vetted, to be ranked on any stack. */
export interface OpenLine {
  readonly line: OrderLine;
  readonly file: DesignFile;
  readonly vetting: Vetting;
  readonly advice: OpenAdvice;
  readonly hoop: HoopField | undefined;
}

/** How what is made for a line is set. */
export type OrderLook = Pick<CardOptions, 'units' | 'paper' | 'language'>;

/**
 * Vets the design of a line and looks up what it may be sewn on.
 * @param hoop it is sewn in; the smallest that holds it without one
 * @param ranked how stacks ranked before, for the same line
 * @throws LieflatError `undecodable` where the file holds no stitch, and as `advise` does
 */
export function openLine(
  shop: FullShop,
  line: OrderLine,
  file: DesignFile,
  hoop?: HoopField,
  budget: Budget = UNBOUNDED,
  ranked?: RankedStacks,
): OpenLine {
  const vetting = shop.vet(file.design, settingsOf(line, factsOf(file), hoop, budget));
  if (vetting.stitches.count === 0)
    throw new LieflatError({
      code: 'undecodable',
      place: file.path,
      what: 'the file holds no stitches',
      todo: 'ask for the file again; lieflat vet shows what is in it',
    });
  const { stack } = line;
  const wish = { fabric: line.garment, ...(stack !== null && { stack }), ...(hoop && { hoop }) };
  return { line, file, vetting, hoop, advice: shop.openAdvice(vetting, wish, ranked) };
}

export const offeredDesign = ({ advice }: OpenLine): OfferedDesign => ({
  offers: advice.offers,
  topping: advice.tools.topping,
  needle: advice.tools.needle,
  speedSpm: advice.tools.speedSpm,
});

const settingsOf = ({ place }: OrderLine, file: FileFacts, hoop: HoopField | undefined, budget: Budget) => ({
  file,
  budget,
  ...(place && { place }),
  ...(hoop && { hoop }),
});

/** A design as it will be sewn: the file, and the advice on it. */
interface Sewn extends MappedAdvice {
  vetting: Vetting;
  /** Columns that keep a heavy underlay on this fabric. */
  kept: MappedAdvice['advice']['search']['kept'];
  /** Null where it is sewn as it came. */
  bytes: Uint8Array | null;
  objectsRelaid: number;
}

/**
 * Works a line out on its setup: relays the file where that pays, and makes the card and the proof of the file that will be sewn.
 * @param names of what is made, within the folder of the order
 */
export async function workedLine(
  shop: FullShop,
  opened: OpenLine,
  setup: OrderSetup,
  names: { readonly relaid: string; readonly card: string; readonly proof: string },
  look: OrderLook,
): Promise<{ worked: WorkedLine; files: OrderFile[] }> {
  const { line } = opened;
  const sewn = await asItIsSewn(shop, opened, setup);
  const { vetting, advice, maps, bytes, objectsRelaid } = sewn;
  const { stitches, designMeasures, design } = vetting;
  const { recommended, chance } = advice.search;
  // The columns have their new underlay by now, and the needle is that of all lines.
  const plan = { ...recommended, underlay: [], needle: setup.needle };
  const facts: FileFacts =
    bytes === null
      ? factsOf(opened.file)
      : { path: names.relaid, format: opened.file.format, bytes: bytes.length, sha256: sha256(bytes) };
  const report = shop.adviseReport(
    facts,
    {
      ...advice,
      ...fileFaults(vetting.findings, { recommended, kept: sewn.kept }),
      search: { ...advice.search, plans: [plan], recommended: plan },
    },
    vetting.set,
  );
  const { threadColors, designThreads } = shop.figures;
  const own = ownColors(threadColors);
  const threads = colorsNamed(line.threads || (designThreads?.[opened.file.sha256] ?? ''), own);
  const garment = line.garmentColor === '' ? null : colorNamed(line.garmentColor, own);
  const title = facts.path.replace(/^.*[\\/]/, '');
  const card = await operatorCard(
    {
      design,
      stitches,
      designMeasures,
      advice: report,
      grainDeg: advice.conditions.grainDeg,
      hoop: advice.hoop,
      ...(line.place && { place: line.place }),
      maps: maps.washed,
      machine: shop.figures.machine,
      catalogue: shop.catalogue,
      threads,
      job: jobOf(line),
    },
    { ...look, title, cost: false },
  );
  const proof = await proofSvg(
    proofOf(
      {
        ...designMeasures,
        name: title,
        views: [{ stitches, maps: maps.now, caption: [] }],
        threads,
        garment,
      },
      { units: look.units, detail: 'full' },
    ),
  );
  const lengths = threadByBlock(stitches, shop.figures.threadUse);
  return {
    worked: {
      chance,
      meets: report.meets,
      verdict: report.verdict,
      verdictReasons: report.verdictReasons,
      plan: report.recommended,
      failures: report.failures,
      warnings: report.warnings,
      changes: report.changes,
      capOrder: report.capOrder,
      accepted: report.accepted,
      cautionCodes: report.cautionCodes,
      fabricName: report.fabricName,
      garment: report.garment,
      hoop: report.hoop,
      cut: cutSize({ hoop: advice.hoop, design: designMeasures }),
      threads: lengths.map(({ threadMm }, k) => ({ color: threads[k]?.name ?? null, lengthMm: threadMm })),
      bobbinMm: lengths.reduce((sum, { bobbinMm }) => sum + bobbinMm, 0),
      objectsRelaid,
      stitches: designMeasures.stitches,
      widthMm: designMeasures.widthMm,
      heightMm: designMeasures.heightMm,
      design: opened.file.sha256,
      files: { ...names, relaid: bytes === null ? null : names.relaid },
    },
    files: [
      ...(bytes === null ? [] : [{ name: names.relaid, content: bytes }]),
      { name: names.card, content: card },
      { name: names.proof, content: proof },
    ],
  };
}

/** What the card says of the job: what the order leaves open is not on it. */
const jobOf = ({ order, customer, quantity, garmentColor, due, remarks }: OrderLine): CardJob => ({
  quantity,
  ...(order && { order }),
  ...(customer && { customer }),
  ...(garmentColor && { garmentColor }),
  ...(due && { due }),
  ...(remarks && { remarks }),
});

/** Relaid where the plan says that this pays. What could not be relaid as planned is worked out again as it is. */
async function asItIsSewn(
  shop: FullShop,
  { line, vetting, advice: open, file, hoop }: OpenLine,
  { stackText, speedSpm }: OrderSetup,
): Promise<Sewn> {
  const planned = open.on(stackText, speedSpm);
  const { kept, recommended } = planned.advice.search;
  const { underlay } = recommended;
  if (underlay.length === 0) return { vetting, ...planned, kept, bytes: null, objectsRelaid: 0 };
  const { budget } = vetting;
  const relaying = await shop.relay(file.design, settingsOf(line, factsOf(file), hoop, budget), {
    objects: underlay.map(({ object }) => object),
    to: underlay[0].to,
  });
  const objectsRelaid = relaying.report.objects.length;
  const [after, bytes] = objectsRelaid > 0 ? [relaying.after, relaying.bytes] : [vetting, null];
  if (objectsRelaid === underlay.length) return { vetting: after, ...planned, kept, bytes, objectsRelaid };
  const { design, stitches, objects, measures, designMeasures, findings } = after;
  const asItIs = shop.openAdvice(
    {
      ...{ design, stitches, objects, measures, designMeasures, budget },
      findings: findings.filter((finding) => !callsForUnderlay(finding)),
    },
    { fabric: line.garment, stack: stackText, ...(hoop && { hoop }) },
  );
  return { vetting: after, ...asItIs.on(stackText, speedSpm), kept, bytes, objectsRelaid };
}
