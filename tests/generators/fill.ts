import type { UnderlayKind } from '../../lib/segment/objects.js';
import { type Draft, needles } from './draft.js';
import { type HatchStyle, hatch, type Stagger, Ways } from './hatch.js';
import { between, distance, inset, type Region, stitchCurve, type Vec } from './plane.js';
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
    if (out.length === 0) return;
    const legs = ways.way(out[out.length - 1], to);
    const points: Vec[] = [];
    for (let i = 1; i < legs.length; i++) {
      const n = Math.max(1, Math.ceil(distance(legs[i - 1], legs[i]) / 2.8));
      for (let k = 1; k <= n; k++)
        if (i < legs.length - 1 || k < n) points.push(between(legs[i - 1], legs[i], k / n));
    }
    out.push(...needles(points, 'travel'));
  };
  let at = from;
  for (const kind of style.underlay) {
    let points: Vec[];
    if (kind === 'edge-run') {
      points = [];
      for (const [i, ring] of [region.outer, ...region.holes].entries()) {
        // Holes may be left without an edge run; the outline never is.
        if (i > 0 && style.edgeStitch < 2.3) continue;
        const line = inset(ring, style.inset, i > 0);
        const k = random.int(0, line.length - 1);
        const turned = [...line.slice(k), ...line.slice(0, k), line[k]];
        const stitched = stitchCurve(turned, style.edgeStitch);
        if (points.length > 0) {
          const legs = ways.way(points[points.length - 1], stitched[0]);
          for (let j = 1; j < legs.length; j++) {
            const n = Math.max(1, Math.ceil(distance(legs[j - 1], legs[j]) / 2.8));
            for (let m = 1; m <= n; m++) points.push(between(legs[j - 1], legs[j], m / n));
          }
          points.pop();
        }
        points.push(...stitched);
      }
    } else {
      const inner: Region = {
        outer: inset(region.outer, style.inset),
        holes: region.holes.map((h) => inset(h, style.inset, true)),
      };
      points = hatch(inner, style.under, at, ways, random).points;
      if (points.length < 6) return null;
    }
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
