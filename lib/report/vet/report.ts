/** The vet report: what `--format json` prints, field for field. Lengths mm; fields named with their unit. */
import type { DesignMeasures, ObjectMeasures } from '../../measure/measures.js';
import type { NamedGarment } from '../../mechanics/conditions.js';
import type { Doubt, ObjectKind, Pattern, Purpose, UnderlayKind } from '../../segment/objects.js';
import type { Saying } from '../../segment/set-right/saying.js';
import type { Finding } from '../../vetting/finding.js';
import type { DesignAdviceReport, ObjectAdviceReport } from '../advise/plan-report.js';

export interface RiskReport {
  score: number;
  grade: number;
  pullInMm: number;
  wrinkleMm: number;
}

/** A risk with how sure it is and where it comes from. */
export interface ObjectRiskReport extends RiskReport {
  /** Tenth, half and nine tenths of the draws of all that is not known exactly lie below these, mm. */
  wrinkleBandMm: [p10: number, p50: number, p90: number];
  /** From the first to the last of them; ends in rising order. */
  range: { score: [number, number]; wrinkleMm: [number, number]; grade: [number, number] };
  /** Strongest first; shares add up to one, but for rounding. */
  drivers: { cause: string; share: number }[];
}

/** What the fabric is and what is done with it. */
export interface ConditionsReport {
  fabric: string;
  fabricName: string;
  /** The garment by whose everyday name the fabric was asked for, and what it is most likely made of; null where the fabric itself was. */
  garment: NamedGarment | null;
  /** From the garment outward; empty for no backing. */
  stack: { sheet: string; angleDeg: number }[];
  /** The same as it is written on the command line. */
  stackText: string;
  /** The same in words. */
  stackName: string;
  /** False where nobody said and the usual sheet was taken. */
  stackGiven: boolean;
  /** Direction of the grain, degrees counter-clockwise from +X. */
  grainDeg: number;
  hoopStretchPercent: number;
  washes: number;
  thread: string;
  threadName: string;
}

export interface DesignRiskReport extends ObjectRiskReport {
  conditions: ConditionsReport;
}

export interface ObjectReport extends Omit<ObjectMeasures, 'object' | 'lengthMm' | 'widestAt'> {
  id: number;
  block: number;
  group: number;
  kind: ObjectKind;
  stitchRange: [number, number];
  split: boolean;
  locks: { start: boolean; end: boolean };
  purpose: Purpose;
  /** How an area is sewn; null for satin and runs. */
  pattern: Pattern | null;
  passes: number;
  /** 0 to 1: how clear the decisions were that made it. */
  confidence: number;
  doubt: Doubt | null;
  underlay: {
    /** That in the list of underlays. */
    id: number | null;
    kinds: UnderlayKind[];
    stitchRange: [number, number] | null;
    stitches: number;
    spacingMm: number | null;
  };
  risk: ObjectRiskReport | null;
  /** What it needs, or null where that is nothing or no fabric was named. */
  advice: ObjectAdviceReport | null;
  /** A person of the shop has said what it is. */
  setByShop: boolean;
}

/** One piece of underlay, and the ids of all objects that lie over it. */
export interface UnderlayReport {
  id: number;
  kinds: UnderlayKind[];
  stitchRange: [number, number];
  serves: number[];
}

/** What the shop has said of an object of this design. */
export interface SetObjectReport {
  /** Its number, which an object that is underlay keeps; null where there is no object of those stitches. */
  object: number | null;
  stitchRange: [number, number];
  is: Saying[];
  /** Whether it is read so. */
  done: boolean;
  /** Why not. */
  why: string | null;
}

/** A finding with its sentence, English and metric: made where reports are, for programs that show it as it is. */
export type FindingReport = Finding & { readonly message: string };

export interface VetReport {
  schema: 'lieflat/vet@1';
  file: { path: string; format: 'dst' | 'csv'; bytes: number; sha256: string };
  design: Omit<DesignMeasures, 'acrossMm' | 'densest' | 'layers'> & {
    /** The speed that this holds for: the machine's own, or the setup's where there is advice. */
    sewSpeedSpm: number;
  };
  objects: ObjectReport[];
  underlays: UnderlayReport[];
  findings: FindingReport[];
  risk: DesignRiskReport | null;
  advice: DesignAdviceReport | null;
  /** In sewing order; empty where nothing was said. */
  setObjects: SetObjectReport[];
}
