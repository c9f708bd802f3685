/** What relaying did: the design and each column before and after, what was left and why, what is newly found. */

import type { KeptColumns } from '../../advice/underlay-kept.js';
import { middleOf } from '../../core/bounds.js';
import { distance } from '../../core/distance.js';
import { Break, type Stitches } from '../../format/stitches.js';
import type { DesignMeasures, ObjectMeasures } from '../../measure/measures.js';
import { type ThreadUse, threadOfStitches } from '../../measure/thread-length.js';
import type { ObjectProof } from '../../rework/proof.js';
import type { ProvenCompensation } from '../../rework/proven-compensation.js';
import type { LeftBecause } from '../../rework/relay.js';
import type { StitchObject, UnderlayKind } from '../../segment/objects.js';
import type { LaidUnderlay } from '../../stitch/laid-underlay.js';
import { underlayTakenOut } from '../../stitch/underlay-taken-out.js';
import { NO_UNDERLAY } from '../../vetting/columns-called.js';
import type { UnderlayKept } from '../../vetting/finding.js';
import { type ChangeForeseen, compareReports, type RiskChange } from '../compare/report.js';
import { wordsFor } from '../phrases/words.js';
import { type FailedProof, type ProofReport, proofReport } from '../rewrite-proof.js';
import { round, roundAll } from '../round.js';
import type { ConditionsReport, FindingReport, ObjectRiskReport, VetReport } from '../vet/report.js';
import { type CompensationReport, compensationReport } from './compensation.js';

/** One column with its underlay; `stitches` and what follows are of both together. */
export interface RelayedColumn {
  underlay: { kinds: UnderlayKind[]; stitches: number; spacingMm: number | null };
  stitches: number;
  /** Top thread. */
  threadMm: number;
  /** Needle points. */
  densityPerMm2: number;
  /** On the fabric asked for; null without one. */
  risk: ObjectRiskReport | null;
}

export interface RelayedDesign {
  stitches: number;
  jumps: number;
  trims: number;
  threadMm: number;
  risk: ObjectRiskReport | null;
}

export interface RelayReport {
  schema: 'lieflat/relay@1';
  file: VetReport['file'];
  to: LaidUnderlay | 'keep';
  conditions: ConditionsReport | null;
  design: { before: RelayedDesign; after: RelayedDesign };
  /** Columns relaid, in sewing order. */
  objects: {
    object: number;
    at: { x: number; y: number };
    widthMm: number;
    before: RelayedColumn;
    after: RelayedColumn;
  }[];
  /** Columns asked for, or heavy by the rule of the trade, that are as they were. */
  left: { object: number; because: LeftBecause | 'failed-proof' | UnderlayKept; reason: string }[];
  /** Of each column relaid, and of each that was left because it failed. */
  proof: (ProofReport | FailedProof)[];
  /** Columns and areas drawn out by as much as they draw in; null where that was not asked for. */
  compensation: CompensationReport | null;
  /** Wide columns that have no underlay at all and were not relaid, in sewing order: a light fill would serve them as well. */
  bare: number[];
  /** Which of the two lies flatter on the fabric, and whether that is sure; null without one. */
  flatter: Pick<RiskChange, 'flatter' | 'tooCloseToCall'> | null;
  /** The same over the backing that is advised for the design before; null without a fabric, or where that is the one looked at already. */
  advised: (RiskChange & { conditions: ConditionsReport }) | null;
  /** Found in the design as it is now and not in the one before; stitches and places are those of the new one. */
  findings: FindingReport[];
  /** How many findings of the design before are gone. */
  findingsGone: number;
}

/** A vetted design, as far as this report needs it. */
export interface RelayVetting {
  stitches: Stitches;
  objects: readonly StitchObject[];
  measures: readonly ObjectMeasures[];
  designMeasures: DesignMeasures;
  report: VetReport;
}

/**
 * @param foreseen what the fabric does to the two, if one was asked for
 * @param advised the same over the backing that is advised, where it is another
 */
export function relayReport(
  before: RelayVetting,
  after: RelayVetting,
  outcome: {
    to: LaidUnderlay | 'keep';
    kept: KeptColumns | null;
    relaid: Iterable<number>;
    left: ReadonlyMap<number, LeftBecause>;
    proofs: readonly ObjectProof[];
    failed: ReadonlyMap<number, ObjectProof>;
    threadUse: ThreadUse;
    compensation: ProvenCompensation | null;
  },
  foreseen: ChangeForeseen | null = null,
  advised: ChangeForeseen | null = null,
): RelayReport {
  const { to, kept, left, proofs, failed, threadUse } = outcome;
  const { rework } = wordsFor({ units: 'mm', detail: 'full' });
  const ids = [...outcome.relaid].toSorted((a, b) => a - b);
  const measuresOf = new Map(before.measures.map((measures) => [measures.object.id, measures]));
  const columnsBefore = columns(before, ids, threadUse);
  const columnsAfter = columns(after, ids, threadUse);
  const { gained, lost } = compareReports(before.report, after.report).findings;
  const whole = ({ report: { design } }: RelayVetting, risk: ObjectRiskReport | null): RelayedDesign => {
    const { stitches, jumps, trims, threadMm } = design;
    return { stitches, jumps, trims, threadMm, risk };
  };
  return {
    schema: 'lieflat/relay@1',
    file: before.report.file,
    to,
    conditions: foreseen?.conditions ?? null,
    design: {
      before: whole(before, foreseen?.design.before ?? null),
      after: whole(after, foreseen?.design.after ?? null),
    },
    objects: ids.map((object, k) => {
      const { bounds, widthMm } = measuresOf.get(object)!;
      const risk = foreseen?.ofObject(object, object);
      return {
        object,
        at: roundAll(middleOf(bounds)),
        widthMm: round(widthMm!.median),
        before: { ...columnsBefore[k], risk: risk?.before ?? null },
        after: { ...columnsAfter[k], risk: risk?.after ?? null },
      };
    }),
    left: [
      ...(kept?.objects ?? []).map((object) => ({
        object,
        because: kept!.because,
        reason: rework.kept[kept!.because],
      })),
      ...[...left].map(([object, because]) => ({
        object,
        because,
        reason: rework.notRelaid({ because, to }),
      })),
      ...[...failed.values()].map(({ object, because }) => ({
        object,
        because: 'failed-proof' as const,
        reason: rework.fault[because!],
      })),
    ].toSorted((a, b) => a.object - b.object),
    proof: proofReport(proofs, failed.values()),
    compensation: outcome.compensation && compensationReport(outcome.compensation),
    bare: bareColumns(after.report),
    flatter: foreseen && {
      flatter: foreseen.design.flatter,
      tooCloseToCall: foreseen.design.tooCloseToCall,
    },
    advised: advised && { ...advised.design, conditions: advised.conditions },
    findings: gained,
    findingsGone: lost.length,
  };
}

function bareColumns({ findings }: VetReport): number[] {
  const ids = findings.flatMap(({ code, object }) =>
    code === NO_UNDERLAY && object !== null ? [object] : [],
  );
  return [...new Set(ids)].sort((a, b) => a - b);
}

function columns(
  { stitches, objects, measures }: RelayVetting,
  ids: readonly number[],
  threadUse: ThreadUse,
): Omit<RelayedColumn, 'risk'>[] {
  const asked = new Set(ids);
  const owner = underlayTakenOut(stitches, objects, ({ id }) => asked.has(id));
  const { x, y, breakBefore } = stitches;
  const places = new Map(objects.map(({ id }, at) => [id, at]));
  return ids.map((id) => {
    const at = places.get(id)!;
    const { range, underlay } = objects[at];
    let laid = 0;
    let sewn = 0;
    const add = (i: number) => {
      if (i === 0 || breakBefore[i] >= Break.trim) return;
      laid += distance(x[i - 1], y[i - 1], x[i], y[i]);
      sewn++;
    };
    if (underlay.range)
      for (let i = underlay.range[0]; i <= underlay.range[1]; i++) if (owner[i] === id) add(i);
    for (let i = range[0]; i <= range[1]; i++) add(i);
    const points = range[1] - range[0] + 1 + underlay.stitches;
    const { areaMm2 } = measures[at];
    return {
      underlay: {
        kinds: [...underlay.kinds],
        stitches: underlay.stitches,
        spacingMm: underlay.spacingMm === null ? null : round(underlay.spacingMm),
      },
      stitches: points,
      threadMm: round(threadOfStitches(laid, sewn, threadUse).threadMm, 1),
      densityPerMm2: areaMm2 > 0 ? round(points / areaMm2) : 0,
    };
  });
}
