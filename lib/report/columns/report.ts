/** The satin columns of a design, widest first. */

import type { KeptColumns } from '../../advice/underlay-kept.js';
import type { ObjectMeasures } from '../../measure/measures.js';
import type { UnderlayKind } from '../../segment/objects.js';
import type { LaidUnderlay } from '../../stitch/laid-underlay.js';
import { HEAVY_UNDERLAY, NO_UNDERLAY } from '../../vetting/columns-called.js';
import type { UnderlayKept } from '../../vetting/finding.js';
import { csvRecord } from '../csv.js';
import { round, roundAll } from '../round.js';
import type {
  ConditionsReport,
  FindingReport,
  RiskReport,
  SetObjectReport,
  VetReport,
} from '../vet/report.js';

/** The finding that calls for another underlay; `limitMm` is from which width. */
export type CalledFor = FindingReport & { limitMm: FindingReport['limit'] };

export interface ColumnReport {
  object: number;
  block: number;
  group: number;
  /** The widest place: stitch index and position. */
  stitch: number;
  at: { x: number; y: number };
  lengthMm: number;
  widthMm: { min: number; median: number; p95: number; max: number };
  spacingMm: { min: number; median: number; max: number } | null;
  split: boolean;
  /** The shop has said what it is. */
  setByShop: boolean;
  underlay: { kinds: UnderlayKind[]; spacingMm: number | null };
  /** Why a lighter underlay is called for, or null where it is not. */
  lighterUnderlay: CalledFor | null;
  /** Why a heavy underlay stays on the fabric asked for; null where it does not, and without a fabric. */
  keptUnderlay: UnderlayKept | null;
  /** Why an underlay is called for where there is none at all, or null. */
  missingUnderlay: CalledFor | null;
  /** On the fabric asked for: as it is, and with all columns relaid as is advised; null without a fabric. */
  foreseen: { now: RiskReport; onAdvised: RiskReport | null } | null;
}

export interface ColumnsReport {
  schema: 'lieflat/columns@1';
  file: VetReport['file'];
  /** Only columns wider than this are listed. */
  overMm: number | null;
  columns: ColumnReport[];
  /** What the shop has said of the design's objects. */
  setObjects: SetObjectReport[];
  /** The whole design likewise; `relaid` are the objects that the underlay `to` goes under, `kept` those that keep a heavy one and why. */
  foreseen: {
    conditions: ConditionsReport;
    relaid: number[];
    to: LaidUnderlay | null;
    kept: { objects: number[]; because: UnderlayKept } | null;
    now: RiskReport;
    onAdvised: RiskReport | null;
  } | null;
}

/** What the columns do on a fabric: of the design, and of each object by its id. */
export interface ColumnsForeseen {
  conditions: ConditionsReport;
  relaid: readonly number[];
  to: LaidUnderlay | null;
  kept: KeptColumns | null;
  /** Those of the design, as the fabric settles them. */
  findings: readonly FindingReport[];
  now: RiskByObject;
  onAdvised: RiskByObject | null;
}

export interface RiskByObject {
  design: RiskReport;
  objects: ReadonlyMap<number, RiskReport>;
}

/**
 * Lists satin columns by width, widest first: by the width that 95 of 100 swings stay within, which a single
 * stray swing does not move.
 *
 * @param overMm leave out columns not wider than this; null for all
 * @param foreseen what the fabric does, if it was asked for
 */
export function columnsReport(
  { report, measures }: { report: VetReport; measures: readonly ObjectMeasures[] },
  overMm: number | null = null,
  foreseen: ColumnsForeseen | null = null,
): ColumnsReport {
  const found = new Map(
    (foreseen?.findings ?? report.findings).map((finding) => [`${finding.code} ${finding.object}`, finding]),
  );
  const calledFor = (code: string, object: number): CalledFor | null => {
    const finding = found.get(`${code} ${object}`);
    return finding ? { ...finding, limitMm: finding.limit } : null;
  };
  const kept = new Set(foreseen?.kept?.objects);
  const columns: ColumnReport[] = [];
  for (const { object, widthMm, widestAt, spacingMm, lengthMm } of measures) {
    if (widthMm === null || widestAt === null || (overMm !== null && !(widthMm.p95 > overMm))) continue;
    columns.push({
      object: object.id,
      block: object.block,
      group: object.group,
      stitch: widestAt.stitch,
      at: { x: round(widestAt.x), y: round(widestAt.y) },
      lengthMm: round(lengthMm),
      widthMm: roundAll(widthMm),
      spacingMm: spacingMm && roundAll(spacingMm),
      split: object.split,
      setByShop: object.setByShop,
      underlay: {
        kinds: [...object.underlay.kinds],
        spacingMm: object.underlay.spacingMm === null ? null : round(object.underlay.spacingMm),
      },
      lighterUnderlay: kept.has(object.id) ? null : calledFor(HEAVY_UNDERLAY, object.id),
      keptUnderlay: kept.has(object.id) ? foreseen!.kept!.because : null,
      missingUnderlay: calledFor(NO_UNDERLAY, object.id),
      foreseen: foreseen && {
        now: foreseen.now.objects.get(object.id)!,
        onAdvised: foreseen.onAdvised?.objects.get(object.id) ?? null,
      },
    });
  }
  columns.sort((a, b) => b.widthMm.p95 - a.widthMm.p95 || a.object - b.object);
  return {
    schema: 'lieflat/columns@1',
    file: report.file,
    overMm,
    columns,
    setObjects: report.setObjects,
    foreseen: foreseen && {
      conditions: foreseen.conditions,
      relaid: [...foreseen.relaid],
      to: foreseen.to,
      kept: foreseen.kept && { ...foreseen.kept, objects: [...foreseen.kept.objects] },
      now: foreseen.now.design,
      onAdvised: foreseen.onAdvised?.design ?? null,
    },
  };
}

/** The heading record of the table, once however many files. */
export const columnsCsvHeader = (): string =>
  csvRecord([
    'file',
    'object',
    'block',
    'group',
    'x_mm',
    'y_mm',
    'length_mm',
    'width_median_mm',
    'width_p95_mm',
    'width_max_mm',
    'spacing_median_mm',
    'split',
    'underlay',
    'underlay_spacing_mm',
    'lighter_underlay',
    'fabric',
    'backing',
    'grade',
    'wrinkle_mm',
    'advised_underlay',
    'advised_underlay_grade',
    'advised_underlay_wrinkle_mm',
    'set_by_shop',
  ]);

/** One record a column. */
export function columnsToCsvRecords(report: ColumnsReport): string {
  return report.columns
    .map((c) =>
      csvRecord([
        report.file.path,
        c.object,
        c.block,
        c.group,
        c.at.x,
        c.at.y,
        c.lengthMm,
        c.widthMm.median,
        c.widthMm.p95,
        c.widthMm.max,
        c.spacingMm?.median,
        c.split,
        c.underlay.kinds.join(' '),
        c.underlay.spacingMm,
        c.lighterUnderlay !== null,
        report.foreseen?.conditions.fabric,
        report.foreseen?.conditions.stackText,
        c.foreseen?.now.grade,
        c.foreseen?.now.wrinkleMm,
        report.foreseen?.relaid.includes(c.object) ? report.foreseen.to : null,
        c.foreseen?.onAdvised?.grade,
        c.foreseen?.onAdvised?.wrinkleMm,
        c.setByShop,
      ]),
    )
    .join('');
}
