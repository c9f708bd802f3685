import { type Bounds, middleOf, union } from '../core/bounds.js';
import type { Stitches } from '../format/stitches.js';
import type { ObjectMeasures } from '../measure/measures.js';
import { type Limit, mildestEdge } from './limits.js';

/** A group of satin strokes is looked at as a letter up to this many times the limit in size. */
const TALLEST = 2;
/** The strokes of a letter are at most this much of its height wide. */
const STROKE_SHARE = 0.4;
/** Letters of one line stand no further apart than this many times their size. */
const GAP_SHARE = 1.5;
/** Fewer strokes than this are no lettering. */
const FEWEST_STROKES = 3;
/** From this many letters on a line's slope is taken from where they stand. */
const SLOPED_FROM = 3;

/** Objects of one group, all satin: a letter, or a word of joined letters. */
interface Letter {
  members: ObjectMeasures[];
  box: Bounds;
  /** The larger side of its box; of a word of joined letters the smaller. */
  size: number;
}

/** A line of satin lettering. */
export interface LetteringLine {
  /** Its strokes, in sewing order. */
  strokes: ObjectMeasures[];
  letters: number;
  /** Height of its tallest letter, mm. */
  capMm: number;
  /** Median width of its widest stroke, mm. */
  strokeMm: number;
}

/** Lines of satin lettering not much larger than the limit, in sewing order. */
export function findLines(
  stitches: Stitches,
  objects: readonly ObjectMeasures[],
  limit: Limit,
): LetteringLine[] {
  const tallest = TALLEST * mildestEdge(limit);
  return linesOf(lettersOf(objects, tallest)).flatMap((letters) => {
    const strokes = letters.flatMap((letter) => letter.members);
    const strokeMm = strokes.reduce((most, { widthMm }) => Math.max(most, widthMm?.median ?? 0), 0);
    const capMm = capHeight(stitches, letters);
    if (strokes.length < FEWEST_STROKES || strokeMm > STROKE_SHARE * capMm) return [];
    return { strokes, letters: letters.length, capMm, strokeMm };
  });
}

/** The groups that may be letters, in sewing order; null stands between two that something else parts. */
function lettersOf(objects: readonly ObjectMeasures[], tallest: number): (Letter | null)[] {
  const letters: (Letter | null)[] = [];
  for (let o = 0; o < objects.length; ) {
    const { group } = objects[o].object;
    const members: ObjectMeasures[] = [];
    for (; o < objects.length && objects[o].object.group === group; o++) members.push(objects[o]);
    const box = members.map((m) => m.bounds).reduce(union);
    const [small, large] = [box.maxX - box.minX, box.maxY - box.minY].sort((a, b) => a - b);
    const size = large > tallest && members.length >= FEWEST_STROKES ? small : large;
    const satin = members.every((m) => m.object.kind === 'satin');
    letters.push(satin && size <= tallest ? { members, box, size } : null);
  }
  return letters;
}

/** Letters of one colour that follow each other closely. */
function linesOf(letters: readonly (Letter | null)[]): Letter[][] {
  const lines: Letter[][] = [];
  let previous: Letter | null = null;
  for (const letter of letters) {
    if (letter) {
      if (previous && isNext(previous, letter)) lines.at(-1)?.push(letter);
      else lines.push([letter]);
    }
    previous = letter;
  }
  return lines;
}

function isNext(a: Letter, b: Letter): boolean {
  if (a.members[0].object.block !== b.members[0].object.block) return false;
  const gapX = Math.max(0, b.box.minX - a.box.maxX, a.box.minX - b.box.maxX);
  const gapY = Math.max(0, b.box.minY - a.box.maxY, a.box.minY - b.box.maxY);
  return Math.hypot(gapX, gapY) <= GAP_SHARE * Math.max(a.size, b.size);
}

/** Height of the tallest letter, at right angles to the line of writing. */
function capHeight({ x, y }: Stitches, line: readonly Letter[]): number {
  const [nx, ny] = upOf(line);
  let cap = 0;
  for (const letter of line) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const { object } of letter.members) {
      for (let k = object.range[0]; k <= object.range[1]; k++) {
        const v = x[k] * nx + y[k] * ny;
        if (v < low) low = v;
        if (v > high) high = v;
      }
    }
    cap = Math.max(cap, high - low);
  }
  return cap;
}

/** Unit vector at right angles to the line of writing. */
function upOf(line: readonly Letter[]): [number, number] {
  if (line.length < SLOPED_FROM) return [0, 1];
  const a = middleOf(line[0].box);
  const b = middleOf(line[line.length - 1].box);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  return length > 0 ? [-(b.y - a.y) / length, (b.x - a.x) / length] : [0, 1];
}
