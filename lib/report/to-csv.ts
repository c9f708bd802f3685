import type { Severity } from '../vetting/finding.js';
import { type CsvCell, csvRecord } from './csv.js';
import type { ObjectReport, VetReport } from './vet-report.js';

type Cell = readonly [
  head: string,
  of: (report: VetReport, object: ObjectReport | null, counts: Tally) => CsvCell,
];

const CELLS: readonly Cell[] = [
  ['file', (r) => r.file.path],
  ['design_stitches', (r) => r.design.stitches],
  ['design_trims', (r) => r.design.trims],
  ['design_colour_changes', (r) => r.design.colourChanges],
  ['design_width_mm', (r) => r.design.widthMm],
  ['design_height_mm', (r) => r.design.heightMm],
  ['design_thread_mm', (r) => r.design.threadMm],
  ['design_sew_seconds', (r) => r.design.sewSeconds],
  ['design_fails', (_r, _o, counts) => counts.get(null)!.fail],
  ['design_warns', (_r, _o, counts) => counts.get(null)!.warn],
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
  ['fails', (_, o, counts) => o && counts.get(o.id)!.fail],
  ['warns', (_, o, counts) => o && counts.get(o.id)!.warn],
  ['notes', (_, o, counts) => o && counts.get(o.id)!.note],
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
];

/** Findings counted once: of the whole file under null, of each object under its id. */
type Tally = Map<number | null, Record<Severity, number>>;

function tally(report: VetReport): Tally {
  const counts: Tally = new Map([[null, { fail: 0, warn: 0, note: 0 }]]);
  for (const object of report.objects) counts.set(object.id, { fail: 0, warn: 0, note: 0 });
  for (const finding of report.findings) {
    counts.get(null)![finding.severity]++;
    if (finding.object !== null) counts.get(finding.object)![finding.severity]++;
  }
  return counts;
}

/** The heading record, once a table. */
export const csvHeader = (): string => csvRecord(CELLS.map(([head]) => head));

/**
 * One record an object, with the file's path and totals repeated, so that a spreadsheet can filter any of them. A
 * file without objects still gets one record, its object cells empty.
 */
export function toCsvRecords(report: VetReport): string {
  const objects: (ObjectReport | null)[] = report.objects.length > 0 ? report.objects : [null];
  const counts = tally(report);
  return objects.map((object) => csvRecord(CELLS.map(([, of]) => of(report, object, counts)))).join('');
}
