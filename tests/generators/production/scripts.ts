/** Lettering as production files hold it: joined hands, caps, words cut everywhere or nowhere, words on an arc or over a shadow. */
import { type Column, columnTop } from '../column.js';
import { centreRun } from '../column-underlay.js';
import { Curve, path, segment } from '../curve.js';
import { needles } from '../draft.js';
import type { Case, Move } from '../pen.js';
import { distance, radians, turned, type Vec, vec } from '../plane.js';
import { layUnderlay, type SatinStyle, sewColumn } from '../satin.js';
import { clearUnderlays, nearerEnd, plainStyle } from './ahead.js';
import { area, knockdown } from './areas.js';
import { across } from './columns.js';
import { boxOf } from './grounds.js';
import { Job, someLocks } from './job.js';
import { foamDraft } from './passes.js';
import { clearWord, inOrder, someWordStyle, type Word, wordIn } from './words.js';

/** One column that writes a whole word of loops, thick downward and thin upward. */
function looped(seed: number): Case {
  const job = new Job('script-looped', seed);
  const { random } = job;
  const h = random.range(14, 26);
  const n = random.int(2, 4);
  const pace = h * random.range(0.32, 0.45);
  const centre = new Curve(
    path(
      (a) => vec((pace * a) / (2 * Math.PI) - h * 0.32 * Math.sin(a), (-h / 2) * Math.cos(a)),
      0,
      2 * Math.PI * n,
      h * 3.2 * n,
    ),
  );
  const thick = Math.min(random.range(2.2, 3.6), 1.5 / centre.maxCurvature());
  const thin = thick * random.range(0.5, 0.75);
  const half = (s: number) =>
    (thin + (thick - thin) * Math.max(0, -centre.tangent(Math.max(0, Math.min(centre.length, s))).y)) / 2;
  const style = plainStyle(job, thick, random.chance(0.6) ? ['center-run'] : []);
  job.locks = someLocks(random, thin);
  job.sew(
    sewColumn(across(centre, half), style, 0, random, `${n} loops ${thin.toFixed(1)} to ${thick.toFixed(1)}`)
      .draft,
  );
  return job.finish('a looped hand in one column');
}

/** A pointed hand: thin strokes up, thick strokes down, all in one thread. */
function pointedHand(seed: number): Case {
  const job = new Job('script-pointed', seed, 4);
  const { random } = job;
  const h = random.range(10, 20);
  const [thin, thick] = [random.range(1.2, 1.6), random.range(2.2, 3.6)];
  job.locks = someLocks(random, thin);
  const lean = h * random.range(0.1, 0.25);
  const wide = h * random.range(0.35, 0.5);
  const own = random.pick([[], ['center-run']] as const);
  let x = 0;
  for (let k = random.int(3, 6); k > 0; k--) {
    const foot = vec(x, 0);
    const head = vec(x + wide, h);
    const next = vec(x + wide - lean + thick * 0.5, 0);
    const thinStyle = plainStyle(job, thin, []);
    job.sew(
      sewColumn(
        across(segment(foot, head), () => thin / 2),
        thinStyle,
        0,
        random,
        'up',
      ).draft,
    );
    const style = { ...plainStyle(job, thick, own), thereAndBack: true };
    job.sew(
      sewColumn(
        across(segment(head, next), () => thick / 2),
        style,
        0,
        random,
        'down',
      ).draft,
    );
    x = next.x + 0.3;
  }
  return job.finish(`a pointed hand ${h.toFixed(0)} mm`);
}

interface Sewing {
  family: string;
  low: number;
  high: number;
  letters: readonly [number, number];
  reach: number;
  order: 'written' | 'backward' | 'centre-out';
  /** How the thread gets to a column that is not where it ends. */
  far: Move;
  /** Cut even where one column ends at the next. */
  always?: boolean;
  upward?: boolean;
  bend?: number;
}

/** Letters bent onto a circle, over its top or under its foot, each letter left straight. */
function onArc(word: Word, radius: number): Column[][] {
  const middle = (word.low.x + word.high.x) / 2;
  return word.letters.map((letter) => {
    const xs = letter.flatMap((c) => c.centre.points().map((p) => p.x));
    const at = (Math.min(...xs) + Math.max(...xs)) / 2;
    const angle = -(at - middle) / radius;
    const place = (p: Vec) => {
      const q = turned(vec(p.x - at, p.y + radius), angle);
      return vec(q.x, q.y - radius);
    };
    return letter.map((c) => ({ ...c, centre: new Curve(c.centre.points().map(place), c.centre.closed) }));
  });
}

const lowest = (c: Column): 0 | 1 => (c.centre.point(0).y <= c.centre.point(c.centre.length).y ? 0 : 1);
const low = (c: Column): number => Math.min(...c.centre.points().map((p) => p.y));

/** A word of columns with underlay of their own, sewn as `how` says. */
function word(how: Sewing, seed: number): Case {
  const job = new Job(how.family, seed, how.reach);
  const { random } = job;
  const style = someWordStyle(random, how.low, how.high);
  const laid = wordIn(job, clearWord(random, ...how.letters), style);
  const letters = how.bend
    ? onArc(laid, how.bend * (laid.high.x - laid.low.x) * random.range(0.6, 1))
    : laid.letters;
  const satin = plainStyle(job, laid.stroke, random.pick(clearUnderlays(laid.stroke)));
  for (const l of inOrder(letters.length, how.order)) {
    const columns = how.upward ? [...letters[l]].sort((a, b) => low(a) - low(b)) : letters[l];
    columns.forEach((c, i) => {
      const from = how.upward ? lowest(c) : nearerEnd(c, job.at);
      const { draft } = sewColumn(c, satin, from, random, `letter ${l + 1} stroke ${i + 1}`);
      const near = job.at !== null && distance(job.at, draft.needles[0]) <= how.reach && !how.always;
      job.sew(draft, !job.at ? null : near ? 'straight' : how.far);
    });
  }
  return job.finish(`${laid.text} ${style.height.toFixed(0)} mm, ${how.order}, ${how.far} between`);
}

const CAP: Sewing = {
  family: 'cap-word',
  low: 12,
  high: 30,
  letters: [3, 6],
  reach: 3,
  order: 'centre-out',
  far: 'trim',
  upward: true,
};

/** Each stroke reached along its own middle, and ways back over what is sewn. */
function runsInside(seed: number): Case {
  const job = new Job('letters-run-inside', seed, 3.5);
  const { random } = job;
  const style = someWordStyle(random, 8, 18);
  const laid = wordIn(job, clearWord(random, 3, 5), style);
  const satin = plainStyle(job, laid.stroke, []);
  for (const letter of laid.letters) {
    letter.forEach((c, i) => {
      const from = nearerEnd(c, job.at);
      const out = centreRun(c, from, 'out', random, 0.5);
      const { draft } = sewColumn(c, satin, from, random, `stroke ${i + 1}`, [out]);
      const way = job.at && i > 0 ? distance(job.at, draft.needles[0]) : Infinity;
      if (way < 8 && way > job.reach) job.travel(draft.needles[0], 2);
      job.sew(draft, job.at ? (way < 8 ? 'straight' : 'trim') : null);
    });
  }
  return job.finish(`${laid.text} ${style.height.toFixed(0)} mm, runs within letters`);
}

/** Letters of 4 to 5 mm, a center run under each stroke, no cut within the word. */
function fiveMm(seed: number): Case {
  const job = new Job('letters-five-mm', seed, 4);
  const { random } = job;
  const style = { height: random.range(4, 5.2), weight: random.range(0.2, 0.24), gap: 0.18 };
  const laid = wordIn(job, clearWord(random, 4, 9), style);
  const satin = plainStyle(job, laid.stroke, []);
  satin.top = { ...satin.top, spacing: random.range(0.34, 0.42), comp: random.range(0.05, 0.12) };
  for (const c of laid.letters.flat()) {
    const from = nearerEnd(c, job.at);
    const out = centreRun(c, from, random.chance(0.5) ? 'out' : 'there-and-back', random, 0.4);
    const { draft } = sewColumn(c, satin, from, random, 'stroke', [out]);
    // What the raster makes of fewer swings is no measure.
    const few = draft.needles.filter((p) => p.rail).length < 10;
    job.sew(few ? { ...draft, open: { width: true, spacing: true, angle: true } } : draft);
  }
  return job.finish(`${laid.text} ${style.height.toFixed(1)} mm`);
}

/** Tops of columns with underlay of their own, cut where the way is far. */
function sewWord(
  job: Job,
  columns: readonly Column[],
  style: SatinStyle,
  first: Move | null,
  note: string,
): void {
  columns.forEach((c, i) => {
    const { draft } = sewColumn(c, style, nearerEnd(c, i > 0 ? job.at : null), job.random, note);
    job.sew(draft, i === 0 ? first : null);
  });
}

const shifted = (columns: readonly Column[], by: Vec): Column[] =>
  columns.map((c) => ({
    ...c,
    centre: new Curve(
      c.centre.points().map((p) => vec(p.x + by.x, p.y + by.y)),
      c.centre.closed,
    ),
  }));

/** A word in one color and its shadow in another, most of which it covers. */
function shadow(seed: number): Case {
  const job = new Job('word-over-shadow', seed);
  const { random } = job;
  const style = someWordStyle(random, 10, 22);
  const laid = wordIn(job, clearWord(random, 3, 5), style);
  const columns = laid.letters.flat();
  const by = vec(random.sign() * random.range(0.8, 1.6), -random.range(0.8, 1.6));
  const choices = [[], ...clearUnderlays(laid.stroke)] as const;
  sewWord(job, shifted(columns, by), plainStyle(job, laid.stroke, random.pick(choices)), null, 'shadow');
  sewWord(job, columns, plainStyle(job, laid.stroke, random.pick(choices)), 'colour', 'word');
  return job.finish(`${laid.text} ${style.height.toFixed(0)} mm over its shadow`);
}

/** Straight letters over foam. */
function foamWord(seed: number): Case {
  const job = new Job('word-over-foam', seed, 0);
  const { random } = job;
  const style = { height: random.range(22, 40), weight: random.range(0.17, 0.22), gap: 0.25 };
  const text = Array.from({ length: random.int(2, 4) }, () => random.pick([...'HILTNAV'])).join('');
  const laid = wordIn(job, text, style);
  const spacing = random.range(0.16, 0.22);
  for (const c of laid.letters.flat()) job.sew(foamDraft(job, c, laid.stroke, spacing, 'stroke'));
  return job.finish(`${text} ${style.height.toFixed(0)} mm over foam`);
}

/** A loose fill in one color, a word in the next, an emblem in a third. */
function onKnockdown(seed: number): Case {
  const job = new Job('knockdown-under-design', seed);
  const { random } = job;
  const style = someWordStyle(random, 10, 20);
  const laid = wordIn(job, clearWord(random, 3, 5), style);
  const r = random.range(7, 11);
  const box = boxOf({ ...laid, low: vec(laid.low.x, -2 * r - 3) }, random.range(2, 4));
  job.sew(knockdown(job, box));
  const satin = plainStyle(job, laid.stroke, random.pick(clearUnderlays(laid.stroke)));
  sewWord(job, laid.letters.flat(), satin, 'colour', 'stroke');
  const middle = vec(laid.high.x / 2, -r - 2);
  const ring = Array.from({ length: 48 }, (_, k) => {
    const a = (k * Math.PI) / 24;
    return vec(middle.x + r * Math.cos(a), middle.y + r * Math.sin(a));
  });
  job.sew(area(job, { outer: ring, holes: [] }, 'emblem', { rows: random.range(0.36, 0.5) }), 'colour');
  return job.finish(`${laid.text} and an emblem on a loose fill of another color`);
}

/** Big letters within a ring, all in one color. */
function monogram(seed: number): Case {
  const job = new Job('monogram', seed);
  const { random } = job;
  const style = { height: random.range(22, 36), weight: random.range(0.14, 0.19), gap: 0.16 };
  const laid = wordIn(job, clearWord(random, 2, 3), style);
  const satin = plainStyle(
    job,
    laid.stroke,
    random.pick([['edge-run'], ['edge-run', 'zigzag'], ['center-run', 'zigzag']] as const),
  );
  sewWord(job, laid.letters.flat(), satin, null, 'stroke');
  const r = Math.hypot(laid.high.x, laid.high.y) / 2 + 4;
  const turn = radians(random.range(0, 360));
  const centre = new Curve(
    path(
      (a) => vec(laid.high.x / 2 + r * Math.cos(a), laid.high.y / 2 + r * Math.sin(a)),
      turn,
      turn + 2 * Math.PI,
      7 * r,
    ).slice(0, -1),
    true,
  );
  const width = random.range(2.4, 4);
  const ring = across(centre, () => width / 2);
  const under = plainStyle(job, width, random.pick(clearUnderlays(width)));
  const passes = layUnderlay(ring, under, 0, random);
  const top = columnTop(ring, under.top, false, 1, random, `ring ${width.toFixed(1)}`);
  job.sew(
    {
      ...top,
      underlay: passes.map((p) => p.kind),
      needles: [...passes.flatMap((p) => needles(p.points, 'underlay')), ...top.needles],
    },
    random.pick(['trim', 'colour'] as const),
  );
  return job.finish(`${laid.text} ${style.height.toFixed(0)} mm in a ring`);
}

export const SCRIPT_FAMILIES: Record<string, (seed: number) => Case> = {
  'script-looped': looped,
  'script-pointed': pointedHand,
  'cap-word': (seed) => word(CAP, seed),
  'word-jumps': (seed) =>
    word({ ...CAP, family: 'word-jumps', order: 'written', far: 'jump', upward: false }, seed),
  'word-cut-everywhere': (seed) =>
    word({ ...CAP, family: 'word-cut-everywhere', order: 'written', always: true, upward: false }, seed),
  'word-on-arc': (seed) =>
    word(
      {
        ...CAP,
        family: 'word-on-arc',
        low: 8,
        high: 16,
        letters: [4, 8],
        order: 'written',
        upward: false,
        bend: 1,
      },
      seed,
    ),
  'letters-run-inside': runsInside,
  'letters-five-mm': fiveMm,
  'word-over-shadow': shadow,
  'word-over-foam': foamWord,
  'knockdown-under-design': onKnockdown,
  monogram,
};
