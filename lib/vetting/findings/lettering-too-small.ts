import type { Stitches } from '../../format/stitches.js';
import type { Bounds, ObjectMeasures } from '../../measure/measures.js';
import type { Finder } from '../context.js';
import { judge, mildest } from '../limits.js';
import { placeOf } from '../place-of.js';
import { counted, inWords } from '../words.js';

/** A group of satin strokes is looked at as lettering up to this many times the limit in height. */
const TALLEST = 3;
/** The strokes of a letter are at most this much of its height wide. */
const STROKE_SHARE = 0.4;
/** Letters of one line stand no further apart than this many times their height. */
const GAP_SHARE = 1.5;
/** Fewer strokes than this are no lettering. */
const FEWEST_STROKES = 3;
/** From this many letters on a line's slope is taken from where they stand. */
const SLOPED_FROM = 3;

/** Objects of one group, all satin: a letter, or a word of joined letters. */
interface Letter {
  members: ObjectMeasures[];
  box: Bounds;
}

/** Lines of satin lettering whose capitals are so small that they close up: one finding a line. */
export const letteringTooSmall: Finder = ({ stitches, objects, limits }) => {
  const limit = limits['lettering-too-small'];
  const tallest = TALLEST * mildest(limit);
  return linesOf(lettersOf(objects, tallest)).flatMap((line) => {
    const strokes = line.reduce((sum, letter) => sum + letter.members.length, 0);
    if (strokes < FEWEST_STROKES) return [];
    const capMm = capHeight(stitches, line);
    const verdict = judge(limit, capMm);
    if (!verdict) return [];
    const { object } = line[0].members[0];
    return {
      code: 'lettering-too-small',
      ...verdict,
      object: object.id,
      ...placeOf(stitches, object.range[0]),
      measured: capMm,
      unit: 'mm',
      message: `Satin lettering only ${inWords(capMm)} high (${counted(line.length, 'letter', 'letters')}): its openings close up. Make it larger, or sew it with a thinner thread and a 65/9 needle.`,
      basis: limit.basis,
    };
  });
};

/** The groups that may be letters, in sewing order; null stands between two that something else parts. */
function lettersOf(objects: readonly ObjectMeasures[], tallest: number): (Letter | null)[] {
  const letters: (Letter | null)[] = [];
  for (let o = 0; o < objects.length; ) {
    const { group } = objects[o].object;
    const members: ObjectMeasures[] = [];
    for (; o < objects.length && objects[o].object.group === group; o++) members.push(objects[o]);
    const box = members.map((m) => m.bounds).reduce(union);
    const height = Math.min(box.maxX - box.minX, box.maxY - box.minY);
    const satin = members.every((m) => m.object.kind === 'satin');
    letters.push(satin && height <= tallest ? { members, box } : null);
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
  const height = Math.max(extent(a.box), extent(b.box));
  return Math.hypot(gapX, gapY) <= GAP_SHARE * height;
}

/** The larger side of a box. */
const extent = (box: Bounds): number => Math.max(box.maxX - box.minX, box.maxY - box.minY);

/**
 * Height of the tallest letter, at right angles to the line of writing; infinite where the strokes are so wide
 * that these are no letters.
 */
function capHeight({ x, y }: Stitches, line: readonly Letter[]): number {
  const [nx, ny] = upOf(line);
  let cap = 0;
  let stroke = 0;
  for (const letter of line) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const { object, widthMm } of letter.members) {
      for (let k = object.range[0]; k <= object.range[1]; k++) {
        const v = x[k] * nx + y[k] * ny;
        if (v < low) low = v;
        if (v > high) high = v;
      }
      stroke = Math.max(stroke, widthMm?.median ?? 0);
    }
    cap = Math.max(cap, high - low);
  }
  return stroke <= STROKE_SHARE * cap ? cap : Number.POSITIVE_INFINITY;
}

/** Unit vector at right angles to the line of writing. */
function upOf(line: readonly Letter[]): [number, number] {
  if (line.length < SLOPED_FROM) return [0, 1];
  const a = middle(line[0].box);
  const b = middle(line[line.length - 1].box);
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return length > 0 ? [-(b[1] - a[1]) / length, (b[0] - a[0]) / length] : [0, 1];
}

const middle = (box: Bounds): [number, number] => [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];

const union = (a: Bounds, b: Bounds): Bounds => ({
  minX: Math.min(a.minX, b.minX),
  minY: Math.min(a.minY, b.minY),
  maxX: Math.max(a.maxX, b.maxX),
  maxY: Math.max(a.maxY, b.maxY),
});
