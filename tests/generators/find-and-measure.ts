import type { Design } from '../../lib/format/design.js';
import type { ObjectKind, StitchRange, UnderlayKind } from '../../lib/segment/objects.js';
import { SHOP } from '../built-in-shop.js';
import type { Pattern, Purpose } from './draft.js';
import type { Totals } from './pen.js';
import type { Found } from './score.js';

/** What is read of a vet report, by the names that it promises; what is not in it yet may be missing. */
interface Report {
  design: Totals;
  objects: {
    id: number;
    kind: ObjectKind;
    block: number;
    group: number;
    stitchRange: StitchRange;
    widthMm: { median: number } | null;
    spacingMm: { median: number } | null;
    angleDeg: number | null;
    split: boolean;
    locks: { start: boolean; end: boolean };
    underlay: { kinds: UnderlayKind[]; stitchRange: StitchRange | null; id?: number | null };
    purpose?: Purpose;
    pattern?: Pattern | null;
    passes?: number;
    confidence?: number;
  }[];
  underlays?: { id: number; kinds: UnderlayKind[]; stitchRange: StitchRange; serves: number[] }[];
  findings: {
    code: string;
    severity: string;
    object: number | null;
    stitch: number | null;
    at: { x: number; y: number } | null;
    measured: number | string | null;
  }[];
}

const FILE = { path: 'generated.dst', format: 'dst', bytes: 0, sha256: '' } as const;

/** The project's own way from a design to its vet report, as far as it is judged. */
export function findAndMeasure(design: Design): Found {
  const report: Report = SHOP.vet(design, { file: FILE }).report;
  const { stitches, jumps, trims, colourChanges, stops } = report.design;
  return {
    objects: report.objects.map((o) => ({
      ...o,
      range: o.stitchRange,
      widthMm: o.widthMm?.median ?? null,
      spacingMm: o.spacingMm?.median ?? null,
      underlay: { kinds: o.underlay.kinds, range: o.underlay.stitchRange },
    })),
    underlays: report.underlays?.map(({ kinds, stitchRange, serves }) => ({
      kinds,
      range: stitchRange,
      serves,
    })),
    findings: report.findings,
    totals: { stitches, jumps, trims, colourChanges, stops },
  };
}
