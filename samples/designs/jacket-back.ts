import { type Area, areaOf } from '../stitching/area.js';
import { type Column, columnAlong } from '../stitching/column.js';
import { archedLetters, sewLetter } from '../stitching/lettering.js';
import { arc, curve, type Point, point, wave } from '../stitching/plane.js';
import { SATIN, sewLoneColumn } from '../stitching/sew-column.js';
import { FILL, type FillStyle, sewLoneFill } from '../stitching/sew-fill.js';
import { sewLoneRun } from '../stitching/sew-run.js';
import { Sewing } from '../stitching/sewing.js';
import { BOLD_LETTERING, BORDER, weightOf } from './palette.js';

const MIDDLE = point(0, 0);
/** Middle lines of the outer and the inner border, and their widths. */
const OUTER = 137;
const INNER = 98;
const WATER = -24;
const SUN = point(47, 48);

const round = (r: number, from = 0, to = 360): Point[] => arc(MIDDLE, r, r, from, to);
const ringOf = (r: number): Point[] => round(r).slice(0, -1);
/** Half the scene's width at a height. */
const halfWidthAt = (y: number, r = INNER): number => Math.sqrt(r * r - y * y);

/** The part of the scene above or below a level line: a chord of the inner circle. */
function segment(y: number, above: boolean): Point[] {
  const a = (Math.asin(y / INNER) * 180) / Math.PI;
  return above ? round(INNER, a, 180 - a) : round(INNER, 180 - a, 360 + a);
}

const tower = {
  left: (y: number): number => -46 + (y + 30) * 0.052,
  right: (y: number): number => -18 - (y + 30) * 0.052,
};
const towerPart = (y0: number, y1: number, grow = 0): Point[] => [
  point(tower.left(y0) - grow, y0),
  point(tower.right(y0) + grow, y0),
  point(tower.right(y1) + grow, y1),
  point(tower.left(y1) - grow, y1),
];
const rock: Point[] = [
  ...curve(point(-80, -40), point(-72, -26), point(-62, -30), point(-54, -20)),
  ...curve(point(-54, -20), point(-40, -15), point(-26, -16), point(-12, -20)).slice(1),
  ...curve(point(-12, -20), point(-2, -28), point(2, -32), point(8, -40)).slice(1),
].reverse();
const sheer = (x: number): number => -25 + 0.009 * (x - 42) ** 2;
const sheerLine: Point[] = Array.from({ length: 73 }, (_, i) => point(4 + i, sheer(4 + i)));
const hullBottom: Point[] = [
  ...curve(point(4, sheer(4)), point(6, -22), point(11, -34), point(18, -39)),
  ...curve(point(18, -39), point(32, -42), point(52, -42), point(62, -38)).slice(1),
  ...curve(point(62, -38), point(71, -31), point(74, -20), point(77, sheer(77))).slice(1),
];
const cabin: Point[] = [
  point(24, sheer(24) - 0.6),
  point(60, sheer(60) - 0.6),
  point(54, 2),
  ...curve(point(54, 2), point(46, 5), point(36, 5), point(30, 2), 24).slice(1),
];

const big: FillStyle = { ...FILL, stitchMm: 4.5, underlayMm: 3.6 };
const small: FillStyle = { ...FILL, stitchMm: 3.2, underlayMm: 2.8 };

function lay(sewing: Sewing, label: string, area: Area, angleDeg: number, style: FillStyle = small): void {
  sewLoneFill(sewing, label, area, { ...style, angleDeg }, area.outline[0]);
}

/** Jacket back of about 280 mm: more than 60,000 stitches in six colours. */
export function jacketBack(): Sewing {
  const sewing = new Sewing();
  const sun = arc(SUN, 15, 15, 0, 360).slice(0, -1);
  lay(
    sewing,
    'sky',
    areaOf(segment(WATER, true), [arc(SUN, 14, 14, 0, 360).slice(0, -1), towerPart(-8, 51.5, -1.4)]),
    15,
    big,
  );
  sewing.nextColour();
  lay(sewing, 'sea', areaOf(segment(WATER + 1, false)), 0, big);
  sewing.nextColour();
  lay(sewing, 'band', areaOf(ringOf(OUTER - 1), [ringOf(INNER + 1)]), 90, big);
  lay(sewing, 'rock', areaOf(rock), 30);
  sewing.nextColour();
  whites(sewing);
  sewing.nextColour();
  reds(sewing);
  sewing.nextColour();
  golds(sewing, sun);
  return sewing;
}

function whites(sewing: Sewing): void {
  lay(sewing, 'tower', areaOf(towerPart(-19, 52)), 90);
  lay(sewing, 'cabin', areaOf(cabin), 90);
  const clouds = [point(-62, 30), point(6, 66)];
  clouds.forEach((at, i) => {
    const puffs = [
      ...arc(point(at.x + 11, at.y + 3), 6, 6, -60, 110),
      ...arc(point(at.x + 1, at.y + 6), 8.5, 7.5, 40, 150),
      ...arc(point(at.x - 10, at.y + 3), 6, 5.5, 70, 240),
    ];
    lay(sewing, `cloud ${i + 1}`, areaOf(puffs), 0);
  });
  const rows = [
    [-48, 2.6],
    [-58, 3.2],
    [-68, 3.8],
    [-78, 4.2],
    [-87, 3.6],
  ];
  rows.forEach(([y, width], i) => {
    const reach = halfWidthAt(y - 4, INNER - 4) - 1;
    const swell = columnAlong(
      wave(-reach, reach, y, 2, 31, i * 0.5),
      (_, part) => 1.4 + width * Math.sin(Math.PI * part),
    );
    sewLoneColumn(
      sewing,
      `wave ${i + 1}`,
      swell,
      { ...SATIN, underlay: ['zigzag'], insetMm: 0.4 },
      i % 2 === 0 ? 'start' : 'end',
    );
  });
}

function reds(sewing: Sewing): void {
  [
    [-4, 6],
    [16, 25],
    [35, 43],
  ].forEach(([y0, y1], i) => {
    lay(sewing, `tower band ${i + 1}`, areaOf(towerPart(y0, y1, 0.4)), 0);
  });
  lay(
    sewing,
    'lantern roof',
    areaOf([
      point(-44, 63),
      point(-20, 63),
      ...curve(point(-20, 63), point(-24, 70), point(-29, 73), point(-32, 77), 20).slice(1),
      ...curve(point(-32, 77), point(-35, 73), point(-40, 70), point(-44, 63), 20).slice(1, -1),
    ]),
    90,
  );
  const hull = areaOf([...hullBottom, ...[...sheerLine].reverse()]);
  lay(sewing, 'hull', hull, 172);
  const keel = columnAlong(hullBottom.slice(4), (_, part) => 1.6 + 3 * Math.sin(Math.PI * part));
  sewLoneColumn(sewing, 'keel', keel, { ...SATIN, underlay: ['zigzag'], insetMm: 0.4 }, 'start');
}

/** A spoke of light that widens away from the lamp. */
function beam(deg: number, from: number, to: number): Column {
  const a = (deg * Math.PI) / 180;
  const at = (r: number): Point => point(-32 + r * Math.cos(a), 57 + r * Math.sin(a));
  return columnAlong([at(from), at(to)], (_, part) => 1.2 + 2.6 * part);
}

function golds(sewing: Sewing, sun: Point[]): void {
  const narrow = { ...SATIN, underlay: ['zigzag'] as const, insetMm: 0.4 };
  const trim = (label: string, path: readonly Point[], width: number): void =>
    sewLoneColumn(sewing, label, columnAlong(path, width), narrow, 'start');
  lay(sewing, 'sun', areaOf(sun), 60);
  sewLoneColumn(sewing, 'sun, rim', columnAlong(arc(SUN, 15, 15, 90, 450), 2.4, true), narrow);
  for (let k = 0; k < 12; k++) {
    const a = (k * Math.PI) / 6;
    const at = (r: number): Point => point(SUN.x + r * Math.cos(a), SUN.y + r * Math.sin(a));
    const ray = columnAlong([at(19), at(k % 2 === 0 ? 28 : 24.5)], (_, part) => 3.2 - 2.2 * part);
    sewLoneColumn(sewing, `sun, ray ${k + 1}`, ray, { ...SATIN, underlay: ['center-run'] }, 'start');
  }
  lay(sewing, 'lamp', areaOf([point(-39, 53), point(-25, 53), point(-25, 63.5), point(-39, 63.5)]), 90);
  for (const deg of [166, 180, 194]) sewLoneColumn(sewing, `beam ${deg}`, beam(deg, 14, 33), narrow, 'start');
  trim('gallery', [point(-45, 52), point(-19, 52)], 3.4);
  trim('gunwale', sheerLine, 3);
  trim('mast', [point(42, 4), point(42, 19)], 2);
  [
    [-104.5, 0],
    [-130.5, 3.1],
  ].forEach(([r, phase], i) => {
    const rope = Array.from({ length: 1441 }, (_, k) => {
      const a = (k * Math.PI) / 720;
      const radius = -r + 0.9 * Math.sin(a * (i === 0 ? 96 : 120) + phase);
      return point(radius * Math.cos(a), radius * Math.sin(a));
    });
    sewLoneRun(sewing, i === 0 ? 'inner rope' : 'outer rope', rope, 2, 'triple');
  });
  const style = { ...BOLD_LETTERING, zigzagMm: 2.6 };
  for (const letter of archedLetters('FENNOCK BAY', weightOf(19, 4.4), 3, 13, MIDDLE, 108.2, true))
    sewLetter(sewing, letter, style);
  for (const letter of archedLetters('SEA RESCUE CREW', weightOf(18, 4.2), 3, 12, MIDDLE, 126.6, false))
    sewLetter(sewing, letter, style);
  for (const side of [-1, 1]) {
    const star = columnAlong(
      [point(side * 117.6, 9 - 8), point(side * 117.6, 9 + 8)],
      (_, part) => 0.9 + 6.6 * Math.sin(Math.PI * part) ** 2,
    );
    sewLoneColumn(sewing, side < 0 ? 'left lozenge' : 'right lozenge', star, narrow, 'start');
  }
  sewLoneColumn(sewing, 'inner border', columnAlong(round(INNER, 90, 450), 4.6, true), BORDER);
  sewLoneColumn(sewing, 'outer border', columnAlong(round(OUTER, 90, 450), 6, true), BORDER);
}
