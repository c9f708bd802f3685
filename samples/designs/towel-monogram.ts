import { areaOf } from '../stitching/area.js';
import { columnAlong, columnBetween } from '../stitching/column.js';
import { sewLetter, straightLetters } from '../stitching/lettering.js';
import { arc, type Point, point } from '../stitching/plane.js';
import { SATIN, sewLoneColumn } from '../stitching/sew-column.js';
import { FILL, sewLoneFill } from '../stitching/sew-fill.js';
import { sewLoneRun } from '../stitching/sew-run.js';
import { Sewing } from '../stitching/sewing.js';
import { BORDER, weightOf } from './palette.js';

const MIDDLE = point(0, 0);
const RADIUS = 43;

/** A leaf of satin, pointed at both ends, from `a` to `b`, `widthMm` across its middle. */
const leaf = (a: Point, b: Point, widthMm: number) =>
  columnAlong([a, b], (_, part) => 0.9 + (widthMm - 0.9) * Math.sin(Math.PI * part));

/** The station's bath towel: a wide split-satin initial on a filled roundel that holds the pile down. */
export function towelMonogram(): Sewing {
  const sewing = new Sewing();
  const roundel = areaOf(arc(MIDDLE, RADIUS, RADIUS, 0, 360).slice(0, -1));
  sewLoneFill(
    sewing,
    'roundel',
    roundel,
    { ...FILL, angleDeg: 20, stitchMm: 4, spacingMm: 0.45 },
    point(0, RADIUS),
  );
  sewing.nextColour();
  const style = {
    ...SATIN,
    pullMm: 0,
    underlay: ['edge-run', 'zigzag'] as const,
    insetMm: 0.9,
    zigzagMm: 2.6,
  };
  const [initial] = straightLetters('B', weightOf(54, 9.4, 6.2), 0, 0, point(1.5, -27));
  sewLetter(sewing, initial, style);
  for (const side of [-1, 1]) {
    const x = side * 28;
    const sprig = [
      leaf(point(x, -13), point(x + side * 6.5, 1), 4.6),
      leaf(point(x, 13), point(x + side * 6.5, -1), 4.6),
    ];
    sprig.forEach((column, i) => {
      sewLoneColumn(
        sewing,
        `leaf ${side > 0 ? 'right' : 'left'} ${i + 1}`,
        column,
        { ...SATIN, underlay: ['center-run'] },
        'start',
      );
    });
  }
  sewLoneRun(sewing, 'inner line', arc(MIDDLE, RADIUS - 4.6, RADIUS - 4.6, 90, 450), 2.4, 'double');
  // Four points of a compass, wide enough at the foot to be split; the rim covers the foot.
  for (const deg of [0, 90, 180, 270]) {
    const at = (r: number, d: number): Point => {
      const a = ((deg + d) * Math.PI) / 180;
      return point(r * Math.cos(a), r * Math.sin(a));
    };
    const tip = columnBetween(
      [at(RADIUS + 1.6, 6.6), at(RADIUS + 9.2, 0.6)],
      [at(RADIUS + 1.6, -6.6), at(RADIUS + 9.2, -0.6)],
    );
    sewLoneColumn(
      sewing,
      `compass point ${deg}`,
      tip,
      { ...SATIN, underlay: ['zigzag'], zigzagMm: 2.2 },
      'start',
    );
  }
  const rim = columnAlong(arc(MIDDLE, RADIUS, RADIUS, 90, 450), 5, true);
  sewLoneColumn(sewing, 'rim', rim, BORDER);
  return sewing;
}
