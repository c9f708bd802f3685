import type { Draft, Needle } from './draft.js';
import { distance, turned, type Vec, vec } from './plane.js';
import type { Random } from './random.js';

export type LockStyle = 'back-and-forth' | 'forward' | 'triangle' | 'square' | 'star' | 'zigzag';
export const LOCK_STYLES: readonly LockStyle[] = ['back-and-forth', 'forward', 'triangle'];
/** Those of production files besides. */
export const MORE_LOCK_STYLES: readonly LockStyle[] = [...LOCK_STYLES, 'square', 'star', 'zigzag'];

export interface LockSpec {
  style: LockStyle;
  /** Length of one tiny stitch, mm. */
  size: number;
  /** Tiny stitches; a triangle has three. */
  count: number;
  /** Direction of the tiny stitches to the stitch they lie by, radians. */
  turn: number;
  start: boolean;
  end: boolean;
}

/** `narrow`: width of a column whose own swings are short; its locks are kept clearly shorter than they. */
export function randomLocks(random: Random, narrow = 99): LockSpec {
  const where = random.next();
  return {
    style: random.pick(LOCK_STYLES),
    size: random.range(0.35, Math.max(0.4, Math.min(0.75, narrow * 0.6))),
    count: random.int(2, 4),
    turn: random.chance(0.6) ? 0 : random.pick([Math.PI / 2, -Math.PI / 2, Math.PI, Math.PI / 4]),
    start: where < 0.7,
    end: where < 0.55 || (where >= 0.7 && where < 0.85),
  };
}

function tiny(at: Vec, toward: Vec, spec: LockSpec): Vec[] {
  const l = distance(at, toward) || 1;
  const along = vec(((toward.x - at.x) / l) * spec.size, ((toward.y - at.y) / l) * spec.size);
  const d = spec.style === 'forward' ? along : turned(along, spec.turn);
  const out: Vec[] = [];
  // Tiny stitches that run on forward need room before the next needle point; without it a digitizer goes to and fro.
  if (spec.style === 'forward' && l > spec.size * (spec.count + 1))
    for (let k = 1; k <= spec.count; k++) out.push(vec(at.x + d.x * k, at.y + d.y * k));
  else if (spec.style === 'triangle') {
    const e = turned(d, Math.PI / 3);
    out.push(vec(at.x + d.x, at.y + d.y), vec(at.x + e.x, at.y + e.y), vec(at.x, at.y));
  } else if (spec.style === 'square') {
    const e = turned(d, Math.PI / 2);
    out.push(vec(at.x + d.x, at.y + d.y), vec(at.x + d.x + e.x, at.y + d.y + e.y));
    out.push(vec(at.x + e.x, at.y + e.y), vec(at.x, at.y));
  } else if (spec.style === 'star')
    for (let k = 0; k < 4; k++) {
      const e = turned(d, (k * Math.PI) / 2);
      out.push(vec(at.x + e.x, at.y + e.y), vec(at.x, at.y));
    }
  else if (spec.style === 'zigzag') {
    // To and fro across the way, a little further on each time, and back to where it began.
    const e = turned(d, Math.PI / 2);
    for (let k = 1; k <= 3; k++) {
      const side = k % 2 ? 0.5 : -0.5;
      out.push(vec(at.x + d.x * k * 0.4 + e.x * side, at.y + d.y * k * 0.4 + e.y * side));
    }
    out.push(vec(at.x, at.y));
  } else
    for (let k = 1; k <= spec.count; k++) out.push(k % 2 ? vec(at.x + d.x, at.y + d.y) : vec(at.x, at.y));
  return out;
}

/** Puts tiny stitches at the ends of a draft's thread and notes them in it. */
export function lock(draft: Draft, spec: LockSpec): Draft {
  const n = draft.needles;
  if (spec.start && n.length > 1) {
    const add: Needle[] = tiny(n[0], n[1], spec).map((p) => ({ ...p, role: 'lock' }));
    const last = add[add.length - 1];
    if (distance(last, n[0]) < 1e-9) add.pop();
    // The first point is sewn before the tiny stitches; where they come back to it, it is sewn again as itself.
    if (spec.style !== 'forward' || distance(last, n[0]) < 1e-9) n.unshift({ ...n[0], role: 'lock' }, ...add);
    else n.splice(1, 0, ...add);
    draft.locks.start = true;
  }
  if (spec.end && n.length > 1) {
    for (const p of tiny(n[n.length - 1], n[n.length - 2], spec)) n.push({ ...p, role: 'lock' });
    draft.locks.end = true;
  }
  return draft;
}

/** Two threads sewn on within this are too near for tiny stitches between them to belong to either: none are made there. */
export const LOCK_ROOM = 2;
