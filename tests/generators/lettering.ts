import { type Column, columnTop, place } from './column.js';
import { centreRun, type Pass } from './column-underlay.js';
import { Curve } from './curve.js';
import { type Draft, type Needle, needles } from './draft.js';
import { letterWidth, type Stroke, strokes } from './letters.js';
import { LOCK_ROOM, type LockSpec, lock } from './locks.js';
import type { Move, Pen } from './pen.js';
import { distance, stitchAlong, type Vec } from './plane.js';
import type { Random } from './random.js';
import { type SatinStyle, sewColumn } from './satin.js';

/** How a word is digitized. */
export interface LetterStyle {
  height: number;
  /** Stroke width as a part of the height. */
  weight: number;
  /** Between letters, mm. */
  gap: number;
  satin: SatinStyle;
  locks: LockSpec;
  /** Where tiny stitches go: only where the thread is cut, or at both ends of every stroke. */
  lockEvery: 'cut' | 'stroke';
  order: 'written' | 'reversed' | 'nearest';
  /** E and F sewn arms first, the thread travelling up the stem that is sewn last. */
  armsFirst: boolean;
  /** Chance per stroke that its far end is reached along its own middle and it is sewn back from there. */
  travel: number;
  /** Longest untrimmed step between strokes of a letter, mm. */
  reach: number;
  /** Longest untrimmed step between letters, mm; 0 for always trimmed. */
  letterReach: number;
  /** How far strokes that butt reach into one another, mm. */
  lap: number;
}

interface Planned {
  draft: Draft;
  move: Move;
  /** Objects sewn in the middle of this one, each straight after the needle point it stands by. */
  within: Map<Needle, Draft[]>;
}

function columnOf(stroke: Stroke, t: number, origin: Vec): Column {
  const moved = stroke.line.map((p) => ({ x: p.x + origin.x, y: p.y + origin.y }));
  return { centre: new Curve(moved, stroke.closed), half: () => t / 2, lie: { kind: 'across' } };
}

const ends = (c: Column): [Vec, Vec] => [
  c.centre.point(0),
  c.centre.point(c.centre.closed ? 0 : c.centre.length),
];
const lastOf = (p: Planned): Vec => p.draft.needles[p.draft.needles.length - 1];

/** E or F with its arms first: up the middle of the unsewn stem, out along each arm's middle and back over it, the stem last. */
function armsFirst(columns: Column[], style: LetterStyle, move: Move, random: Random, note: string): Planned {
  const [stem, ...arms] = columns;
  const byHeight = arms
    .map((arm) => ({ arm, y: arm.centre.point(0).y - stem.centre.point(0).y }))
    .sort((a, b) => a.y - b.y);
  const top = columnTop(
    stem,
    style.satin.top,
    true,
    random.sign(),
    random,
    `${note} stem last, arms first; underlay center-run`,
  );
  const travel: Needle[] = needles([place(stem, 0.6, 0)], 'underlay');
  const within = new Map<Needle, Draft[]>();
  for (const { arm, y } of byHeight) {
    const to = place(stem, Math.min(stem.centre.length - 0.5, Math.max(0.8, y)), 0);
    travel.push(...needles(stitchAlong([travel[travel.length - 1], to], 2.4).slice(1), 'underlay'));
    const out = centreRun(arm, 0, 'out', random, 0.5);
    const { draft } = sewColumn(arm, { ...style.satin, underlay: [] }, 0, random, `${note} arm`, [out]);
    within.set(travel[travel.length - 1], [draft]);
  }
  const end = place(stem, stem.centre.length - 0.5, 0);
  if (distance(travel[travel.length - 1], end) > 0.8)
    travel.push(...needles(stitchAlong([travel[travel.length - 1], end], 2.4).slice(1), 'underlay'));
  top.needles.unshift(...travel);
  top.underlay = ['center-run'];
  return { draft: top, move, within };
}

/** Direction in which a column leads out of one of its ends. */
function outward(column: Column, end: 0 | 1): Vec {
  const t = column.centre.tangent(end === 0 ? 0 : column.centre.length);
  return end === 0 ? { x: -t.x, y: -t.y } : t;
}

/** Whether the stroke would carry on where the last one ended with so slight a bend that both look like one column. */
function runsOn(heading: Vec, column: Column, at: Vec): boolean {
  const [e0, e1] = ends(column);
  const into = outward(column, distance(e0, at) <= distance(e1, at) ? 0 : 1);
  return -(heading.x * into.x + heading.y * into.y) > Math.cos(0.9);
}

function planLetter(
  letter: string,
  columns: Column[],
  style: LetterStyle,
  from: Vec | null,
  random: Random,
): Planned[] {
  const note = `${letter} ${style.height.toFixed(0)} high`;
  if (style.armsFirst && 'EF'.includes(letter)) {
    const start = ends(columns[0])[0];
    return [
      armsFirst(
        columns,
        style,
        from && distance(from, start) <= style.letterReach ? 'straight' : 'trim',
        random,
        note,
      ),
    ];
  }
  const left = columns.map((column, index) => ({ column, index }));
  if (style.order === 'reversed') left.reverse();
  const plan: Planned[] = [];
  let at = from;
  let heading: Vec | null = null;
  while (left.length > 0) {
    const far = (c: Column) => (at ? Math.min(...ends(c).map((e) => distance(e, at as Vec))) : Infinity);
    const away = left.map((one) => far(one.column));
    const pick = style.order === 'nearest' && plan.length > 0 ? away.indexOf(Math.min(...away)) : 0;
    const { column, index } = left.splice(pick, 1)[0];
    const [e0, e1] = ends(column);
    const joined =
      far(column) <= (plan.length > 0 ? style.reach : style.letterReach) &&
      !(heading && at && runsOn(heading, column, at));
    const near = (joined && at ? (distance(e0, at) <= distance(e1, at) ? 0 : 1) : random.int(0, 1)) as 0 | 1;
    const before: Pass[] = [];
    if (random.chance(style.travel) && !column.centre.closed)
      before.push(centreRun(column, near, 'out', random, 0.5));
    const { draft, exit } = sewColumn(
      column,
      style.satin,
      near,
      random,
      `${note} stroke ${index + 1}`,
      before,
    );
    heading = outward(column, exit);
    plan.push({ draft, move: joined ? 'straight' : 'trim', within: new Map() });
    at = lastOf(plan[plan.length - 1]);
  }
  return plan;
}

/** Lays a word from `origin` (lower left) to the right; the first move leads to it. */
export function sewWord(
  pen: Pen,
  word: string,
  origin: Vec,
  style: LetterStyle,
  first: Move,
  random: Random,
): void {
  const t = style.height * style.weight;
  let x = origin.x;
  const plan: Planned[] = [];
  for (const letter of word) {
    const w = Math.max(t, style.height * letterWidth(letter));
    const columns = strokes(letter, w, style.height, t, style.lap).map((s) =>
      columnOf(s, t, { x, y: origin.y }),
    );
    plan.push(
      ...planLetter(letter, columns, style, plan.length > 0 ? lastOf(plan[plan.length - 1]) : null, random),
    );
    x += w + style.gap;
  }
  plan[0].move = first;
  const firsts = plan.map((p) => p.draft.needles[0]);
  const lasts = plan.map(lastOf);
  plan.forEach((p, i) => {
    const cutBefore = p.move !== 'straight';
    const cutAfter = i === plan.length - 1 || plan[i + 1].move !== 'straight';
    const every = style.lockEvery === 'stroke';
    const room = (k: number) => k > 0 && k < plan.length && distance(lasts[k - 1], firsts[k]) >= LOCK_ROOM;
    lock(p.draft, {
      ...style.locks,
      start: style.locks.start && (cutBefore || (every && room(i))),
      end: style.locks.end && (cutAfter || (every && room(i + 1))),
    });
    const owner = pen.reserve(p.draft);
    let move = p.move;
    let from = 0;
    p.draft.needles.forEach((n, k) => {
      const inner = p.within.get(n);
      if (!inner) return;
      pen.needles(owner, p.draft.needles.slice(from, k + 1), move);
      move = 'straight';
      from = k + 1;
      for (const d of inner) pen.sew(d, 'straight');
    });
    pen.needles(owner, p.draft.needles.slice(from), move);
  });
}

export function wordWidth(word: string, style: LetterStyle): number {
  const t = style.height * style.weight;
  return [...word].reduce(
    (sum, l) => sum + Math.max(t, style.height * letterWidth(l)) + style.gap,
    -style.gap,
  );
}
