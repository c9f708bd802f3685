import type { Column } from '../column.js';
import { Curve } from '../curve.js';
import { letterWidth, strokes } from '../letters.js';
import type { Vec } from '../plane.js';
import { vec } from '../plane.js';
import type { Random } from '../random.js';
import { type Job, someLocks } from './job.js';

/** Letters that are sewn as columns, and the box about them. */
export interface Word {
  text: string;
  height: number;
  stroke: number;
  /** The columns of each letter. */
  letters: Column[][];
  low: Vec;
  high: Vec;
}

export interface WordStyle {
  height: number;
  /** Width of a stroke as a part of the height. */
  weight: number;
  /** Between letters as a part of the height. */
  gap: number;
}

export const someWordStyle = (random: Random, low: number, high: number): WordStyle => ({
  height: random.range(low, high),
  weight: random.range(0.15, 0.22),
  gap: random.range(0.12, 0.22),
});

/** A word in block letters from its lower left corner. */
export function layWord(text: string, style: WordStyle, at: Vec = vec(0, 0)): Word {
  const t = style.height * style.weight;
  let x = at.x;
  const letters = [...text].map((letter) => {
    const w = Math.max(t, style.height * letterWidth(letter));
    const columns = strokes(letter, w, style.height, t, Math.min(0.4, t * 0.15)).map(
      (s): Column => ({
        centre: new Curve(
          s.line.map((p) => vec(p.x + x, p.y + at.y)),
          s.closed,
        ),
        half: () => t / 2,
        lie: { kind: 'across' },
      }),
    );
    x += w + Math.max(0.8, style.height * style.gap);
    return columns;
  });
  return {
    text,
    height: style.height,
    stroke: t,
    letters,
    low: at,
    high: vec(x - Math.max(0.8, style.height * style.gap), at.y + style.height),
  };
}

/** A word laid for a job, with locks as fit its strokes. */
export function wordIn(job: Job, text: string, style: WordStyle): Word {
  const laid = layWord(text, style);
  job.locks = someLocks(job.random, laid.stroke);
  job.pen.capMm = style.height;
  return laid;
}

/** Letters without tight bends or butting arms that would be told apart in more than one way. */
const CLEAR = 'ACHILMNOTUVWXZ';

export const clearWord = (random: Random, low: number, high: number): string =>
  Array.from({ length: random.int(low, high) }, () => CLEAR[random.int(0, CLEAR.length - 1)]).join('');

/** Numbers from 0 to `count` − 1 as they are sewn: as written, backward, or from the middle to both sides. */
export function inOrder(count: number, order: 'written' | 'backward' | 'centre-out'): number[] {
  const all = Array.from({ length: count }, (_, i) => i);
  if (order === 'backward') return all.reverse();
  if (order === 'written') return all;
  const mid = (count - 1) / 2;
  // Everything to the right of the middle, then everything to the left of it, each outward.
  return [...all.filter((i) => i >= mid), ...all.filter((i) => i < mid).reverse()];
}
