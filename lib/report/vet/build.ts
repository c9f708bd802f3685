import type { DesignMeasures, ObjectMeasures } from '../../measure/measures.js';
import { type SharedUnderlay, underlaysOf } from '../../segment/objects.js';
import type { SetOutcome } from '../../segment/set-right/saying.js';
import type { Finding } from '../../vetting/finding.js';
import { wordsFor } from '../phrases/words.js';
import { sayFinding } from '../phrases/words-of.js';
import { round, roundAll } from '../round.js';
import { setObjectReport } from '../set-words.js';
import type { FindingReport, ObjectReport, UnderlayReport, VetReport } from './report.js';

/** What is known of the file beside its content. */
export type FileFacts = VetReport['file'];

/** A vet report whose long lists are made as they are gone through, as often as that is: to be written without being held. */
export interface VetReportInParts extends Omit<VetReport, 'objects' | 'findings'> {
  readonly objects: Iterable<ObjectReport>;
  readonly findings: Iterable<FindingReport>;
}

/**
 * Puts measures and findings in the order and under the names that the vet report promises. Numbers are rounded to
 * 0.001 of their unit (time to 0.1 s). Nothing of the input is kept or changed.
 *
 * @example
 * ```ts
 * import { buildVetReport, factsOf, readDesignFile, shopOf } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shopOf().vet(file.design, { file: factsOf(file) });
 * const { designMeasures, measures, findings } = vetting;
 * buildVetReport(factsOf(file), designMeasures, measures, findings).schema; // => 'lieflat/vet@1'
 * ```
 */
export function buildVetReport(
  file: FileFacts,
  design: DesignMeasures,
  objects: readonly ObjectMeasures[],
  findings: readonly Finding[],
  set: readonly SetOutcome[] = [],
): VetReport {
  const parts = vetReportInParts(file, design, objects, findings, set);
  return { ...parts, objects: [...parts.objects], findings: [...parts.findings] };
}

/**
 * {@link buildVetReport}, its lists not made yet.
 *
 * @example
 * ```ts
 * import { factsOf, readDesignFile, shopOf, vetReportInParts } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shopOf().vet(file.design, { file: factsOf(file) });
 * const { designMeasures, measures, findings } = vetting;
 * const parts = vetReportInParts(factsOf(file), designMeasures, measures, findings);
 * [...parts.objects].length; // => 8
 * ```
 */
export function vetReportInParts(
  file: FileFacts,
  design: DesignMeasures,
  objects: readonly ObjectMeasures[],
  findings: readonly Finding[],
  set: readonly SetOutcome[] = [],
): VetReportInParts {
  return {
    schema: 'lieflat/vet@1',
    file: {
      path: file.path,
      format: file.format,
      bytes: file.bytes,
      get sha256() {
        return file.sha256;
      },
    },
    design: {
      stitches: design.stitches,
      jumps: design.jumps,
      trims: design.trims,
      colourChanges: design.colourChanges,
      stops: design.stops,
      bounds: roundAll(design.bounds),
      widthMm: round(design.widthMm),
      heightMm: round(design.heightMm),
      threadMm: round(design.threadMm),
      bobbinMm: round(design.bobbinMm),
      sewSeconds: round(design.sewSeconds, 1),
      sewSpeedSpm: round(design.sewSpeedSpm),
    },
    objects: madeOf(objects, objectReport),
    underlays: underlaysOf(objects.map(({ object }) => object)).map(underlayReport),
    findings: madeOf(findings, findingReport),
    risk: null,
    advice: null,
    setObjects: set.map(setObjectReport),
  };
}

const madeOf = <T, R>(items: readonly T[], make: (item: T) => R): Iterable<R> => ({
  *[Symbol.iterator]() {
    for (const item of items) yield make(item);
  },
});

function objectReport(measures: ObjectMeasures): ObjectReport {
  const { object } = measures;
  const { underlay } = object;
  return {
    id: object.id,
    block: object.block,
    group: object.group,
    kind: object.kind,
    stitchRange: [object.range[0], object.range[1]],
    stitches: measures.stitches,
    bounds: roundAll(measures.bounds),
    areaMm2: round(measures.areaMm2),
    angleDeg: angle(measures.angleDeg),
    widthMm: measures.widthMm && roundAll(measures.widthMm),
    spacingMm: measures.spacingMm && roundAll(measures.spacingMm),
    stitchLengthMm: roundAll(measures.stitchLengthMm),
    densityPerMm2: round(measures.densityPerMm2),
    split: object.split,
    locks: { start: object.locks.start, end: object.locks.end },
    purpose: object.purpose,
    pattern: object.pattern,
    passes: object.passes,
    confidence: round(object.confidence),
    doubt: object.doubt && { could: object.doubt.could, margin: round(object.doubt.margin) },
    underlay: {
      id: underlay.id,
      kinds: [...underlay.kinds],
      stitchRange: underlay.range && [underlay.range[0], underlay.range[1]],
      stitches: underlay.stitches,
      spacingMm: underlay.spacingMm === null ? null : round(underlay.spacingMm),
    },
    risk: null,
    advice: null,
    setByShop: object.setByShop,
  };
}

const underlayReport = ({ id, kinds, range, serves }: SharedUnderlay): UnderlayReport => ({
  id,
  kinds: [...kinds],
  stitchRange: [range[0], range[1]],
  serves: [...serves],
});

/** Rounding must not lift 179.9996° to 180°: the range is half open. */
function angle(deg: number | null): number | null {
  if (deg === null) return null;
  const rounded = round(deg);
  return rounded >= 180 ? 0 : rounded;
}

/** A finding with its sentence. */
export function findingReport(finding: Finding): FindingReport {
  const { code, severity, object, stitch, at, measured, limit, unit, basis, fix } = finding;
  const { unsure = false, curedBy = null } = finding;
  const params = tidied(finding.params);
  const tidy = {
    code,
    severity,
    object,
    stitch,
    at: at && roundAll(at),
    measured: tidied(measured),
    limit: tidied(limit),
    unit,
  };
  const message = sayFinding(finding, METRIC);
  return { ...tidy, message, basis, params, fix, unsure, ...(curedBy && { curedBy }) } as FindingReport;
}

/** What `message` is said in. */
const METRIC = wordsFor({ units: 'mm', detail: 'full' });

/** Every number rounded as reports have them. */
function tidied<T>(value: T): T {
  if (typeof value === 'number') return round(value) as T;
  return typeof value === 'object' && value !== null ? roundAll(value) : value;
}
