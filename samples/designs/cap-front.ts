import { areaOf } from '../stitching/area.js';
import { type Column, columnAlong, columnBetween } from '../stitching/column.js';
import { type PlacedLetter, sewLetter, straightLetters } from '../stitching/lettering.js';
import { arc, curve, type Point, point, wave } from '../stitching/plane.js';
import { SATIN, sewLoneColumn } from '../stitching/sew-column.js';
import { FILL, sewLoneFill } from '../stitching/sew-fill.js';
import { sewLoneRun } from '../stitching/sew-run.js';
import { Sewing } from '../stitching/sewing.js';
import { BOLD_LETTERING, weightOf } from './palette.js';

/** The cap's lowest stitch is about here; the origin is the middle of the front. */
const FLOOR = -27;

/** Letters from the middle outwards, to the two sides by turns. */
function fromMiddle(letters: readonly PlacedLetter[]): PlacedLetter[] {
  const distance = (l: PlacedLetter): number => Math.abs(l.strokes[l.strokes.length - 1].column.centre[0].x);
  return [...letters].sort((a, b) => distance(a) - distance(b));
}

/** A wave column from the middle to one side, thinning out. */
function swell(side: number, y: number, reach: number, phase: number): Column {
  const path = wave(0, side * reach, y, 1.1, 19, phase);
  return columnAlong(path, (_, part) => 2.6 - 1.5 * part);
}

/** Cap front in three threads: from the bottom up, and in every tier from the middle out, so that the cloth is smoothed to the sides. */
export function capFront(): Sewing {
  const sewing = new Sewing();
  const narrow = { ...SATIN, underlay: ['center-run'] as const };
  [0, 1].forEach((tier) => {
    for (const side of [1, -1])
      sewLoneColumn(
        sewing,
        `wave ${tier + 1}, ${side > 0 ? 'right' : 'left'}`,
        swell(side, FLOOR + 2.6 + tier * 4.4, tier ? 54 : 46, 0),
        narrow,
      );
  });
  sewing.nextColour();
  const word = straightLetters('RESCUE', weightOf(17.5, 4.1, 3.6), 2.1, 8, point(0, FLOOR + 11.5));
  for (const letter of fromMiddle(word)) sewLetter(sewing, letter, { ...BOLD_LETTERING, insetMm: 0.5 });
  emblem(sewing, point(0, FLOOR + 43.2));
  return sewing;
}

/** A lifebuoy: a ring cut by a band at every quarter, with a gull's wing to each side. */
function emblem(sewing: Sewing, at: Point): void {
  const [inner, outer] = [5.4, 11.6];
  const ring = (r: number): Point[] => arc(at, r, r, 0, 360).slice(0, -1);
  sewing.nextColour();
  const body = areaOf(ring(outer), [ring(inner)]);
  sewLoneFill(
    sewing,
    'lifebuoy',
    body,
    { ...FILL, angleDeg: 45, stitchMm: 2.8, underlay: ['edge-run', 'fill'], underlayMm: 2.6 },
    point(at.x, at.y - outer),
  );
  const rim = { ...SATIN, underlay: ['center-run'] as const };
  sewLoneColumn(sewing, 'lifebuoy, inner rim', columnAlong(arc(at, inner, inner, 90, 450), 1.4, true), rim);
  sewLoneColumn(sewing, 'lifebuoy, outer rim', columnAlong(arc(at, outer, outer, 90, 450), 1.4, true), rim);
  sewing.nextColour();
  for (const deg of [225, 315, 135, 45]) {
    const edge = (d: number): Point[] =>
      [inner - 0.9, outer + 0.9].map((r) => {
        const a = ((deg + d) * Math.PI) / 180;
        return point(at.x + r * Math.cos(a), at.y + r * Math.sin(a));
      });
    const band = columnBetween(edge(15), edge(-15));
    sewLoneColumn(
      sewing,
      `lifebuoy band ${deg}`,
      band,
      { ...SATIN, underlay: ['edge-run', 'zigzag'] },
      'start',
    );
  }
  for (const side of [1, -1]) {
    const x = (d: number): number => at.x + side * d;
    const upper = [
      ...curve(
        point(x(14.2), at.y - 5),
        point(x(19), at.y + 4.4),
        point(x(25), at.y + 4),
        point(x(30), at.y - 1.5),
      ),
      ...curve(
        point(x(30), at.y - 1.5),
        point(x(35), at.y + 4.6),
        point(x(42), at.y + 3),
        point(x(46), at.y - 4),
      ).slice(1),
    ];
    const lower = [
      ...curve(
        point(x(15.2), at.y - 6),
        point(x(20), at.y + 0.4),
        point(x(25), at.y - 0.2),
        point(x(30), at.y - 4.6),
      ),
      ...curve(
        point(x(30), at.y - 4.6),
        point(x(35), at.y + 0.8),
        point(x(41), at.y + 0.4),
        point(x(45.3), at.y - 4.8),
      ).slice(1),
    ];
    const wing = side > 0 ? columnBetween(upper, lower) : columnBetween(lower, upper);
    sewLoneColumn(
      sewing,
      side > 0 ? 'right wing' : 'left wing',
      wing,
      { ...SATIN, underlay: ['zigzag'], insetMm: 0.4, zigzagMm: 2 },
      'start',
    );
  }
  sewLoneRun(sewing, 'lifebuoy rope', arc(at, outer + 1.6, outer + 1.6, -90, 270), 2, 'triple');
}
