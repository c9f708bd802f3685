/** One net, loose fill or light fill under many columns of the same color block. */
import { type Column, columnTop } from '../column.js';
import type { Needle } from '../draft.js';
import { hatch, Ways } from '../hatch.js';
import type { Case } from '../pen.js';
import { type Region, type Vec, vec } from '../plane.js';
import { layUnderlay } from '../satin.js';
import { clearUnderlays, nearerEnd, plainStyle } from './ahead.js';
import { Job } from './job.js';
import { clearWord, inOrder, someWordStyle, type Word, wordIn } from './words.js';

/** The box about a word, grown by `grow`. */
export function boxOf(word: Word, grow: number): Region {
  const { low, high } = word;
  return {
    outer: [
      vec(low.x - grow, low.y - grow),
      vec(high.x + grow, low.y - grow),
      vec(high.x + grow, high.y + grow),
      vec(low.x - grow, high.y + grow),
    ],
    holes: [],
  };
}

/** Rows of one direction, laid into a region as the ground of something else. */
export function ground(
  job: Job,
  region: Region,
  degrees: number,
  rows: number,
  stitch: number,
  from: Vec | null,
): Vec[] {
  const style = {
    degrees,
    rows,
    stitch,
    stagger: job.random.pick(['brick', 'random'] as const),
    join: 'edge' as const,
    least: 0.7,
    shortest: 1.5,
  };
  return hatch(region, style, from, new Ways(region, 0.4), job.random).points;
}

/** Two layers of wide rows across one another. */
export function net(job: Job, region: Region, degrees: number, pitch: number, from: Vec | null): Vec[] {
  const one = ground(job, region, degrees, pitch, 3, from);
  return [...one, ...ground(job, region, degrees + 90, pitch, 3, one[one.length - 1])];
}

/** Sews the tops of all columns, each with underlay of its own where `own` says so. */
export function sewTops(
  job: Job,
  columns: readonly Column[],
  owners: readonly number[],
  style: ReturnType<typeof plainStyle>,
  own: boolean,
  order: readonly number[],
): void {
  const { random } = job;
  for (const i of order) {
    const c = columns[i];
    const from = nearerEnd(c, job.at);
    const passes = own ? layUnderlay(c, style, from, random) : [];
    const start = passes.length > 0 ? passes[passes.length - 1].end : from;
    const top = columnTop(c, style.top, start === 1, random.sign(), random, '');
    const under: Needle[] = passes.flatMap((p) => p.points.map((q): Needle => ({ ...q, role: 'underlay' })));
    Object.assign(job.pen.drafts[owners[i]], {
      needles: [...under, ...top.needles],
      underlay: passes.map((p) => p.kind),
    });
    job.sew(owners[i]);
  }
}

function word(family: string, seed: number, kind: 'net' | 'loose' | 'light'): Case {
  const job = new Job(family, seed);
  const { random } = job;
  const style = someWordStyle(random, 10, 22);
  const laid = wordIn(job, clearWord(random, 3, 6), style);
  const own = random.chance(0.3);
  const satin = plainStyle(job, laid.stroke, own ? random.pick(clearUnderlays(laid.stroke)) : []);
  const columns = laid.letters.flat();
  const owners = columns.map((c, i) =>
    job.plan({ ...columnTop(c, satin.top, false, 1, random, `stroke ${i + 1}`), needles: [] }),
  );
  const region = boxOf(laid, random.range(0.2, 2));
  const degrees = random.chance(0.5) ? random.pick([0, 45, 90, 135]) : random.range(0, 180);
  const points =
    kind === 'net'
      ? net(job, region, degrees, random.range(2, 4), null)
      : ground(
          job,
          region,
          degrees,
          kind === 'loose' ? random.range(1.8, 3) : random.range(1, 1.6),
          random.range(2.5, 4),
          null,
        );
  job.under(['fill'], points, owners);
  sewTops(
    job,
    columns,
    owners,
    satin,
    own,
    inOrder(columns.length, random.pick(['written', 'backward'] as const)),
  );
  return job.finish(
    `${laid.text} ${style.height.toFixed(0)} mm on one ${kind} ground${own ? ` and underlay of its own, ${satin.underlay.join('+')}` : ''}`,
  );
}

export const GROUND_FAMILIES: Record<string, (seed: number) => Case> = {
  'net-under-word': (seed) => word('net-under-word', seed, 'net'),
  'loose-under-word': (seed) => word('loose-under-word', seed, 'loose'),
  'light-under-word': (seed) => word('light-under-word', seed, 'light'),
};
