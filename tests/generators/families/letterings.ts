import type { UnderlayKind } from '../../../lib/segment/objects.js';
import { type LetterStyle, sewWord } from '../lettering.js';
import { LETTERS } from '../letters.js';
import { randomLocks } from '../locks.js';
import { type Case, Pen, randomTransform } from '../pen.js';
import { vec } from '../plane.js';
import { Random } from '../random.js';
import { randomSatin, underlaysFor } from '../satin.js';

export function randomLetters(
  random: Random,
  height: number,
  underlay?: readonly UnderlayKind[],
): LetterStyle {
  const weight = random.range(0.13, 0.2);
  const t = height * weight;
  const choices = underlaysFor(t, false);
  const satin = { ...randomSatin(t, underlay ?? random.pick(choices), random), restart: false };
  const locks = randomLocks(random, t);
  return {
    height,
    weight,
    gap: height * random.range(0.1, 0.22) + 0.4,
    satin,
    locks: { ...locks, start: random.chance(0.8), end: random.chance(0.8) },
    lockEvery: random.chance(0.25) ? 'stroke' : 'cut',
    order: random.pick(['written', 'nearest', 'nearest', 'reversed']),
    armsFirst: random.chance(0.25),
    travel: random.chance(0.5) ? random.range(0.3, 1) : 0,
    reach: Math.min(7, Math.max(2.5, t * 1.3)),
    letterReach: random.chance(0.35) ? 5 : 0,
    lap: Math.min(0.4, t * 0.15),
  };
}

const describe = (s: LetterStyle): string =>
  `${s.height.toFixed(0)} mm, stroke ${(s.height * s.weight).toFixed(2)}, ${s.order}${s.armsFirst ? ' arms first' : ''}, travel ${s.travel.toFixed(1)}, locks ${s.locks.style} ${s.lockEvery}${s.letterReach ? ', letters joined' : ''}; underlay ${s.satin.underlay.join('+') || 'none'}`;

function word(
  family: string,
  seed: number,
  text: string,
  height: (r: Random) => number,
  underlay?: readonly UnderlayKind[],
): Case {
  const random = new Random(seed, family);
  const style = randomLetters(random, height(random), underlay);
  const pen = new Pen();
  sewWord(pen, text, vec(0, 0), style, 'straight', random);
  return pen.finish(family, seed, `${text} ${describe(style)}`, randomTransform(random), random);
}

/** Made-up words, so that every pair of letters has its turn. */
export function someWord(random: Random, low: number, high: number): string {
  const n = random.int(low, high);
  return Array.from({ length: n }, () => LETTERS[random.int(0, 25)]).join('');
}

export const LETTER_FAMILIES: Record<string, (seed: number) => Case> = {
  'letters-single': (seed) =>
    word('letters-single', seed, LETTERS[seed % 26], (r) => 6 * (40 / 6) ** r.next()),
  'letters-word': (seed) =>
    word('letters-word', seed, someWord(new Random(seed, 'word'), 3, 6), (r) => 6 * 4 ** r.next()),
  'letters-light-fill': (seed) =>
    word(
      'letters-light-fill',
      seed,
      LETTERS.replace(/[BCDGJOPQRSU]/g, '')[seed % 14],
      (r) => r.range(40, 48),
      ['fill'],
    ),
};
