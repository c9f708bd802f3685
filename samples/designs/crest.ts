import { type Area, areaOf, inward } from '../stitching/area.js';
import { columnAlong, columnBetween } from '../stitching/column.js';
import { archedLetters, sewLetter } from '../stitching/lettering.js';
import { arc, curve, distance, mirrored, type Point, point, stepped, wave } from '../stitching/plane.js';
import { entryOf, insideEntry, SATIN, sewColumn, sewLoneColumn } from '../stitching/sew-column.js';
import { FILL, sewLoneFill } from '../stitching/sew-fill.js';
import { sewLoneRun } from '../stitching/sew-run.js';
import { Sewing } from '../stitching/sewing.js';
import { BORDER, SMALL_LETTERING, weightOf } from './palette.js';

/** Half the border's width: the shield's outline is the middle of the border. */
const RIM = 1.8;
const TOP = 45 - RIM;
const SIDE = 39 - RIM;

/** The right-hand side of the shield `out` mm outside the middle of its border, from the top down to the point. */
function sideOf(out: number): Point[] {
  const middle = stepped(
    [point(SIDE, TOP), ...curve(point(SIDE, 8), point(SIDE, -18), point(20, -34), point(0, -45 + RIM))],
    0.5,
  );
  const path: Point[] = [];
  middle.forEach((p, i) => {
    const a = middle[Math.max(0, i - 1)];
    const b = middle[Math.min(middle.length - 1, i + 1)];
    const d = distance(a, b);
    const moved = point(p.x - ((b.y - a.y) / d) * out, p.y + ((b.x - a.x) / d) * out);
    if (moved.x > 0) path.push(moved);
  });
  // Both sides are mitred at the point: their rails end on the middle line.
  const [y, z] = path.slice(-2);
  return [...path, point(0, z.y + ((z.y - y.y) / (z.x - y.x)) * (0 - z.x))];
}

const rightSide = sideOf(0);
const leftSide = mirrored(rightSide);
/** Half the shield's width at a height. */
function halfWidthAt(y: number): number {
  const i = rightSide.findIndex((p) => p.y <= y);
  return i <= 0 ? SIDE : rightSide[i].x;
}

/** Where the sky ends and the sea begins. */
const waterLine = wave(-38, 38, -13, 1.6, 25.5, 0.9);
const water = (x: number): number => -13 + 1.6 * Math.sin((2 * Math.PI * x) / 25.5 + 0.9);

const deck = (x: number): number => -2.4 + 0.0065 * x * x;
const hullTop: Point[] = Array.from({ length: 57 }, (_, i) => point(-27 + i, deck(-27 + i)));
const hull: Point[] = [
  ...curve(point(-27, deck(-27)), point(-26, -8), point(-22, -13), point(-17, -14.5), 24),
  ...curve(point(-17, -14.5), point(0, -16.4), point(12, -16.2), point(19, -14.2), 30).slice(1),
  ...curve(point(19, -14.2), point(25, -10.5), point(27.5, -4), point(29, deck(29)), 24).slice(1, -1),
  ...[...hullTop].reverse(),
];
const cabin: Point[] = [
  point(-13, deck(-13) - 0.6),
  point(9.5, deck(9.5) - 1),
  point(6.2, 10),
  ...curve(point(6.2, 10), point(3, 11.6), point(-7, 11.6), point(-10.6, 10), 20).slice(1),
];
/** Sky and sea stay open under the boat, so that the layers do not pile up; its edges lap over by this much. */
const LAP = 1.1;

/** Outline of the boat drawn in by the lap, counter-clockwise. */
function boatInside(): Point[] {
  const stern = [...hullTop].reverse();
  return inward(
    [
      ...hull.slice(0, 76),
      ...stern.filter((p) => p.x > 9.2),
      ...cabin.slice(2),
      ...stern.filter((p) => p.x < -12.8),
    ],
    LAP,
  );
}

/** The run of ring points above the water, in the ring's own order. */
function aboveWater(ring: readonly Point[]): Point[] {
  const start = ring.findIndex(
    (p, i) =>
      p.y > water(p.x) &&
      ring[(i + ring.length - 1) % ring.length].y <= water(ring[(i + ring.length - 1) % ring.length].x),
  );
  return [...ring.slice(start), ...ring.slice(0, start)].filter((p) => p.y > water(p.x));
}

const sun = arc(point(20, 19), 5.2, 5.2, 0, 360).slice(0, -1);

/** The sky: open where the sun stands, and with a bay where the boat rises out of the water. */
function sky(): Area {
  const bay = aboveWater(boatInside()).reverse();
  const floor = waterLine.filter((p) => Math.abs(p.x) < SIDE - 0.4);
  const outline = [
    ...leftSide.filter((p) => p.y > water(p.x)),
    ...floor.filter((p) => p.x < bay[0].x),
    ...bay,
    ...floor.filter((p) => p.x > bay[bay.length - 1].x),
    ...[...rightSide].reverse().filter((p) => p.y > water(p.x)),
  ];
  return areaOf(outline, [inward(sun, LAP)]);
}

/** The sea laps over the lower edge of the sky; the hull covers its own part of it. */
function sea(): Area {
  const lapped = waterLine
    .map((p) => point(p.x, p.y + LAP))
    .filter((p) => Math.abs(p.x) < halfWidthAt(p.y) - 0.4);
  return areaOf([
    ...leftSide.filter((p) => p.y < water(p.x)),
    ...[...rightSide].reverse().filter((p) => p.y < water(p.x)),
    ...lapped.reverse(),
  ]);
}

/** The crew's crest for the left chest: about 90 mm, five colours, mostly fill. */
export function crest(): Sewing {
  const sewing = new Sewing();
  const field = { ...FILL, stitchMm: 3.1 };
  sewLoneFill(sewing, 'sky', sky(), { ...field, angleDeg: 35 }, point(-SIDE, TOP));
  sewing.nextColour();
  sewLoneFill(sewing, 'sea', sea(), { ...field, angleDeg: 0 }, point(-30, -16));
  sewing.nextColour();
  boat(sewing);
  sewing.nextColour();
  whites(sewing);
  sewing.nextColour();
  golds(sewing);
  return sewing;
}

function boat(sewing: Sewing): void {
  sewLoneFill(
    sewing,
    'hull',
    areaOf(hull),
    { ...FILL, angleDeg: 168, stitchMm: 3, underlayMm: 2.6 },
    point(-26, -3),
  );
  const keel = columnAlong(hull.slice(2, 74), (_, part) => 1.2 + 1.1 * Math.sin(Math.PI * part));
  sewLoneColumn(sewing, 'keel', keel, { ...SATIN, underlay: ['center-run'] }, 'start');
  const pennant = columnBetween([point(-2.2, 23.4), point(7.6, 20.7)], [point(-2.2, 18.2), point(7.6, 20.3)]);
  sewLoneColumn(sewing, 'pennant', pennant, { ...SATIN, underlay: ['center-run'] }, 'start');
}

function whites(sewing: Sewing): void {
  sewLoneFill(
    sewing,
    'cabin',
    areaOf(cabin),
    { ...FILL, angleDeg: 90, stitchMm: 2.8, underlayMm: 2.6 },
    point(-12, -1),
  );
  const [sternWall, bowWall] = [
    [point(-12.8, -2), point(-10.8, 9.6)],
    [point(9.3, -2.6), point(6.4, 9.6)],
  ];
  sewLoneColumn(
    sewing,
    'cabin, stern edge',
    columnAlong(sternWall, 1.3),
    { ...SATIN, underlay: ['center-run'] },
    'start',
  );
  sewLoneColumn(
    sewing,
    'cabin, bow edge',
    columnAlong(bowWall, 1.3),
    { ...SATIN, underlay: ['center-run'] },
    'start',
  );
  const roof = columnAlong(
    cabin.slice(2).filter((p) => p.y > 9.9),
    1.3,
  );
  sewLoneColumn(sewing, 'cabin, roof', roof, { ...SATIN, underlay: ['center-run'] }, 'start');
  const rail = columnAlong(
    [...hullTop].map((p) => point(p.x, p.y - 0.3)),
    1.7,
  );
  sewLoneColumn(
    sewing,
    'gunwale',
    rail,
    { ...SATIN, underlay: ['zigzag'], zigzagMm: 2, insetMm: 0.35 },
    'start',
  );
  const mast = columnAlong([point(-2.6, 11), point(-2.6, 24.4)], 1.3);
  sewLoneColumn(sewing, 'mast', mast, { ...SATIN, underlay: ['center-run'] }, 'start');
  const crests = [
    wave(-30.4, 29.8, -20, 1.3, 17, 0.4),
    wave(-24.6, 25.4, -26.4, 1.3, 15, 2.2),
    wave(-17.5, 17.5, -32.4, 1.2, 13, 0.6),
  ];
  crests.forEach((path, i) => {
    const swell = columnAlong(path, (_, part) => 1.2 + 1.5 * Math.sin(Math.PI * part));
    sewLoneColumn(
      sewing,
      `wave ${i + 1}`,
      swell,
      { ...SATIN, underlay: ['center-run'] },
      i % 2 === 0 ? 'start' : 'end',
    );
  });
  const letters = archedLetters('FENNOCK BAY', weightOf(7, 1.4, 1.25), 1.25, 4.4, point(0, -28), 59, true);
  for (const letter of letters) sewLetter(sewing, letter, SMALL_LETTERING);
}

function golds(sewing: Sewing): void {
  sewLoneFill(
    sewing,
    'sun',
    areaOf(sun),
    { ...FILL, angleDeg: 60, stitchMm: 2.6, underlayMm: 2.4 },
    point(16, 19),
  );
  const rim = columnAlong(arc(point(20, 19), 5.2, 5.2, 90, 450), 1.5, true);
  sewLoneColumn(sewing, 'sun, rim', rim, { ...SATIN, underlay: ['center-run'] });
  const buoy = columnAlong(arc(point(-2.4, 4.6), 3.3, 3.3, 90, 450), 2.1, true);
  sewLoneColumn(sewing, 'lifebuoy', buoy, { ...SATIN, underlay: ['center-run'] });
  const rope = hullTop
    .filter((p) => p.x > -25.5 && p.x < 26.5)
    .map((p, i) => point(p.x, p.y - 4.6 - 0.7 * Math.abs(Math.sin(i / 2.8))));
  sewLoneRun(sewing, 'grab line', rope, 2, 'triple');
  [point(-24, 11), point(-14, 17.5)].forEach((at, i) => {
    const wing = i === 0 ? 2.9 : 2.2;
    const gull = [
      ...arc(point(at.x - wing, at.y), wing, wing * 0.9, 160, 15),
      ...arc(point(at.x + wing, at.y), wing, wing * 0.9, 165, 20),
    ];
    sewLoneRun(sewing, `gull ${i + 1}`, gull, 1.6, 'triple');
  });
  // The border: down the left and up the right without a cut, then the top over both corners.
  const [outer, inner] = [sideOf(-RIM), sideOf(RIM)];
  const left = columnBetween(mirrored(inner), mirrored(outer));
  const right = columnBetween([...inner].reverse(), [...outer].reverse());
  const end = SIDE + RIM + BORDER.pullMm;
  const top = columnAlong([point(end, TOP), point(-end, TOP)], RIM * 2);
  sewing.begin(entryOf(left), insideEntry(left));
  sewColumn(sewing, 'border, left', left, { ...BORDER, underlay: ['edge-run'] });
  sewColumn(sewing, 'border, right', right, { ...BORDER, underlay: ['edge-run'] });
  sewColumn(sewing, 'border, top', top, BORDER);
  sewing.lockBack();
}
