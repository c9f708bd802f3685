import type { Severity } from '../vetting/finding.js';
import type { ObjectReport, VetReport } from './vet/report.js';

export interface RankedObject {
  object: ObjectReport;
  counts: Record<Severity, number>;
}

/**
 * The objects with what was found in each, those that matter most first: by failures, then warnings, then notes,
 * then column width (wide columns pull most), then sewing order.
 */
export function rankObjects(report: VetReport): RankedObject[] {
  const ranked = new Map<number, RankedObject>();
  for (const object of report.objects) {
    ranked.set(object.id, { object, counts: { fail: 0, warn: 0, note: 0 } });
  }
  for (const finding of report.findings) {
    if (finding.object !== null) ranked.get(finding.object)!.counts[finding.severity]++;
  }
  return [...ranked.values()].sort(
    (a, b) =>
      b.counts.fail - a.counts.fail ||
      b.counts.warn - a.counts.warn ||
      b.counts.note - a.counts.note ||
      (b.object.widthMm?.p95 ?? 0) - (a.object.widthMm?.p95 ?? 0) ||
      a.object.id - b.object.id,
  );
}
