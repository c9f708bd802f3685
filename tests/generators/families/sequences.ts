import type { UnderlayKind } from '../../../lib/segment/objects.js';
import type { Column } from '../column.js';
import { arc, Curve, rounded, segment } from '../curve.js';
import type { Draft } from '../draft.js';
import { FILL_UNDERLAYS, fillDraft, randomFill } from '../fill.js';
import { sewWord, wordWidth } from '../lettering.js';
import { LOCK_ROOM, lock, randomLocks } from '../locks.js';
import { type Case, type Move, Pen, randomTransform } from '../pen.js';
import { distance, type Region, type Vec, vec } from '../plane.js';
import { Random } from '../random.js';
import { runDraft } from '../run.js';
import { randomSatin, sewColumn, underlaysFor } from '../satin.js';
import { borderOutline, leaf, oval, simpleOutline, star } from '../shapes.js';
import { randomLetters, someWord } from './letterings.js';
import { someLine } from './runs.js';

const BORDER_UNDERLAYS: readonly (readonly UnderlayKind[])[] = [
  [],
  ['center-run'],
  ['edge-run'],
  ['zigzag'],
  ['center-run', 'zigzag'],
  ['edge-run', 'zigzag'],
];

/** A satin ring along a closed line, begun where the needle already is. */
function border(smooth: readonly Vec[], from: Vec | null, width: number, random: Random): Draft {
  let k = from ? 0 : random.int(0, smooth.length - 1);
  if (from)
    for (let i = 1; i < smooth.length; i++) if (distance(smooth[i], from) < distance(smooth[k], from)) k = i;
  const turned = [...smooth.slice(k), ...smooth.slice(0, k)];
  if (random.chance(0.5)) turned.reverse();
  const column: Column = { centre: new Curve(turned, true), half: () => width / 2, lie: { kind: 'across' } };
  const choices = width >= 2.4 ? BORDER_UNDERLAYS : BORDER_UNDERLAYS.slice(0, 2);
  return sewColumn(
    column,
    randomSatin(width, random.pick(choices), random),
    0,
    random,
    `border ${width.toFixed(1)}`,
  ).draft;
}

/** Locks for objects sewn one after another: at cuts only, or everywhere. */
function sewAll(pen: Pen, drafts: Draft[], moves: Move[], random: Random, width = 99): void {
  const spec = randomLocks(random, width);
  const every = random.chance(0.25);
  const [start, end] = [random.chance(0.8), random.chance(0.8)];
  const firsts = drafts.map((d) => d.needles[0]);
  const lasts = drafts.map(last);
  const room = (k: number) => k > 0 && k < drafts.length && distance(lasts[k - 1], firsts[k]) >= LOCK_ROOM;
  drafts.forEach((d, i) => {
    const cutAfter = i === drafts.length - 1 || moves[i + 1] !== 'straight';
    lock(d, {
      ...spec,
      start: start && (moves[i] !== 'straight' || i === 0 || (every && room(i))),
      end: end && (cutAfter || (every && room(i + 1))),
    });
    pen.sew(d, moves[i]);
  });
}

const last = (d: Draft): Vec => d.needles[d.needles.length - 1];

function filled(region: Region, from: Vec | null, random: Random, name: string): Draft {
  for (;;) {
    const d = fillDraft(region, randomFill(random, random.pick(FILL_UNDERLAYS)), from, random, name);
    if (d) return d;
  }
}

/** A filled area and the satin ring round it: same thread, cut, or another colour. */
function bordered(seed: number): Case {
  const random = new Random(seed, 'sequence-border');
  const outline = borderOutline(random);
  const fill = filled(outline.region, null, random, outline.name);
  const move = random.pick(['straight', 'straight', 'trim', 'colour'] as const);
  const width = random.range(1.6, 4.5);
  const ring = border(outline.smooth, move === 'straight' ? last(fill) : null, width, random);
  const pen = new Pen();
  sewAll(pen, [fill, ring], ['straight', move], random, width);
  return pen.finish(
    'sequence-border',
    seed,
    `fill then border, ${move}: ${fill.note} | ${ring.note}`,
    randomTransform(random),
    random,
  );
}

/** A column that runs on as a running stitch, or the other way round, or both, in one thread. */
function turns(seed: number): Case {
  const random = new Random(seed, 'sequence-turns');
  const width = random.range(1.5, 6);
  const length = Math.max(10, width * random.range(2.5, 5));
  const r = length / 0.9;
  const centre = random.chance(0.5)
    ? segment(vec(0, 0), vec(length, 0))
    : new Curve(arc(vec(0, -r), r, Math.PI / 2 + 0.45, Math.PI / 2 - 0.45));
  const column: Column = { centre, half: () => width / 2, lie: { kind: 'across' } };
  const style = randomSatin(width, random.pick(underlaysFor(width, false)), random);
  const { draft, exit } = sewColumn(
    column,
    style,
    0,
    random,
    `column ${width.toFixed(1)}×${length.toFixed(0)}`,
  );
  const tail = (end: 0 | 1, far: number): Vec[] => {
    const l = centre.length;
    const s = end === 0 ? 0 : l;
    const sign = end === 0 ? -1 : 1;
    const a = centre.point(s + sign * 0.5);
    const b = centre.point(s + sign * (far * 0.5));
    const c = centre.beside(s + sign * far, far * random.range(-0.5, 0.5));
    return rounded([a, b, c], 5);
  };
  const stitch = random.range(1.6, 3.2);
  const styleOf = () => (random.chance(0.7) ? 'single' : 'triple') as 'single' | 'triple';
  const before = () =>
    runDraft([...tail(0, random.range(14, 26))].reverse(), styleOf(), stitch, true, 'leads into the column');
  const after = () =>
    runDraft(tail(exit, random.range(14, 26)), styleOf(), stitch, true, 'goes on from the column');
  const form = exit === 0 ? 'run-satin' : random.pick(['satin-run', 'run-satin', 'run-satin-run'] as const);
  const drafts =
    form === 'satin-run'
      ? [draft, after()]
      : form === 'run-satin'
        ? [before(), draft]
        : [before(), draft, after()];
  const pen = new Pen();
  sewAll(
    pen,
    drafts,
    drafts.map(() => 'straight'),
    random,
    width,
  );
  return pen.finish(
    'sequence-turns',
    seed,
    `${form}: ${drafts.map((d) => d.note).join(' | ')}`,
    randomTransform(random),
    random,
  );
}

/** Several objects of all kinds side by side, cut, stopped or in new colours between. */
function mixed(seed: number): Case {
  const random = new Random(seed, 'sequence-mixed');
  const n = random.int(3, 6);
  const drafts: Draft[] = [];
  const moves: Move[] = [];
  let x = 0;
  for (let i = 0; i < n; i++) {
    let d: Draft;
    const what = random.next();
    if (what < 0.4) {
      const width = random.range(1.2, 7);
      const length = Math.max(9, width * 3);
      const column: Column = {
        centre: segment(vec(0, 0), vec(length, 0)),
        half: () => width / 2,
        lie: { kind: 'across' },
      };
      d = sewColumn(
        column,
        randomSatin(width, random.pick(underlaysFor(width, true)), random),
        random.int(0, 1) as 0 | 1,
        random,
        `column ${width.toFixed(1)}`,
      ).draft;
    } else if (what < 0.7)
      d = filled({ outer: oval(random.range(7, 12), random.range(7, 12)), holes: [] }, null, random, 'oval');
    else {
      const line = someLine(random);
      d = runDraft(
        line.points,
        random.pick(['single', 'double', 'triple']),
        random.range(1.6, 3.5),
        line.smooth,
        line.name,
      );
    }
    const low = Math.min(...d.needles.map((p) => p.x));
    const high = Math.max(...d.needles.map((p) => p.x));
    for (const p of d.needles) p.x += x - low;
    x += high - low + random.range(2, 8);
    drafts.push(d);
    const move = i === 0 ? 'straight' : random.pick(['trim', 'trim', 'colour', 'stop', 'jump'] as const);
    // Two runs that are not cut apart could as well be one with a long stitch.
    moves.push(
      (move === 'jump' || move === 'stop') && d.kind === 'run' && drafts[i - 1].kind === 'run'
        ? 'trim'
        : move,
    );
  }
  const pen = new Pen();
  sewAll(pen, drafts, moves, random, 1.2);
  return pen.finish(
    'sequence-mixed',
    seed,
    drafts.map((d, i) => `${moves[i]} ${d.note}`).join(' | '),
    randomTransform(random),
    random,
  );
}

/** Columns side by side, sewn to and fro in one thread, each joined to the next by one stitch. */
function bars(seed: number): Case {
  const random = new Random(seed, 'sequence-bars');
  const width = random.range(1.5, 6);
  const length = Math.max(10, width * random.range(2, 4));
  const gap = random.range(0.6, 4);
  const style = { ...randomSatin(width, random.pick(underlaysFor(width, true)), random), restart: false };
  const drafts: Draft[] = [];
  let end: 0 | 1 = 0;
  for (let i = random.int(2, 5); i > 0; i--) {
    const y = drafts.length * (width + gap + 2 * style.top.comp);
    const centre = segment(vec(0, y), vec(length * random.range(0.8, 1), y));
    const sewn = sewColumn(
      { centre, half: () => width / 2, lie: { kind: 'across' } },
      style,
      end,
      random,
      `bar ${width.toFixed(1)}×${length.toFixed(0)}`,
    );
    drafts.push(sewn.draft);
    end = sewn.exit;
  }
  const pen = new Pen();
  const moves = drafts.map((_, i) => (i > 0 && random.chance(0.25) ? 'trim' : 'straight') as Move);
  sewAll(pen, drafts, moves, random, width);
  return pen.finish(
    'sequence-bars',
    seed,
    `${drafts.length} bars, gap ${gap.toFixed(1)}, ${drafts[0].note}`,
    randomTransform(random),
    random,
  );
}

/** Two filled areas that share an edge, their rows in different directions, in one thread. */
function fields(seed: number): Case {
  const random = new Random(seed, 'sequence-fields');
  const w = random.range(12, 25);
  const h = random.range(12, 30);
  const one = filled(
    { outer: [vec(0, 0), vec(w, 0), vec(w, h), vec(0, h)], holes: [] },
    null,
    random,
    'left field',
  );
  const move = random.pick(['straight', 'straight', 'trim', 'colour'] as const);
  for (;;) {
    const v = w * random.range(0.7, 1.3);
    const outer = [vec(w, 0), vec(w + v, 0), vec(w + v, h), vec(w, h)];
    const two = filled({ outer, holes: [] }, move === 'straight' ? last(one) : null, random, 'right field');
    const d = Math.abs((one.angleDeg as number) - (two.angleDeg as number));
    if (Math.min(d, 180 - d) < 35) continue;
    // A long way across the first field would be seen: such a step is cut.
    const step = distance(last(one), two.needles[0]);
    const pen = new Pen();
    sewAll(pen, [one, two], ['straight', move === 'straight' && step > 6 ? 'trim' : move], random);
    return pen.finish('sequence-fields', seed, `${one.note} | ${two.note}`, randomTransform(random), random);
  }
}

/** A filled area outlined by a running stitch on its edge. */
function outlined(seed: number): Case {
  const random = new Random(seed, 'sequence-outline');
  const { region, name } = simpleOutline(random, 16, 40);
  const fill = filled(region, null, random, name);
  const ring = region.outer;
  const move = random.pick(['straight', 'trim', 'colour'] as const);
  let k = 0;
  for (let i = 1; i < ring.length; i++)
    if (distance(ring[i], last(fill)) < distance(ring[k], last(fill))) k = i;
  const near = move === 'straight' && distance(ring[k], last(fill)) < 5;
  const line = [...ring.slice(k), ...ring.slice(0, k), ring[k]];
  const run = runDraft(
    line,
    random.pick(['single', 'double', 'triple']),
    random.range(1.8, 3.2),
    true,
    'outline',
  );
  const pen = new Pen();
  sewAll(pen, [fill, run], ['straight', near ? 'straight' : move === 'straight' ? 'trim' : move], random);
  return pen.finish('sequence-outline', seed, `${fill.note} | ${run.note}`, randomTransform(random), random);
}

/** A badge: filled ground, lettering on it, emblem, run details, border last; several colours and perhaps a stop. */
function crest(seed: number): Case {
  const random = new Random(seed, 'crest');
  const outline = borderOutline(random, 50, 80);
  const pen = new Pen();
  const ground = filled(outline.region, null, random, outline.name);
  const spec = randomLocks(random, 1.2);
  const locks = { ...spec, start: random.chance(0.85), end: random.chance(0.85) };
  lock(ground, locks);
  pen.sew(ground, 'straight');
  const box = outline.region.outer.reduce(
    (m, p) => ({ x: Math.max(m.x, p.x), y: Math.max(m.y, p.y) }),
    vec(0, 0),
  );
  const plain = randomLetters(random, random.range(7, 12));
  // Tiny stitches stay tiny beside the swings of narrow strokes.
  const letters = {
    ...plain,
    locks: { ...locks, size: Math.min(locks.size, Math.max(0.35, plain.height * plain.weight * 0.5)) },
  };
  let text = someWord(random, 3, 5);
  while (wordWidth(text, letters) > box.x * 1.5) text = text.slice(1);
  sewWord(
    pen,
    text,
    vec(-wordWidth(text, letters) / 2, -box.y * 0.1),
    letters,
    random.pick(['colour', 'colour', 'stop']),
    random,
  );
  const place = (d: Draft, dx: number, dy: number): Draft => {
    for (const p of d.needles) {
      p.x += dx;
      p.y += dy;
    }
    return d;
  };
  if (random.chance(0.7)) {
    const shape = random.pick([star(5, 7, 0.5), oval(5, 5), leaf(16, 8).map((p) => vec(p.x - 8, p.y))]);
    const emblem = filled({ outer: shape, holes: [] }, null, random, 'emblem');
    lock(place(emblem, 0, -box.y * 0.5), locks);
    pen.sew(emblem, 'colour');
  }
  for (let k = random.int(1, 3); k > 0; k--) {
    const y = box.y * 0.62 - k * 1.5;
    const detail = runDraft(
      [vec(-box.x * 0.4, y), vec(-box.x * 0.1, y + 0.8), vec(box.x * 0.1, y + 0.8), vec(box.x * 0.4, y)],
      random.pick(['single', 'double', 'triple']),
      random.range(1.8, 3),
      false,
      'detail',
    );
    lock(detail, locks);
    pen.sew(detail, 'trim');
  }
  const move = random.pick(['colour', 'colour', 'trim', 'stop'] as const);
  const rim = border(outline.smooth, null, random.range(2, 4.5), random);
  lock(rim, locks);
  pen.sew(rim, move);
  return pen.finish(
    'crest',
    seed,
    `${outline.name}, ${text} ${letters.height.toFixed(0)} mm ${letters.order}; border by ${move}`,
    randomTransform(random),
    random,
  );
}

export const SEQUENCE_FAMILIES: Record<string, (seed: number) => Case> = {
  'sequence-border': bordered,
  'sequence-turns': turns,
  'sequence-mixed': mixed,
  'sequence-bars': bars,
  'sequence-fields': fields,
  'sequence-outline': outlined,
  crest,
};
