/** What changed between two versions of a design. */

import { axisDifferenceDeg } from '../../core/axis.js';
import type { PairedDraws } from '../../mechanics/paired-draws.js';
import type { Severity } from '../../vetting/finding.js';
import { round } from '../round.js';
import type {
  ConditionsReport,
  FindingReport,
  ObjectReport,
  ObjectRiskReport,
  VetReport,
} from '../vet/report.js';
import { pairObjects } from './pair-objects.js';

/** A smaller difference is the grid of the file, not a change: mm, and degrees for angles. */
const LENGTH_TOLERANCE_MM = 0.05;
const SPACING_TOLERANCE_MM = 0.02;
const ANGLE_TOLERANCE_DEG = 1;
/** Two designs of which a smaller part is found again than this are two designs, not two versions of one. */
const LEAST_IN_COMMON = 1 / 4;

export type Value = number | string | boolean | null;

export interface Change {
  /** Which field changed, by its name in the vet report. */
  what: string;
  before: Value;
  after: Value;
}

export interface ObjectChange {
  before: number;
  after: number;
  changes: Change[];
  /** On the fabric asked for; null without a fabric. */
  risk: RiskChange | null;
}

/** A risk before and after, on the same fabric. */
export interface RiskChange {
  before: ObjectRiskReport;
  after: ObjectRiskReport;
  /** Which has the lower wrinkles; null where they are alike. */
  flatter: 'before' | 'after' | null;
  /** After beside before, over the same draws. */
  paired: PairedDraws;
  /** True where which of the two lies flatter is within the uncertainty. */
  tooCloseToCall: boolean;
}

/** What the fabric does to both versions: to the whole, and to any pair of objects by their ids. */
export interface ChangeForeseen {
  conditions: ConditionsReport;
  design: RiskChange;
  ofObject(before: number, after: number): RiskChange;
}

export interface CompareReport {
  schema: 'lieflat/compare@1';
  before: VetReport['file'];
  after: VetReport['file'];
  /** False where so few objects are found again that these are two designs, not two versions of one. */
  related: boolean;
  /** On the fabric asked for, `objects` being all that are in both; null without a fabric. */
  risk:
    | (RiskChange & {
        conditions: ConditionsReport;
        objects: { before: number; after: number; risk: RiskChange }[];
      })
    | null;
  /** Totals that differ. */
  design: Change[];
  objects: {
    before: number;
    after: number;
    unchanged: number;
    /** How many are plainly found again; the other pairs are only the nearest there is. */
    alike: number;
    /** Ids in either design. */
    changed: ObjectChange[];
    removed: number[];
    added: number[];
  };
  findings: {
    before: Record<Severity, number>;
    after: Record<Severity, number>;
    /** As they stood in the design before, and as they stand in the one after. */
    lost: FindingReport[];
    gained: FindingReport[];
  };
}

/**
 * Compares two vet reports. Objects are paired by place and shape, so a mere change of sewing order is no
 * difference; a finding is the same where it says the same of the same object.
 *
 * @param foreseen what the fabric does to the two, if one was asked for
 */
export function compareReports(
  before: VetReport,
  after: VetReport,
  foreseen: ChangeForeseen | null = null,
): CompareReport {
  const pairing = pairObjects(before.objects, after.objects, before.design.bounds, after.design.bounds);
  const changed: ObjectChange[] = [];
  const afterIdOf = new Map<number, number>();
  const risks: { before: number; after: number; risk: RiskChange }[] = [];
  for (const pair of pairing.pairs) {
    const a = before.objects[pair.before];
    const b = after.objects[pair.after];
    afterIdOf.set(a.id, b.id);
    const ids = { before: a.id, after: b.id };
    const risk = foreseen ? foreseen.ofObject(a.id, b.id) : null;
    if (risk) risks.push({ ...ids, risk });
    const changes = differences(a, b);
    if (changes.length > 0) changed.push({ ...ids, changes, risk });
  }
  const fewer = Math.min(before.objects.length, after.objects.length);
  return {
    schema: 'lieflat/compare@1',
    before: before.file,
    after: after.file,
    related: pairing.alike >= LEAST_IN_COMMON * fewer,
    risk: foreseen && { ...foreseen.design, conditions: foreseen.conditions, objects: risks },
    design: totals(before, after),
    objects: {
      before: before.objects.length,
      after: after.objects.length,
      unchanged: pairing.pairs.length - changed.length,
      alike: pairing.alike,
      changed,
      removed: pairing.removed.map((i) => before.objects[i].id),
      added: pairing.added.map((i) => after.objects[i].id),
    },
    findings: {
      before: severities(before),
      after: severities(after),
      ...exchanged(before.findings, after.findings, afterIdOf),
    },
  };
}

function totals(before: VetReport, after: VetReport): Change[] {
  // The speed is the machine's, not the design's.
  const { bounds: beforeBounds, sewSpeedSpm: _, ...a } = before.design;
  const { bounds: afterBounds, sewSpeedSpm: __, ...b } = after.design;
  const changes: Change[] = [];
  for (const what of Object.keys(a) as (keyof typeof a)[]) {
    if (a[what] !== b[what]) changes.push({ what, before: a[what], after: b[what] });
  }
  for (const what of Object.keys(beforeBounds) as (keyof typeof beforeBounds)[]) {
    if (beforeBounds[what] !== afterBounds[what]) {
      changes.push({ what: `bounds.${what}`, before: beforeBounds[what], after: afterBounds[what] });
    }
  }
  return changes;
}

function differences(a: ObjectReport, b: ObjectReport): Change[] {
  const changes: Change[] = [];
  const exact = (what: string, before: Value, after: Value): void => {
    if (before !== after) changes.push({ what, before, after });
  };
  const near = (what: string, before: number | null, after: number | null, tolerance: number): void => {
    const same =
      before === null || after === null ? before === after : Math.abs(after - before) <= tolerance + 1e-9;
    if (!same) changes.push({ what, before, after });
  };
  const centreX = (o: ObjectReport): number => round((o.bounds.minX + o.bounds.maxX) / 2);
  const centreY = (o: ObjectReport): number => round((o.bounds.minY + o.bounds.maxY) / 2);
  exact('kind', a.kind, b.kind);
  near('centreX', centreX(a), centreX(b), LENGTH_TOLERANCE_MM);
  near('centreY', centreY(a), centreY(b), LENGTH_TOLERANCE_MM);
  near(
    'sizeX',
    round(a.bounds.maxX - a.bounds.minX),
    round(b.bounds.maxX - b.bounds.minX),
    LENGTH_TOLERANCE_MM,
  );
  near(
    'sizeY',
    round(a.bounds.maxY - a.bounds.minY),
    round(b.bounds.maxY - b.bounds.minY),
    LENGTH_TOLERANCE_MM,
  );
  near('widthMm.median', a.widthMm?.median ?? null, b.widthMm?.median ?? null, LENGTH_TOLERANCE_MM);
  near('widthMm.max', a.widthMm?.max ?? null, b.widthMm?.max ?? null, LENGTH_TOLERANCE_MM);
  near('spacingMm.median', a.spacingMm?.median ?? null, b.spacingMm?.median ?? null, SPACING_TOLERANCE_MM);
  if (a.angleDeg === null || b.angleDeg === null) exact('angleDeg', a.angleDeg, b.angleDeg);
  else if (axisDifferenceDeg(a.angleDeg, b.angleDeg) > ANGLE_TOLERANCE_DEG) {
    changes.push({ what: 'angleDeg', before: a.angleDeg, after: b.angleDeg });
  }
  exact('stitches', a.stitches, b.stitches);
  exact('split', a.split, b.split);
  exact('underlay.kinds', a.underlay.kinds.join(' '), b.underlay.kinds.join(' '));
  near('underlay.spacingMm', a.underlay.spacingMm, b.underlay.spacingMm, LENGTH_TOLERANCE_MM);
  exact('underlay.stitches', a.underlay.stitches, b.underlay.stitches);
  exact('locks.start', a.locks.start, b.locks.start);
  exact('locks.end', a.locks.end, b.locks.end);
  return changes;
}

function severities(report: VetReport): Record<Severity, number> {
  const counts = { fail: 0, warn: 0, note: 0 };
  for (const finding of report.findings) counts[finding.severity]++;
  return counts;
}

/** Findings of one side only. Same code and severity on the paired object (or on the design) is the same finding. */
function exchanged(
  before: readonly FindingReport[],
  after: readonly FindingReport[],
  afterIdOf: ReadonlyMap<number, number>,
): { lost: FindingReport[]; gained: FindingReport[] } {
  const open = new Map<string, FindingReport[]>();
  for (const finding of after) {
    const key = findingKey(finding, finding.object);
    const same = open.get(key);
    if (same) same.push(finding);
    else open.set(key, [finding]);
  }
  const lost = before.filter((finding) => {
    const object = finding.object === null ? null : afterIdOf.get(finding.object);
    return object === undefined || open.get(findingKey(finding, object))?.shift() === undefined;
  });
  const left = new Set([...open.values()].flat());
  return { lost, gained: after.filter((finding) => left.has(finding)) };
}

function findingKey(finding: FindingReport, object: number | null): string {
  return `${finding.code} ${finding.severity} ${object ?? 'design'}`;
}
