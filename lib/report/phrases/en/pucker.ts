/** What `lieflat pucker` says: one design on one fabric, over one backing or over several. */
import { capital } from '../../quantities.js';
import type { Voice } from '../voice.js';
import { type Height, risk } from './risk.js';

export const pucker = {
  title: 'How flat it will lie',
  on: ({ file, fabric }: { file: string; fabric: string }, _: Voice): string => `${file} on ${fabric}`,
  label: {
    why: 'why',
    wrinkles: 'wrinkles',
    pullIn: 'pull-in',
    looks: 'looks',
    backing: 'backing',
    sewn: 'sewn',
  },
  cause: ({ short, why, share }: { short: string; why: string; share: number }, say: Voice): string =>
    `${short} (${say.share(share)}): ${why}`,
  /** `grades` are those of the range. */
  wrinkles: ({ wrinkleMm, range, grades }: Height & { grades: string }, say: Voice): string => {
    const [seen, most] = [wrinkleMm, range[1]].map((mm) => Number(say.bare(mm)) > 0);
    const about = seen ? `about ${say.length(wrinkleMm)} high` : 'none predicted';
    return `${about}${most ? `; ${risk.mostLikely({ range }, say)}` : ''}: ${grades}`;
  },
  pullIn: ({ mm }: { mm: number }, say: Voice): string =>
    `edges move in by up to ${say.length(mm)} along the stitches`,
  looks: ({ grade }: { grade: number }, say: Voice): string =>
    `grade ${say.plain(grade, 1)} (5 is smooth, 1 is severe)`,
  sewn: (
    {
      thread,
      grainDeg,
      stretchPercent,
      washes,
    }: { thread: string; grainDeg: number; stretchPercent: number; washes: number },
    say: Voice,
  ): string =>
    [
      thread,
      grainDeg === 90 ? 'grain upright' : `grain at ${say.plain(grainDeg, 0)}°`,
      stretchPercent === 0
        ? 'hooped without stretch'
        : `stretched ${say.plain(stretchPercent, 1)} % in the hoop`,
      washes === 0 ? 'not washed' : `washed ${say.counted(washes, 'time')}`,
    ].join(', '),
  worstFirst: 'Objects, worst first',
  inOrder: 'Objects in sewing order',
  column: {
    object: 'object',
    kind: 'kind',
    place: (_: Record<never, never>, say: Voice): string => `x, y ${say.units}`,
    looks: 'looks',
    grade: 'grade',
    high: (_: Record<never, never>, say: Voice): string => `high ${say.units}`,
    pullIn: (_: Record<never, never>, say: Voice): string => `pull-in ${say.units}`,
    across: 'across',
  },
  setByYou: ({ kind }: { kind: string }, _: Voice): string => `${kind} (set)`,
  /** In place of a pull-in that no compensation makes up for. */
  far: 'far',
  listAll: ({ left }: { left: number }, say: Voice): string =>
    `and ${say.counted(left, 'other')}; --objects lists them all`,
  pullInNote:
    'The height of the whole design is that at its worst spot; here it is that around each object. Pull-in is how far each edge moves in, along the stitches and across them. Set pull compensation to that much on each side, counting what the file has already; below zero, bring the edge in.',
  farNote: ({ mostMm }: { mostMm: number }, say: Voice): string =>
    `"far" is more than ${say.length(mostMm)}: compensation alone will not hold it. Use a backing that gives less; if there is none, compensate by ${say.length(mostMm)}, let neighbors overlap and measure a sew-out.`,
  /** What the figures rest on; `own` are ids that have values of the shop's. */
  values: ({ own }: { own: readonly string[] }, say: Voice): string =>
    `Uses ${own.length === 0 ? 'typical values for this fabric, not yours' : `your own values for ${say.list(own)}, and typical ones for the rest`} (lieflat catalog lists them).`,
  ownFit: 'Uses the fit to your own sew-outs.',
  builtInFit:
    'Uses a model fitted to what the trade reports; lieflat calibrate fits it to your own sew-outs.',
  unknowns: ({ first, second }: { first: string; second: string | null }, _: Voice): string =>
    `Biggest unknown: ${first}${second === null ? '' : `, then ${second}`}.`,
  /** `narrows`: part by which the range gets narrower; null where a graded sew-out tells more. */
  measure: (
    {
      object,
      fileMm,
      sewnMm,
      narrows,
    }: { object: number; fileMm: number; sewnMm: readonly [number, number]; narrows: number | null },
    say: Voice,
  ): string =>
    `To be surer, measure the sewn width of object ${object}: expect ${say.range(sewnMm)}; the file has ${say.length(fileMm)}. Write it into your log for lieflat calibrate (object, width_mm). ${narrows === null ? 'A graded sew-out tells more.' : `It narrows the range by about ${say.share(narrows)}.`}`,
  coarse: 'The design is so large that narrow columns are worked out coarsely.',
  /** Several backings. */
  comparison: {
    title: 'Which backing lies flattest',
    answer: (
      {
        file,
        fabric,
        best,
        backings,
        order,
      }: { file: string; fabric: string; best: string; backings: number; order: 'sure' | 'open' | 'alike' },
      say: Voice,
    ): string => {
      const all = `${say.count(backings)} backings`;
      const which = named(best);
      const says = {
        sure: `${which} lies flattest of ${all}`,
        open: `${which} comes out flattest of ${all}`,
        alike: `all ${all} come out alike`,
      };
      return `${file} on ${fabric}: ${says[order]}`;
    },
    rank: ({ rank, stack }: { rank: number; stack: string }, _: Voice): string => `${rank}. ${stack}`,
    figures: (
      {
        grade,
        height,
        grades,
        pullInMm,
        cause,
      }: { grade: number; height: string; grades: string; pullInMm: number; cause: string | null },
      say: Voice,
    ): string =>
      [
        `${height}, ${grades}`,
        `grade ${say.plain(grade, 1)}`,
        `pull-in ${say.figure(pullInMm)}`,
        ...(cause === null ? [] : [`mostly ${cause}`]),
      ].join('; '),
    alike: ({ best, other }: { best: string; other: string }, _: Voice): string =>
      `No difference is predicted between ${named(best)} and ${named(other)}: the cheaper one will do.`,
    /** `fall`: how much lower its wrinkles are, as a part of one. */
    flatter: ({ best, other, fall }: { best: string; other: string; fall: number }, say: Voice): string =>
      `${best === 'none' ? capital(named(best)) : best} lies flatter than ${named(other)} for sure: ${lower(fall, say)}.`,
    tooClose: ({ best, other, fall }: { best: string; other: string; fall: number }, say: Voice): string =>
      `Too close to call: ${named(best)} comes out ahead of ${named(other)} (${lower(fall, say)}), but typical values cannot settle it. Sew both to be sure.`,
  },
};

/** A stack as it is typed, but for the word that stands for none. */
const named = (stack: string): string => (stack === 'none' ? 'no backing' : stack);

/** From here on a share rounds to all of it. */
const ALL = 0.995;

const lower = (fall: number, say: Voice): string =>
  fall >= ALL ? 'hardly a wrinkle is left' : `wrinkles ${say.share(fall)} lower`;
