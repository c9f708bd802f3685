/** Columns that are sewn twice, columns over foam, and letters so small that their middle is sewn there and back. */
import { type Column, columnTop } from '../column.js';
import { centreRun } from '../column-underlay.js';
import { arc, Curve, path, segment } from '../curve.js';
import type { Draft, Needle } from '../draft.js';
import { needles } from '../draft.js';
import type { Case } from '../pen.js';
import { radians, type Vec, vec } from '../plane.js';
import type { Random } from '../random.js';
import { layUnderlay } from '../satin.js';
import { clearUnderlays, nearerEnd, plainStyle, underlayFirst } from './ahead.js';
import { Job } from './job.js';
import { clearWord, inOrder, someWordStyle, wordIn } from './words.js';

/** A straight, bent or waved column. */
export function someColumn(random: Random, width: number, x = 0): Column {
  const l = width * random.range(3, 6) + 6;
  const line = random.pick([
    () => segment(vec(x, 0), vec(x, l)),
    () => new Curve(arc(vec(x, 0), width * random.range(2, 3.5), 0, radians(random.range(60, 150)))),
    () => new Curve(path((t) => vec(x + width * 0.5 * Math.sin((2 * Math.PI * t) / l), t), 0, l, l * 1.3)),
  ])();
  return { centre: line, half: () => width / 2, lie: { kind: 'across' } };
}

/** Both passes of one column: there with the one, back with the other. */
function twice(job: Job, column: Column, width: number, each: number): Draft {
  const { random } = job;
  const underlay = random.chance(0.6) ? random.pick(clearUnderlays(width)) : [];
  const style = plainStyle(job, width, underlay);
  style.top = { ...style.top, spacing: each, zag: 'symmetric' };
  const from = nearerEnd(column, job.at);
  const passes = layUnderlay(column, style, from, random);
  const start = passes.length > 0 ? passes[passes.length - 1].end : from;
  const there = columnTop(column, style.top, start === 1, 1, random, '');
  const back = columnTop(column, style.top, start === 0, random.sign(), random, '');
  return {
    ...there,
    needles: [...passes.flatMap((p) => needles(p.points, 'underlay')), ...there.needles, ...back.needles],
    underlay: passes.map((p) => p.kind),
    spacingMm: each / 2,
    passes: [2],
    note: `two passes of ${each.toFixed(2)}, ${width.toFixed(1)} wide; underlay ${underlay.join('+') || 'none'}`,
  };
}

function doubled(family: string, seed: number, each: (r: Random) => number): Case {
  const job = new Job(family, seed);
  const { random } = job;
  let x = 0;
  for (let k = random.int(1, 3); k > 0; k--) {
    const width = random.range(2.2, 7);
    job.sew(twice(job, someColumn(random, width, x), width, each(random)), x === 0 ? null : 'trim');
    x += width * 6 + 10;
  }
  return job.finish('columns sewn twice');
}

/** A column over foam: very close, both ends capped by swings along it. */
export function foamDraft(job: Job, column: Column, width: number, spacing: number, note: string): Draft {
  const { random } = job;
  const length = column.centre.length;
  const top = columnTop(
    column,
    { ...plainStyle(job, width, []).top, spacing, zag: 'symmetric', comp: 0 },
    false,
    1,
    random,
    note,
  );
  const cap = (s: number, inward: 1 | -1): Needle[] => {
    const out: Vec[] = [];
    const n = Math.round(width / (spacing * 2.5));
    for (let i = 0; i <= n; i++) {
      const v = width / 2 - 0.2 - ((width - 0.4) * i) / n;
      out.push(column.centre.beside(i % 2 ? s + inward * 1.5 : s, v));
    }
    return needles(out, 'either');
  };
  // The caps cut the foam off at the ends, below the column itself.
  const caps = [
    ...cap(length, -1),
    ...needles([column.centre.point(length * 0.66), column.centre.point(length * 0.33)], 'travel'),
    ...cap(0, 1),
  ];
  return { ...top, needles: [...caps, ...top.needles], foam: true };
}

function foam(seed: number): Case {
  const job = new Job('satin-foam', seed);
  const { random } = job;
  let x = 0;
  for (let k = random.int(1, 4); k > 0; k--) {
    const width = random.range(3.5, 9);
    const length = width * random.range(2.5, 5);
    const spacing = random.range(0.15, 0.22);
    const column: Column = {
      centre: segment(vec(x, 0), vec(x, length)),
      half: () => width / 2,
      lie: { kind: 'across' },
    };
    job.sew(foamDraft(job, column, width, spacing, `foam bar ${width.toFixed(1)}`), x === 0 ? null : 'trim');
    x += width + random.range(3, 6);
  }
  return job.finish('over foam');
}

/** Letters of 4 to 7 mm over a center run there and back. */
function tiny(seed: number): Case {
  const job = new Job('letters-tiny', seed, 1.6);
  const { random } = job;
  const style = { ...someWordStyle(random, 4, 7), weight: random.range(0.17, 0.22) };
  const laid = wordIn(job, clearWord(random, 3, 7), style);
  const satin = plainStyle(job, laid.stroke, []);
  for (const letter of laid.letters)
    for (const c of letter) {
      const from = nearerEnd(c, job.at);
      const under = centreRun(c, from, random.chance(0.7) ? 'there-and-back' : 'out', random, 0.4);
      const top = columnTop(c, satin.top, under.end === 1, random.sign(), random, 'stroke');
      job.sew({
        ...top,
        underlay: ['center-run'],
        needles: [...needles(under.points, 'underlay'), ...top.needles],
      });
    }
  return job.finish(`${laid.text} ${style.height.toFixed(1)} mm`);
}

/** Letters of which each is underlaid first, all its strokes in one line there and back, then sewn. */
function perLetter(seed: number): Case {
  const job = new Job('letters-underlay-each', seed, 3.5);
  const { random } = job;
  const style = someWordStyle(random, 8, 18);
  const laid = wordIn(job, clearWord(random, 3, 5), style);
  const satin = plainStyle(job, laid.stroke, random.pick(clearUnderlays(laid.stroke)));
  const top = random.pick(['written', 'backward'] as const);
  for (const letter of laid.letters)
    underlayFirst(
      job,
      letter,
      satin,
      { under: inOrder(letter.length, 'written'), top: inOrder(letter.length, top) },
      (i) => `stroke ${i + 1}`,
    );
  return job.finish(`${laid.text} ${style.height.toFixed(0)} mm, letter by letter`);
}

export const PASS_FAMILIES: Record<string, (seed: number) => Case> = {
  'satin-two-half-passes': (seed) => doubled('satin-two-half-passes', seed, (r) => r.range(0.7, 0.9)),
  'satin-two-full-passes': (seed) => doubled('satin-two-full-passes', seed, (r) => r.range(0.4, 0.5)),
  'satin-foam': foam,
  'letters-tiny': tiny,
  'letters-underlay-each': perLetter,
};
