/** Pull compensation that can be sewn: by how much each edge of an object is to be moved so that it comes out as wide and long as the file has it. */
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import { caseOf, type GivenConditions, type MechanicsFigures } from './case.js';
import type { PullIn } from './column-pull.js';
import type { PreparedDesign } from './prepared-design.js';
import { pullsOf } from './puckering.js';
import { widthInFile } from './ruler.js';
import { sew } from './sewing.js';

/**
 * How far the edges of each object move in sewing, as the hoop holds them.
 * @throws LieflatError `unknown-id`, `bad-argument`
 */
export function pullsInHoop(
  { fine }: PreparedDesign,
  conditions: GivenConditions,
  figures: MechanicsFigures,
): PullIn[] {
  const { layup, settings } = caseOf(conditions, figures);
  return pullsOf(fine.design, sew(fine.design, layup, settings));
}

/** What a ruler finds on the sewn piece, mm; null for a run. */
export function sewnWidthMm(stitches: Stitches, object: StitchObject, pull: PullIn): number | null {
  const inFile = widthInFile(stitches, object);
  return inFile && inFile.widthMm - 2 * pull.alongStitchMm * inFile.perAlong;
}

/** Outward is above zero. All are whole steps of the file. */
export interface Compensation {
  readonly object: number;
  /** Of the edges where its first stitch begins and where it ends, mm. */
  readonly alongMm: readonly [from: number, to: number];
  /** At right angles to the stitches, of the first end that is sewn and of the last, mm: below zero where stitches push the ends out. */
  readonly acrossMm: readonly [first: number, last: number];
}

/** Ends that come nearer than this part of the length are not believed: the rows of such an object lie otherwise. */
const MOST_PART = 0.25;

/**
 * What to add to every column and area, from how far its edges move in sewing. Wider stitches pull more, very nearly by as many times as they are
 * wider (pull-in by width is close to a straight line through nothing), so that a column that gets narrower by n of its width w has to be drawn wider by
 * n/(1 − n/w). Edges that need no whole step are left; an odd step goes to one edge, which moves the middle by half a step.
 *
 * @param pulls of the objects in their order, as the hoop holds them
 * @param stepMm of the file
 */
export function compensationsOf(
  stitches: Stitches,
  objects: readonly StitchObject[],
  pulls: readonly PullIn[],
  stepMm: number,
): Compensation[] {
  return objects.flatMap((object, k): Compensation[] => {
    const inFile = widthInFile(stitches, object);
    if (!inFile) return [];
    const narrower = (2 * pulls[k].alongStitchMm * inFile.perAlong) / inFile.widthMm;
    const shorter = 2 * pulls[k].acrossStitchMm;
    const alongMm = edges(drawnWider(narrower) * inFile.widthMm, stepMm);
    const acrossMm = edges(shorter, stepMm);
    return [...alongMm, ...acrossMm].some((mm) => mm !== 0) ? [{ object: object.id, alongMm, acrossMm }] : [];
  });
}

/** By what part of itself something is to be made wider that gets narrower by a part. */
const drawnWider = (narrower: number): number => narrower / (1 - Math.min(MOST_PART, narrower));

/** A change in all as whole steps for two edges that differ by a step at most. */
export function edges(allMm: number, stepMm: number): [number, number] {
  const steps = Math.round(allMm / stepMm);
  const one = Math.trunc(steps / 2);
  // 3 · 0.1 is not 0.3 in binary.
  const inMm = (count: number) => (count === 0 ? 0 : Number((count * stepMm).toFixed(6)));
  return [inMm(steps - one), inMm(one)];
}
