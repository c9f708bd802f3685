import type { Finding, Severity } from '../../vetting/finding.js';
import { type CsvCell, csvRecord } from '../csv.js';
import { PIECE } from '../to-json.js';
import type { VetReportInParts } from './build.js';
import type { ObjectReport, VetReport } from './report.js';

type ObjectColumn = readonly [
  head: string,
  of: (report: VetReportInParts, object: ObjectReport | null, counts: Tally) => CsvCell,
];

const CELLS: readonly ObjectColumn[] = [
  ['file', (r) => r.file.path],
  ['design_stitches', (r) => r.design.stitches],
  ['design_trims', (r) => r.design.trims],
  ['design_colour_changes', (r) => r.design.colourChanges],
  ['design_width_mm', (r) => r.design.widthMm],
  ['design_height_mm', (r) => r.design.heightMm],
  ['design_thread_mm', (r) => r.design.threadMm],
  ['design_sew_seconds', (r) => r.design.sewSeconds],
  ['design_fails', (_r, _o, counts) => (counts.get(null) ?? NONE).fail],
  ['design_warns', (_r, _o, counts) => (counts.get(null) ?? NONE).warn],
  ['object', (_, o) => o?.id],
  ['block', (_, o) => o?.block],
  ['group', (_, o) => o?.group],
  ['kind', (_, o) => o?.kind],
  ['first_stitch', (_, o) => o?.stitchRange[0]],
  ['last_stitch', (_, o) => o?.stitchRange[1]],
  ['stitches', (_, o) => o?.stitches],
  ['min_x_mm', (_, o) => o?.bounds.minX],
  ['min_y_mm', (_, o) => o?.bounds.minY],
  ['max_x_mm', (_, o) => o?.bounds.maxX],
  ['max_y_mm', (_, o) => o?.bounds.maxY],
  ['area_mm2', (_, o) => o?.areaMm2],
  ['angle_deg', (_, o) => o?.angleDeg],
  ['width_min_mm', (_, o) => o?.widthMm?.min],
  ['width_median_mm', (_, o) => o?.widthMm?.median],
  ['width_p95_mm', (_, o) => o?.widthMm?.p95],
  ['width_max_mm', (_, o) => o?.widthMm?.max],
  ['spacing_median_mm', (_, o) => o?.spacingMm?.median],
  ['stitch_length_median_mm', (_, o) => o?.stitchLengthMm.median],
  ['density_per_mm2', (_, o) => o?.densityPerMm2],
  ['split', (_, o) => o?.split],
  ['lock_start', (_, o) => o?.locks.start],
  ['lock_end', (_, o) => o?.locks.end],
  ['underlay', (_, o) => o?.underlay.kinds.join(' ')],
  ['underlay_stitches', (_, o) => o?.underlay.stitches],
  ['underlay_spacing_mm', (_, o) => o?.underlay.spacingMm],
  ['fails', (_, o, counts) => o && (counts.get(o.id) ?? NONE).fail],
  ['warns', (_, o, counts) => o && (counts.get(o.id) ?? NONE).warn],
  ['notes', (_, o, counts) => o && (counts.get(o.id) ?? NONE).note],
  ['fabric', (r) => r.risk?.conditions.fabric],
  ['backing', (r) => r.risk?.conditions.stackText],
  ['design_score', (r) => r.risk?.score],
  ['design_grade', (r) => r.risk?.grade],
  ['design_pull_in_mm', (r) => r.risk?.pullInMm],
  ['design_wrinkle_mm', (r) => r.risk?.wrinkleMm],
  ['score', (_, o) => o?.risk?.score],
  ['grade', (_, o) => o?.risk?.grade],
  ['pull_in_mm', (_, o) => o?.risk?.pullInMm],
  ['wrinkle_mm', (_, o) => o?.risk?.wrinkleMm],
  ['main_driver', (_, o) => o?.risk?.drivers[0]?.cause],
  ['set_by_shop', (_, o) => o?.setByShop],
];

/** Findings counted once: of the whole file under null, of each object under its id; nothing where there are none. */
type Tally = Map<number | null, Record<Severity, number>>;

function tally(findings: Iterable<Finding>): Tally {
  const counts: Tally = new Map();
  const countAt = (object: number | null, severity: Severity): void => {
    const known = counts.get(object);
    if (known) known[severity]++;
    else counts.set(object, { ...NONE, [severity]: 1 });
  };
  for (const { object, severity } of findings) {
    countAt(null, severity);
    if (object !== null) countAt(object, severity);
  }
  return counts;
}

const NONE: Readonly<Record<Severity, number>> = { fail: 0, warn: 0, note: 0 };

/**
 * The heading record, once a table.
 *
 * @example
 * ```ts
 * import { csvHeader } from 'lieflat';
 * csvHeader().startsWith('file,'); // => true
 * ```
 */
export const csvHeader = (): string => csvRecord(CELLS.map(([head]) => head));

/**
 * One record an object, with the file's path and totals repeated, so that a spreadsheet can filter any of them. A
 * file without objects still gets one record, its object cells empty.
 *
 * @example
 * ```ts
 * import { csvHeader, factsOf, readDesignFile, shopOf, toCsvRecords } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shopOf().vet(file.design, { file: factsOf(file) });
 * (csvHeader() + toCsvRecords(vetting.report)).trimEnd().split('\r\n').length; // => 9
 * ```
 */
export function toCsvRecords(report: VetReport): string {
  return [...csvPieces(report)].join('');
}

/**
 * The same piece by piece, never held as a whole.
 *
 * @example
 * ```ts
 * import { csvPieces, factsOf, readDesignFile, shopOf, toCsvRecords } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shopOf().vet(file.design, { file: factsOf(file) });
 * [...csvPieces(vetting.report)].join('') === toCsvRecords(vetting.report); // => true
 * ```
 */
export function* csvPieces(report: VetReportInParts): Generator<string> {
  const counts = tally(report.findings);
  const record = (object: ObjectReport | null): string =>
    csvRecord(CELLS.map(([, of]) => of(report, object, counts)));
  let text = '';
  let any = false;
  for (const object of report.objects) {
    any = true;
    text += record(object);
    if (text.length < PIECE) continue;
    yield text;
    text = '';
  }
  yield any ? text : record(null);
}
