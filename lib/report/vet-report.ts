/** The vet report: what `--format json` prints, field for field. Lengths mm; fields named with their unit. */
import type { Bounds } from '../measure/measures.js';
import type { ObjectKind, UnderlayKind } from '../segment/objects.js';
import type { Finding } from '../vetting/finding.js';

export interface RiskReport {
  score: number;
  grade: number;
  pullInMm: number;
  wrinkleMm: number;
}

export interface ObjectRiskReport extends RiskReport {
  drivers: { cause: string; share: number }[];
}

export interface ObjectReport {
  id: number;
  block: number;
  group: number;
  kind: ObjectKind;
  stitchRange: [number, number];
  stitches: number;
  bounds: Bounds;
  areaMm2: number;
  angleDeg: number | null;
  widthMm: { min: number; median: number; p95: number; max: number } | null;
  spacingMm: { min: number; median: number; max: number } | null;
  stitchLengthMm: { min: number; median: number; max: number };
  densityPerMm2: number;
  split: boolean;
  locks: { start: boolean; end: boolean };
  underlay: {
    kinds: UnderlayKind[];
    stitchRange: [number, number] | null;
    stitches: number;
    spacingMm: number | null;
  };
  risk: ObjectRiskReport | null;
  advice: object | null;
}

export interface VetReport {
  schema: 'lieflat/vet@1';
  file: { path: string; format: 'dst' | 'csv'; bytes: number; sha256: string };
  design: {
    stitches: number;
    jumps: number;
    trims: number;
    colourChanges: number;
    stops: number;
    bounds: Bounds;
    widthMm: number;
    heightMm: number;
    threadMm: number;
    bobbinMm: number;
    sewSeconds: number;
  };
  objects: ObjectReport[];
  findings: Finding[];
  risk: RiskReport | null;
  advice: object | null;
}
