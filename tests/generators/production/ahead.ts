/** Words and logos whose underlay is sewn long before their tops. */
import type { UnderlayKind } from '../../../lib/segment/objects.js';
import { type Column, columnTop } from '../column.js';
import { segment } from '../curve.js';
import type { Case } from '../pen.js';
import { distance, type Vec, vec } from '../plane.js';
import { layUnderlay, randomSatin, type SatinStyle } from '../satin.js';
import { Job } from './job.js';
import { clearWord, inOrder, someWordStyle, wordIn } from './words.js';

const endOf = (c: Column, end: 0 | 1): Vec =>
  c.centre.point(end === 0 || c.centre.closed ? 0 : c.centre.length);

/** The end of a column that is nearer to where the thread stands. */
export function nearerEnd(c: Column, at: Vec | null): 0 | 1 {
  return at && distance(endOf(c, 1), at) < distance(endOf(c, 0), at) ? 1 : 0;
}

/** Underlays that are told apart in a column of this width. */
export function clearUnderlays(width: number): (readonly UnderlayKind[])[] {
  const out: (readonly UnderlayKind[])[] = [['center-run']];
  if (width >= 2.4)
    out.push(['edge-run'], ['zigzag'], ['center-run', 'zigzag'], ['edge-run', 'zigzag'], ['double-zigzag']);
  return out;
}

/** A style without what would move the truth of a column or its ends. */
export function plainStyle(job: Job, width: number, underlay: readonly UnderlayKind[]): SatinStyle {
  const style = randomSatin(width, underlay, job.random);
  return { ...style, restart: false, top: { ...style.top, spacing: job.random.range(0.3, 0.5) } };
}

/** Sews the underlay of all columns in one order and their tops in another. */
export function underlayFirst(
  job: Job,
  columns: readonly Column[],
  style: SatinStyle,
  orders: { under: readonly number[]; top: readonly number[] },
  note: (i: number) => string,
  bare: (i: number) => boolean = () => false,
): number[] {
  const { random } = job;
  const owners = columns.map((c, i) =>
    job.plan({ ...columnTop(c, style.top, false, 1, random, note(i)), needles: [] }),
  );
  for (const i of orders.under) {
    if (bare(i)) continue;
    const passes = layUnderlay(columns[i], style, nearerEnd(columns[i], job.at), random);
    job.passes(passes, owners[i]);
  }
  for (const i of orders.top) {
    const c = columns[i];
    const top = columnTop(c, style.top, nearerEnd(c, job.at) === 1, random.sign(), random, note(i));
    Object.assign(job.pen.drafts[owners[i]], { needles: top.needles });
    job.sew(owners[i]);
  }
  return owners;
}

function word(family: string, seed: number, order: 'same' | 'reverse'): Case {
  const job = new Job(family, seed);
  const { random } = job;
  const style = someWordStyle(random, 9, 24);
  const laid = wordIn(job, clearWord(random, 3, 6), style);
  const satin = plainStyle(job, laid.stroke, random.pick(clearUnderlays(laid.stroke)));
  const columns = laid.letters.flat();
  const under = inOrder(columns.length, 'written');
  const top = order === 'same' ? under : [...under].reverse();
  underlayFirst(job, columns, satin, { under, top }, (i) => `stroke ${i + 1}`);
  return job.finish(
    `${laid.text} ${style.height.toFixed(0)} mm, underlay ${satin.underlay.join('+')} of the whole word first, tops in ${order} order`,
  );
}

/** Bars of several widths as a logo holds them, underlay of all first; a few are left without. */
function logo(family: string, seed: number): Case {
  const job = new Job(family, seed, 4);
  const { random } = job;
  const columns: Column[] = [];
  let x = 0;
  for (let k = random.int(4, 7); k > 0; k--) {
    const width = random.range(2.6, 6);
    const upright = random.chance(0.6);
    const length = width * random.range(3, 6);
    const y = random.range(-3, 3);
    columns.push({
      centre: upright
        ? segment(vec(x + width / 2, y), vec(x + width / 2, y + length))
        : segment(vec(x, y + width / 2), vec(x + length, y + width / 2)),
      half: () => width / 2,
      lie: { kind: 'across' },
    });
    x += (upright ? width : length) + random.range(1, 4);
  }
  const satin = plainStyle(job, 2.6, random.pick(clearUnderlays(2.6)));
  const under = inOrder(columns.length, random.pick(['written', 'backward'] as const));
  const top = inOrder(columns.length, random.pick(['written', 'backward', 'centre-out'] as const));
  const bare = random.chance(0.3) ? random.int(0, columns.length - 1) : -1;
  underlayFirst(
    job,
    columns,
    satin,
    { under, top },
    (i) => `bar ${i + 1}${i === bare ? ' bare' : ''}`,
    (i) => i === bare,
  );
  return job.finish(`logo of ${columns.length} bars, underlay ${satin.underlay.join('+')} first`);
}

export const AHEAD_FAMILIES: Record<string, (seed: number) => Case> = {
  'word-underlay-ahead': (seed) => word('word-underlay-ahead', seed, 'same'),
  'word-underlay-reversed': (seed) => word('word-underlay-reversed', seed, 'reverse'),
  'logo-underlay-ahead': (seed) => logo('logo-underlay-ahead', seed),
};
