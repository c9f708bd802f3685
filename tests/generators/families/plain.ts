import type { UnderlayKind } from '../../../lib/segment/objects.js';
import type { Column } from '../column.js';
import { segment } from '../curve.js';
import type { Draft } from '../draft.js';
import { FILL_UNDERLAYS, fillDraft, randomFill } from '../fill.js';
import { lock, randomLocks } from '../locks.js';
import { type Case, type Move, Pen, STILL } from '../pen.js';
import { vec } from '../plane.js';
import { Random } from '../random.js';
import { runDraft } from '../run.js';
import { randomSatin, sewColumn, underlaysFor } from '../satin.js';
import { rectangle } from '../shapes.js';

/** Designs with round numbers, square to the axes and without noise, as they are written by hand for a check. */

const rounded = (v: number, to: number): number => Math.round(v / to) * to;

function column(
  random: Random,
  x: number,
  upright: boolean,
  width: number,
  length: number,
  underlay: readonly UnderlayKind[],
): Draft {
  const y = rounded(random.range(-10, 10), 1);
  const centre = upright
    ? segment(vec(x + width / 2, y), vec(x + width / 2, y + length))
    : segment(vec(x, y), vec(x + length, y));
  const shape: Column = { centre, half: () => width / 2, lie: { kind: 'across' } };
  const style = randomSatin(width, underlay, random);
  style.top.spacing = random.pick([0.3, 0.35, 0.4, 0.4, 0.4, 0.45, 0.5, 0.6]);
  style.top.comp = 0;
  style.inset = width < 2.4 ? 0.4 : random.pick([0.4, 0.5, 0.6]);
  style.zigzagSpacing = random.pick([2, 2, 2.5, 3]);
  return sewColumn(
    shape,
    style,
    random.int(0, 1) as 0 | 1,
    random,
    `${upright ? 'upright' : 'level'} ${width}×${length}`,
  ).draft;
}

function columns(seed: number): Case {
  const random = new Random(seed, 'plain-columns');
  const pen = new Pen();
  const spec = { ...randomLocks(random, 1.5), start: random.chance(0.75), end: random.chance(0.75) };
  let x = 0;
  const n = random.int(1, 5);
  for (let i = 0; i < n; i++) {
    const upright = random.chance(0.6);
    const width = rounded(random.range(1.5, 9), 0.5);
    const length = rounded(Math.max(10, width * random.range(1.5, 5)), 1);
    const draft = lock(
      column(random, x, upright, width, length, random.pick(underlaysFor(width, true))),
      spec,
    );
    pen.sew(draft, i === 0 ? 'straight' : random.pick(['trim', 'trim', 'colour'] as Move[]));
    x += (upright ? width : length) + random.int(2, 6);
  }
  return pen.finish('plain-columns', seed, pen.drafts.map((d) => d.note).join(' | '), STILL, random);
}

function areas(seed: number): Case {
  const random = new Random(seed, 'plain-areas');
  const pen = new Pen();
  const spec = { ...randomLocks(random), start: random.chance(0.75), end: random.chance(0.75) };
  let x = 0;
  const n = random.int(1, 3);
  for (let i = 0; i < n; ) {
    const w = rounded(random.range(12, 40), 1);
    const h = rounded(random.range(10, 30), 1);
    const style = randomFill(random, random.pick(FILL_UNDERLAYS));
    style.top.degrees = random.pick([0, 0, 45, 90, 135, 30]);
    style.top.rows = random.pick([0.3, 0.35, 0.4, 0.4, 0.4, 0.5, 0.6]);
    style.top.stitch = random.pick([2.5, 3, 3.5, 4]);
    style.under.degrees = style.top.degrees + 90;
    style.under.rows = random.pick([2, 2.5, 3]);
    style.under.stitch = random.pick([2, 2.5, 3]);
    style.inset = 0.6;
    const outer = rectangle(w, h).map((p) => vec(p.x + x, p.y));
    const draft = fillDraft(
      { outer, holes: [] },
      style,
      random.chance(0.5) ? vec(x, 0) : null,
      random,
      `rectangle ${w}×${h}`,
    );
    if (!draft) continue;
    pen.sew(lock(draft, spec), i === 0 ? 'straight' : random.pick(['trim', 'colour'] as Move[]));
    x += w + 4;
    i++;
  }
  return pen.finish('plain-areas', seed, pen.drafts.map((d) => d.note).join(' | '), STILL, random);
}

function lines(seed: number): Case {
  const random = new Random(seed, 'plain-lines');
  const pen = new Pen();
  const spec = { ...randomLocks(random), start: random.chance(0.6), end: random.chance(0.6) };
  const n = random.int(1, 4);
  for (let i = 0; i < n; i++) {
    const w = rounded(random.range(8, 40), 1);
    const h = rounded(random.range(6, 20), 1);
    const y = i * 25;
    const line = random.pick([
      [vec(0, y), vec(w, y)],
      [vec(0, y), vec(w, y), vec(w, y + h), vec(0, y + h), vec(0, y)],
      [vec(0, y), vec(w / 2, y + h), vec(w, y)],
      [vec(0, y), vec(0, y + h)],
    ]);
    const draft = lock(
      runDraft(
        line,
        random.pick(['single', 'double', 'triple']),
        random.pick([2, 2.5, 3]),
        false,
        'plain line',
      ),
      spec,
    );
    pen.sew(draft, i === 0 ? 'straight' : random.pick(['trim', 'colour'] as Move[]));
  }
  return pen.finish('plain-lines', seed, pen.drafts.map((d) => d.note).join(' | '), STILL, random);
}

export const PLAIN_FAMILIES: Record<string, (seed: number) => Case> = {
  'plain-columns': columns,
  'plain-areas': areas,
  'plain-lines': lines,
};
