/** The cover report: what `lieflat resew --format json` prints. Lengths mm; growth as a factor: 1.05 is 5 % larger. */
import { middleOf } from '../../core/bounds.js';
import { UNITS_PER_MM } from '../../format/dst-record.js';
import { measureObjects } from '../../measure/measure-object.js';
import type { DesignMeasures, ObjectMeasures } from '../../measure/measures.js';
import type { LeftPart } from '../../rework/enlargement.js';
import type { ObjectProof } from '../../rework/proof.js';
import type { ModeOutcome, Resewing } from '../../rework/resew.js';
import type { ResewMode } from '../../rework/resew-mode.js';
import type { ObjectKind } from '../../segment/objects.js';
import { type ChangeForeseen, compareReports, type RiskChange } from '../compare/report.js';
import { wordsFor } from '../phrases/words.js';
import { type FailedProof, type ProofReport, proofReport } from '../rewrite-proof.js';
import { round, roundAll } from '../round.js';
import type { ConditionsReport, FindingReport, VetReport } from '../vet/report.js';
import { hideAllWords } from './recommendation.js';

export interface ExposedReport {
  x: number;
  y: number;
  /** To the nearest edge of a thread of top stitching; null where the new design lays none. */
  gapMm: number | null;
  /** Whose hole it is, by its id in the design that was picked out; null for ties and travel between objects. */
  object: number | null;
  /** Its stitch index in that design. */
  stitch: number;
}

export interface ResewObject {
  /** In the design that was picked out; null for ties and travel between objects. */
  id: number | null;
  kind: ObjectKind | null;
  /** Middle of its top stitching before. */
  at: { x: number; y: number } | null;
  holes: number;
  exposed: number;
  /** Of its exposed holes; null where there is none. */
  widestGapMm: number | null;
  /** At which its own holes are all hidden, by growth along x and y alike; null where none up to 1.12 is, or the search ended first. */
  smallestScaleThatHides: number | null;
  /** Medians; null where there is none. */
  widthBeforeMm: number | null;
  widthAfterMm: number | null;
  spacingBeforeMm: number | null;
  spacingAfterMm: number | null;
}

export interface ResewModeReport {
  mode: ResewMode;
  scale: number;
  offset: { dx: number; dy: number };
  hidden: number;
  exposed: number;
  /** How far off it may be hooped, in any direction, with all holes still hidden; null where not all are. At most 1 mm is looked at. */
  roomMm: number | null;
  smallestScaleThatHides: number | null;
  /** False where the search for the smallest scale ended before it was through. */
  searchComplete: boolean;
  /** A further move that hides more, what is exposed with it, and, where no scale hides all without it, the smallest that does with it (of the way asked for). */
  betterOffset: { dx: number; dy: number; exposed: number; smallestScaleThatHides: number | null } | null;
  stitchesAfter: number;
  spacingAfterMm: number | null;
  /** Work of the searches, in tests of all holes. */
  tests: number;
}

export interface ResewReport {
  schema: 'lieflat/resew@1';
  file: VetReport['file'];
  mode: ResewMode;
  /** False where nobody asked for the mode and the best was taken. */
  modeGiven: boolean;
  /** The smallest growth was looked for, and none asked for. */
  find: boolean;
  /** Growth; of growth along x and y that differ the geometric mean. */
  scale: number;
  scaleX: number;
  scaleY: number;
  offset: { dx: number; dy: number };
  /** The offset was not asked for: the search found that it hides more. */
  movedToHide: boolean;
  holes: { total: number; hidden: number; exposed: number };
  exposed: ExposedReport[];
  smallestScaleThatHides: number | null;
  searchComplete: boolean;
  /** How far off the second hooping may be in the search for the smallest scale. */
  slackMm: number;
  roomMm: number | null;
  stitchesBefore: number;
  stitchesAfter: number;
  /** The new design sews the very needle points of the old one: there is nothing to write. */
  unchanged: boolean;
  /** Medians over columns and fills, each counting once with its own median; null where there is neither. */
  spacingBeforeMm: number | null;
  spacingAfterMm: number | null;
  threadWidthMm: number;
  widthBeforeMm: number;
  heightBeforeMm: number;
  widthAfterMm: number;
  heightAfterMm: number;
  /** What could not be laid anew and was grown as it stood, its spacing opened; by ids in the design that was picked out. */
  leftAsItWas: (LeftPart & { why: string })[];
  /** Ids of objects that were grown as they stood, as it is not sure what they are; none where all is grown. */
  unsure: number[];
  /** Of each object of the design that was picked out, in the way asked for; one that failed was not laid anew. */
  proof: (ProofReport | FailedProof)[];
  /** Moves that had become too long to be made without a trim. */
  trimsAdded: number;
  /** Of the design that was picked out, in sewing order; what belongs to no object last. */
  objects: ResewObject[];
  /** Every way of making it larger. */
  perMode: ResewModeReport[];
  recommendation: { mode: ResewMode; text: string };
  /** Of the new design, those that the old one did not have. */
  findings: FindingReport[];
  /** On the fabric asked for; null without one. */
  risk: (RiskChange & { conditions: ConditionsReport }) | null;
  steps: string[];
  cautions: string[];
  /** What the proof does not say. */
  limit: string;
}

export interface ResewReportInput {
  file: VetReport['file'];
  resewing: Resewing;
  proofs: readonly ObjectProof[];
  failed: ReadonlyMap<number, ObjectProof>;
  /** Ids of objects that were not laid anew as it is not sure what they are. */
  unsure: ReadonlySet<number>;
  before: { measures: readonly ObjectMeasures[]; designMeasures: DesignMeasures; report: VetReport };
  after: { designMeasures: DesignMeasures; report: VetReport };
  foreseen: ChangeForeseen | null;
}

export function resewReport(input: ResewReportInput): ResewReport {
  const { file, resewing, proofs, failed, unsure, before, after, foreseen } = input;
  const { holes, chosen, threadMm, slackMm } = resewing;
  const { by } = chosen;
  // Of the new design's own objects, in the order of those before, for every way.
  const measuresAfter = new Map(
    resewing.modes.map(({ mode, written: { stitches, objects } }) => [
      mode,
      measureObjects(stitches, objects),
    ]),
  );
  const measuresOf = (mode: ResewMode) => measuresAfter.get(mode)!;
  const perMode = resewing.modes.map((outcome) => modeReport(outcome, holes.count, measuresOf(outcome.mode)));
  const idOf = (hole: number) => before.measures[holes.owner[hole] - 1]?.object.id ?? null;
  const words = wordsFor({ units: 'mm', detail: 'full' });
  const best = perMode.find(({ mode }) => mode === resewing.best)!;
  const take = [words.resew.take({ ...best, holes: holes.count }), hideAllWords(best, perMode, words)];
  return {
    schema: 'lieflat/resew@1',
    file,
    mode: chosen.mode,
    modeGiven: resewing.modeGiven,
    find: resewing.find,
    scale: scaleOf(chosen),
    scaleX: factor(by.x),
    scaleY: factor(by.y),
    offset: { dx: round(by.dx), dy: round(by.dy) },
    movedToHide: chosen.movedToHide,
    holes: {
      total: holes.count,
      hidden: holes.count - chosen.exposed.length,
      exposed: chosen.exposed.length,
    },
    exposed: chosen.exposed.map(({ hole, gapMm }) => ({
      x: round(holes.x[hole]),
      y: round(holes.y[hole]),
      gapMm: gapMm === null ? null : round(gapMm, 4),
      object: idOf(hole),
      stitch: hole,
    })),
    smallestScaleThatHides: factorOrNull(chosen.smallest),
    searchComplete: chosen.complete,
    slackMm,
    roomMm: chosen.roomMm === null ? null : round(chosen.roomMm),
    stitchesBefore: holes.count,
    stitchesAfter: chosen.written.stitches.count,
    unchanged: isUnchanged(resewing),
    spacingBeforeMm: middleSpacing(before.measures),
    spacingAfterMm: middleSpacing(measuresOf(chosen.mode)),
    threadWidthMm: threadMm,
    widthBeforeMm: round(before.designMeasures.widthMm),
    heightBeforeMm: round(before.designMeasures.heightMm),
    widthAfterMm: round(after.designMeasures.widthMm),
    heightAfterMm: round(after.designMeasures.heightMm),
    leftAsItWas: leftParts(chosen, failed, unsure),
    unsure:
      chosen.mode === 'machine' ? [] : [...unsure].filter((id) => !failed.has(id)).sort((a, b) => a - b),
    proof: proofReport(proofs, failed.values()),
    trimsAdded: chosen.written.trimsAdded,
    objects: objectReports(resewing, before.measures, measuresOf(chosen.mode)),
    perMode,
    recommendation: { mode: best.mode, text: take.filter((text) => text !== '').join(' ') },
    findings: compareReports(before.report, after.report).findings.gained,
    risk: foreseen && { ...foreseen.design, conditions: foreseen.conditions },
    steps: [...words.resew.steps],
    cautions: [...words.resew.cautions],
    limit: words.resew.limit,
  };
}

/** What a stitch file rounds off, mm. */
const ROUNDED_MM = 0.5 / UNITS_PER_MM + 1e-9;

function isUnchanged({ holes, chosen: { written } }: Resewing): boolean {
  const { count, x, y } = written.stitches;
  const isSame = (before: Float64Array, after: Float64Array): boolean =>
    before.every((mm, k) => Math.abs(mm - after[k]) <= ROUNDED_MM);
  return count === holes.count && written.trimsAdded === 0 && isSame(holes.x, x) && isSame(holes.y, y);
}

/** Parts that the way could not lay anew, and objects that failed the proof when it did; not those that were left unasked. */
function leftParts(
  { written }: ModeOutcome,
  failed: ReadonlyMap<number, ObjectProof>,
  unsure: ReadonlySet<number>,
): ResewReport['leftAsItWas'] {
  const { notGrown } = wordsFor({ units: 'mm', detail: 'full' }).rework;
  const parts = (written.left ?? []).filter(({ object }) => !failed.has(object) && !unsure.has(object));
  const gaveUp = [...failed.values()].map(({ object, because }): LeftPart => {
    return { object, part: 'top', because: because! };
  });
  return [...parts, ...gaveUp]
    .map((part) => ({ ...part, why: notGrown[part.because] }))
    .sort((a, b) => a.object - b.object);
}

/** Digits of a factor: a tenth of the 0.1 % that the search goes by. */
const factor = (growth: number): number => round(1 + growth, 4);
const factorOrNull = (growth: number | null): number | null => (growth === null ? null : factor(growth));
const scaleOf = ({ by }: ModeOutcome): number => round(Math.sqrt((1 + by.x) * (1 + by.y)), 4);

function modeReport(
  outcome: ModeOutcome,
  holes: number,
  measures: readonly ObjectMeasures[],
): ResewModeReport {
  const { mode, by, exposed, roomMm, smallest, complete, better, tests, written } = outcome;
  return {
    mode,
    scale: scaleOf(outcome),
    offset: { dx: round(by.dx), dy: round(by.dy) },
    hidden: holes - exposed.length,
    exposed: exposed.length,
    roomMm: roomMm === null ? null : round(roomMm),
    smallestScaleThatHides: factorOrNull(smallest),
    searchComplete: complete,
    betterOffset: better && {
      dx: better.dx,
      dy: better.dy,
      exposed: better.exposed,
      smallestScaleThatHides: factorOrNull(better.smallest),
    },
    stitchesAfter: written.stitches.count,
    spacingAfterMm: middleSpacing(measures),
    tests: round(tests, 2),
  };
}

function objectReports(
  { holes, chosen }: Resewing,
  before: readonly ObjectMeasures[],
  after: readonly ObjectMeasures[],
): ResewObject[] {
  const total = new Int32Array(holes.owners);
  for (let h = 0; h < holes.count; h++) total[holes.owner[h]]++;
  const exposed = new Int32Array(holes.owners);
  const widest = new Float64Array(holes.owners).fill(-1);
  for (const { hole, gapMm } of chosen.exposed) {
    const owner = holes.owner[hole];
    exposed[owner]++;
    if (gapMm !== null && gapMm > widest[owner]) widest[owner] = gapMm;
  }
  const common = (owner: number) => ({
    holes: total[owner],
    exposed: exposed[owner],
    widestGapMm: widest[owner] < 0 ? null : round(widest[owner], 4),
    smallestScaleThatHides: factorOrNull(chosen.smallestByOwner[owner]),
  });
  const median = (of: { median: number } | null | undefined): number | null => (of ? round(of.median) : null);
  const rows = before.map(
    ({ object, bounds, widthMm, spacingMm }, i): ResewObject => ({
      id: object.id,
      kind: object.kind,
      at: roundAll(middleOf(bounds)),
      ...common(i + 1),
      widthBeforeMm: median(widthMm),
      widthAfterMm: median(after[i]?.widthMm),
      spacingBeforeMm: median(spacingMm),
      spacingAfterMm: median(after[i]?.spacingMm),
    }),
  );
  if (total[0] === 0) return rows;
  const nothing = { widthBeforeMm: null, widthAfterMm: null, spacingBeforeMm: null, spacingAfterMm: null };
  return [...rows, { id: null, kind: null, at: null, ...common(0), ...nothing }];
}

function middleSpacing(measures: readonly ObjectMeasures[]): number | null {
  const medians = measures
    .flatMap(({ spacingMm }) => (spacingMm ? [spacingMm.median] : []))
    .sort((a, b) => a - b);
  if (medians.length === 0) return null;
  const middle = (medians.length - 1) / 2;
  return round((medians[Math.floor(middle)] + medians[Math.ceil(middle)]) / 2);
}
