import { areaOf } from '../stitching/area.js';
import { columnAlong, columnBetween } from '../stitching/column.js';
import { type PlacedLetter, straightLetters } from '../stitching/lettering.js';
import { arc, type Point, point } from '../stitching/plane.js';
import { run } from '../stitching/run.js';
import { type ColumnStyle, entryOf, insideEntry, SATIN, sewColumn, travel } from '../stitching/sew-column.js';
import { FILL, sewFill } from '../stitching/sew-fill.js';
import { Sewing } from '../stitching/sewing.js';
import { Part } from '../stitching/truth.js';
import { weightOf } from './palette.js';

/** Something wrong with the file that the generator put there on purpose. */
export interface Fault {
  readonly fault: string;
  /** Objects concerned, by id. */
  readonly objects: readonly number[];
  /** Penetrations concerned, both ends. */
  readonly stitches: readonly [number, number];
  readonly measured: number;
  readonly unit: string;
}

/** Notes what is sewn by `sew` as one fault. */
function faulty(
  sewing: Sewing,
  faults: Fault[],
  fault: string,
  measured: number,
  unit: string,
  sew: () => void,
): void {
  const first = sewing.stitches;
  const piecesBefore = sewing.pieces;
  sew();
  const objects = Array.from({ length: sewing.pieces - piecesBefore }, (_, i) => piecesBefore + 1 + i);
  faults.push({ fault, objects, stitches: [first, sewing.stitches - 1], measured, unit });
}

/** A letter without locks; the needle is brought there by the caller. */
function letterStrokes(sewing: Sewing, { name, strokes }: PlacedLetter, style: ColumnStyle): void {
  for (const s of strokes) {
    if (s.way.length > 0) travel(sewing, s.way);
    sewColumn(sewing, strokes.length > 1 ? `${name}, ${s.name}` : name, s.column, style, s.exit);
  }
}

const firstPlace = (l: PlacedLetter): Point => entryOf(l.strokes[0].column);

/** Where the needle pounds: sixteen points round a square of a tenth. */
const pile = (at: Point): Point[] =>
  Array.from({ length: 16 }, (_, i) =>
    point(at.x + 0.1 * [0, 1, 1, 0][i % 4], at.y + 0.1 * [0, 0, 1, 1][i % 4]),
  );

/** Middles and radius of three dots in a row, and the open way from one to the next, mm. */
const DOTS = [-34, -8, 18];
const DOT = 4.5;
const GAP = DOTS[1] - DOTS[0] - 2 * DOT;

/** The raft-race banner as it came from outside: what a shop has to catch before it sews. */
export function incoming(): { sewing: Sewing; faults: Fault[] } {
  const sewing = new Sewing(true);
  const faults: Fault[] = [];
  const bare: ColumnStyle = { ...SATIN, pullMm: 0, underlay: [], splitOverMm: Infinity };

  const fat: ColumnStyle = { ...bare, underlay: ['double-zigzag'], insetMm: 0.8, zigzagMm: 2.6 };
  const [r, u, n] = straightLetters('RUN', weightOf(36, 9.2, 8.2), 4, 0, point(0, 4));
  faulty(sewing, faults, 'satin too wide, on double zigzag', 9.2, 'mm', () => {
    sewing.begin(firstPlace(r), insideEntry(r.strokes[0].column));
    letterStrokes(sewing, r, fat);
    sewing.lockBack();
    faulty(sewing, faults, 'thread start and end not locked', 0, 'locks', () => {
      sewing.begin(firstPlace(u), firstPlace(u), false);
      letterStrokes(sewing, u, fat);
    });
    sewing.begin(firstPlace(n), insideEntry(n.strokes[0].column));
    letterStrokes(sewing, n, fat);
    sewing.lockBack();
  });

  sewing.nextColour();
  const wide = columnBetween([point(-34, -5), point(34, -5)], [point(-34, -11.5), point(34, -11.5)]);
  faulty(sewing, faults, 'wide satin without underlay', 6.5, 'mm', () => {
    sewing.begin(entryOf(wide), insideEntry(wide));
    sewColumn(sewing, 'bar', wide, bare);
    sewing.lockBack();
  });
  const hair = [point(-34, -14.5), point(34, -14.5)];
  faulty(sewing, faults, 'satin too narrow', 0.7, 'mm', () => {
    sewing.begin(hair[0], hair[1]);
    sewColumn(sewing, 'hairline', columnAlong(hair, 0.7), bare);
    sewing.lockBack();
  });

  const small = straightLetters('RAFT RACE', weightOf(4, 0.8, 0.7), 0.7, 2.6, point(0, -21));
  faulty(sewing, faults, 'lettering too small', 4, 'mm', () => {
    small.forEach((letter, i) => {
      const at = firstPlace(letter);
      if (i === 0) sewing.begin(at, insideEntry(letter.strokes[0].column));
      else sewing.begin(at, at, false);
      letterStrokes(sewing, letter, { ...bare, underlay: ['center-run'] });
    });
    sewing.lockBack();
  });

  sewing.nextColour();
  const dots = DOTS.map((x) => areaOf(arc(point(x, -31), DOT, DOT, 0, 360).slice(0, -1)));
  faulty(sewing, faults, 'long jumps not trimmed', GAP, 'mm', () => {
    dots.forEach((dot, i) => {
      const at = point(DOTS[i] - DOT + 1, -31);
      if (i === 0) sewing.begin(at, point(DOTS[0], -31));
      else {
        sewing.dragTo(at);
        sewing.stitch(at, Part.travel);
      }
      const dense = { ...FILL, angleDeg: 90, stitchMm: 2.4, underlay: [] };
      if (i < 2) sewFill(sewing, `dot ${i + 1}`, dot, { ...dense, spacingMm: 0.4 });
      else
        faulty(sewing, faults, 'fill too dense', 0.2, 'mm', () =>
          sewFill(sewing, 'dot 3', dot, { ...dense, spacingMm: 0.2, pullMm: 0 }),
        );
    });
    sewing.lockBack();
  });

  const [start, knot, end] = [26, 34, 42].map((x) => point(x, -31));
  sewing.begin(start, knot);
  const piece = sewing.open({
    label: 'line with a knot',
    kind: 'run',
    underlay: [],
    underlaySpacingMm: null,
    widthMm: null,
    spacingMm: null,
    angleDeg: null,
    split: false,
    passes: 'single',
  });
  sewing.sew(run([start, knot], 2.5), Part.top, piece);
  const first = sewing.stitches;
  sewing.sew(pile(knot), Part.top, piece);
  faults.push({
    fault: 'needle points piled on one spot',
    objects: [piece + 1],
    stitches: [first, sewing.stitches - 1],
    measured: 16,
    unit: 'points',
  });
  sewing.sew(run([knot, end], 2.5).slice(1), Part.top, piece);
  sewing.lockBack();
  return { sewing, faults };
}
