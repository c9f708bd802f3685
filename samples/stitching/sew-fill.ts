import { type Area, drawnIn } from './area.js';
import { type FillPlan, fill } from './fill.js';
import { distance, type Point } from './plane.js';
import { run } from './run.js';
import type { Sewing } from './sewing.js';
import { Part } from './truth.js';

export interface FillStyle extends FillPlan {
  /** Edge run and light fill laid first, across the rows; `underlayMm` is the distance of its rows. */
  readonly underlay: readonly ('edge-run' | 'fill')[];
  readonly underlayMm: number;
}

export const FILL: FillStyle = {
  angleDeg: 0,
  spacingMm: 0.4,
  stitchMm: 3.5,
  pullMm: 0.2,
  underlay: ['edge-run', 'fill'],
  underlayMm: 3,
};

const INSET_MM = 0.9;

/** The ring begun at its point nearest to `from`, closed. */
function beginNear(ring: readonly Point[], from: Point): Point[] {
  let best = 0;
  ring.forEach((p, i) => {
    if (distance(from, p) < distance(from, ring[best])) best = i;
  });
  return [...ring.slice(best), ...ring.slice(0, best), ring[best]];
}

const roundDeg = (deg: number): number => ((deg % 180) + 180) % 180;

/** Sews an area: underlay, then rows. The needle has to be inside the area, near its edge. */
export function sewFill(sewing: Sewing, label: string, area: Area, style: FillStyle): void {
  const rowSpacing = { min: style.spacingMm, median: style.spacingMm, max: style.spacingMm };
  const under = drawnIn(area, INSET_MM);
  const crossing = {
    ...style,
    angleDeg: style.angleDeg + 90,
    spacingMm: style.underlayMm,
    pullMm: 0,
    stitchMm: 3.2,
  };
  const from = sewing.needle;
  const edge = style.underlay.includes('edge-run') ? run(beginNear(under.outline, from), 2.8) : [];
  const light = style.underlay.includes('fill') ? fill(under, crossing, edge[edge.length - 1] ?? from) : null;
  const lightPoints = light ? [...light.approach, ...light.points] : [];
  const last = lightPoints[lightPoints.length - 1] ?? edge[edge.length - 1] ?? from;
  const top = fill(area, style, last);
  const piece = sewing.open({
    label,
    kind: 'fill',
    underlay: style.underlay,
    underlaySpacingMm: light ? style.underlayMm : null,
    widthMm: null,
    spacingMm: rowSpacing,
    angleDeg: roundDeg(style.angleDeg),
    split: false,
    sections: top.sections,
    rows: top.rows,
  });
  sewing.sew(edge, Part.underlay, piece);
  sewing.sew(lightPoints, Part.underlay, piece);
  sewing.sew(top.approach, Part.travel);
  sewing.sew(top.points, Part.top, piece);
}

/** Starts a thread inside the area near `near`, sews the area and locks. */
export function sewLoneFill(sewing: Sewing, label: string, area: Area, style: FillStyle, near: Point): void {
  const ring = beginNear(drawnIn(area, INSET_MM).outline, near);
  sewing.begin(ring[0], ring[1]);
  sewFill(sewing, label, area, style);
  lockInFill(sewing, area);
}

/** Locks into the nearest inside of the area. */
function lockInFill(sewing: Sewing, area: Area): void {
  const inner = beginNear(drawnIn(area, 1.5).outline, sewing.needle);
  sewing.lock(inner[0]);
}
