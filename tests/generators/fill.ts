import type { UnderlayKind } from '../../lib/segment/objects.js';
import { type Draft, needles } from './draft.js';
import { type HatchStyle, hatch, type Stagger, Ways } from './hatch.js';
import { inset, type Region, stitchCurve, type Vec } from './plane.js';
import type { Random } from './random.js';

export interface FillStyle {
  top: HatchStyle;
  underlay: readonly UnderlayKind[];
  inset: number;
  under: HatchStyle;
  edgeStitch: number;
}

export const FILL_UNDERLAYS: readonly (readonly UnderlayKind[])[] = [
  [],
  ['edge-run'],
  ['fill'],
  ['edge-run', 'fill'],
];

export function randomFill(random: Random, underlay: readonly UnderlayKind[]): FillStyle {
  const degrees = random.chance(0.4) ? random.pick([0, 45, 90, 135]) : random.range(0, 180);
  const open = random.chance(0.12);
  const join = random.chance(0.6) ? 'edge' : 'direct';
  const stagger: Stagger = random.pick(['brick', 'thirds', 'quarters', 'random']);
  return {
    top: {
      degrees,
      rows: open ? random.range(0.8, 1.2) : random.range(0.3, 0.6),
      // Rows that lead straight into one another are told from broken satin by how many stitches they have.
      stitch: join === 'edge' ? random.range(2, 5) : random.range(2, 3.6),
      stagger,
      join,
      least: random.chance(0.6) ? random.range(0.6, 1) : 0.25,
      shortest: random.range(1.1, 1.6),
    },
    underlay,
    inset: random.range(0.4, 1),
    under: {
      degrees: degrees + random.pick([90, 90, 45, -45, random.range(35, 145)]),
      rows: random.range(2, 4),
      stitch: random.range(2, 4),
      stagger: random.pick(['brick', 'random']),
      join: 'edge',
      least: 0.7,
      shortest: 2,
    },
    edgeStitch: random.range(1.8, 3),
  };
}

/** Rows long enough, in stitches, that no one would take them for swings of a broken satin. */
export function looksLikeFill(lengths: readonly number[], style: HatchStyle): boolean {
  const sorted = [...lengths].sort((a, b) => a - b);
  const typical = sorted[sorted.length >> 1] / style.stitch;
  return lengths.length >= 8 && typical >= (style.join === 'direct' ? 4.5 : 2.6);
}

const insideOf = (region: Region, by: number): Region => ({
  outer: inset(region.outer, by),
  holes: region.holes.map((h) => inset(h, by, true)),
});

/** A run inside the outline and each hole, begun anywhere; holes may be left without one, the outline never is. */
function edgeRuns(region: Region, style: FillStyle, ways: Ways, random: Random): Vec[] {
  const points: Vec[] = [];
  for (const [i, ring] of [region.outer, ...region.holes].entries()) {
    if (i > 0 && style.edgeStitch < 2.3) continue;
    const line = inset(ring, style.inset, i > 0);
    const k = random.int(0, line.length - 1);
    const stitched = stitchCurve([...line.slice(k), ...line.slice(0, k), line[k]], style.edgeStitch);
    if (points.length > 0) points.push(...ways.travel(points[points.length - 1], stitched[0]));
    points.push(...stitched);
  }
  return points;
}

/** A filled area with its underlay, begun as near to `from` as it can be; null where the style would not look like a fill. */
export function fillDraft(
  region: Region,
  style: FillStyle,
  from: Vec | null,
  random: Random,
  note: string,
): Draft | null {
  const ways = new Ways(region, 0.8);
  const out: Draft['needles'] = [];
  const hidden = (to: Vec) => {
    if (out.length > 0) out.push(...needles(ways.travel(out[out.length - 1], to), 'travel'));
  };
  let at = from;
  for (const kind of style.underlay) {
    const points =
      kind === 'edge-run'
        ? edgeRuns(region, style, ways, random)
        : hatch(insideOf(region, style.inset), style.under, at, ways, random).points;
    if (kind !== 'edge-run' && points.length < 6) return null;
    hidden(points[0]);
    out.push(...needles(points, 'underlay'));
    at = points[points.length - 1];
  }
  const laid = hatch(region, style.top, at, ways, random);
  if (!looksLikeFill(laid.lengths, style.top)) return null;
  hidden(laid.points[0]);
  out.push(...needles(laid.points, 'top'));
  const t = style.top;
  return {
    kind: 'fill',
    needles: out,
    widthMm: null,
    spacingMm: t.rows,
    angleDeg: ((t.degrees % 180) + 180) % 180,
    underlay: [...style.underlay],
    split: false,
    locks: { start: false, end: false },
    patterns: t.rows < 0.75 ? ['rows'] : ['rows', 'loose'],
    note: `${note}; rows ${t.rows.toFixed(2)} at ${t.degrees.toFixed(0)}° stitch ${t.stitch.toFixed(1)} ${t.stagger} ${t.join} least ${t.least.toFixed(1)}, ${laid.sections} sections; underlay ${style.underlay.join('+') || 'none'} (rows ${style.under.rows.toFixed(1)} at ${style.under.degrees.toFixed(0)}°)`,
  };
}
