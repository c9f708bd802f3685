import { columnMoved } from './column.js';
import { type Letter, letter, type Stroke, type Weight } from './letters.js';
import { type Placing, type Point, placed } from './plane.js';
import { type ColumnStyle, entryOf, insideEntry, sewColumn, travel } from './sew-column.js';
import type { Sewing } from './sewing.js';

export interface PlacedLetter {
  readonly name: string;
  readonly strokes: readonly Stroke[];
}

function put(name: string, drawn: Letter, placing: Placing): PlacedLetter {
  const move = (p: Point): Point => placed({ x: p.x - drawn.width / 2, y: p.y }, placing);
  return {
    name,
    strokes: drawn.strokes.map((s) => ({ ...s, column: columnMoved(s.column, move), way: s.way.map(move) })),
  };
}

/** Letters with the places of their middles along the base line, the whole centred on 0; `gap` mm between letters, `word` between words. */
function spaced(
  text: string,
  weight: Weight,
  gap: number,
  word: number,
): { name: string; drawn: Letter; middle: number }[] {
  let x = 0;
  const out: { name: string; drawn: Letter; middle: number }[] = [];
  for (const character of text) {
    if (character === ' ') {
      x += word - gap;
      continue;
    }
    const drawn = letter(character, weight);
    out.push({ name: character, drawn, middle: x + drawn.width / 2 });
    x += drawn.width + gap;
  }
  const whole = x - gap;
  return out.map((l) => ({ ...l, middle: l.middle - whole / 2 }));
}

/** Letters on a straight base line, centred on `at`. */
export function straightLetters(
  text: string,
  weight: Weight,
  gap: number,
  word: number,
  at: Point,
): PlacedLetter[] {
  return spaced(text, weight, gap, word).map(({ name, drawn, middle }) =>
    put(name, drawn, { at: { x: at.x + middle, y: at.y }, turnDeg: 0 }),
  );
}

/** Letters whose base line is a circle about `centre`: heads outward at its top (`upper`), heads inward at its bottom. */
export function archedLetters(
  text: string,
  weight: Weight,
  gap: number,
  word: number,
  centre: Point,
  radius: number,
  upper: boolean,
): PlacedLetter[] {
  return spaced(text, weight, gap, word).map(({ name, drawn, middle }) => {
    const turn = upper ? -middle / radius : middle / radius;
    const along = (upper ? Math.PI / 2 : -Math.PI / 2) + turn;
    return put(name, drawn, {
      at: { x: centre.x + radius * Math.cos(along), y: centre.y + radius * Math.sin(along) },
      turnDeg: (turn * 180) / Math.PI,
    });
  });
}

/** One letter with one thread: locked, its strokes joined by hidden travel, locked again. */
export function sewLetter(sewing: Sewing, placedLetter: PlacedLetter, style: ColumnStyle): void {
  const { name, strokes } = placedLetter;
  const first = strokes[0].column;
  sewing.begin(entryOf(first), insideEntry(first));
  strokes.forEach((s, i) => {
    if (i > 0 && s.way.length > 0) travel(sewing, s.way);
    sewColumn(sewing, strokes.length > 1 ? `${name}, ${s.name}` : name, s.column, style, s.exit);
  });
  sewing.lockBack();
}
