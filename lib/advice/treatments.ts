import { type ThreadLength, type ThreadUse, threadLength } from '../measure/thread-length.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import { relaid, type SewnDesign } from '../stitch/relaid.js';
import type { AdviceJob } from './job.js';
import type { UnderlayChange } from './plan.js';

/** One way of underlaying the design. */
export interface UnderlayTreatment {
  /** What is laid under the columns that call for a lighter underlay, or null where everything stays as it came. */
  readonly to: LaidUnderlay | null;
  readonly changes: readonly UnderlayChange[];
  readonly sewn: SewnDesign;
  readonly thread: ThreadLength;
}

/** What may be laid under a wide column in place of zigzags, besides leaving it. */
export const LIGHTER_UNDERLAYS = [
  'center-run',
  'edge-run',
  'edge-run+fill',
  'fill',
] as const satisfies readonly LaidUnderlay[];

/**
 * The same on fabric with any stretch: under lettering a light fill tacks it to the backing all over before the top stitching pulls, a run
 * holds a line of them alone (common practice, no source).
 */
export const LIGHTER_ON_STRETCH = LIGHTER_UNDERLAYS.filter((to) => to.endsWith('fill'));

/**
 * The underlays in question: as it came, and every lighter kind under all the columns that call for one. Columns of one design are treated alike,
 * as a shop would order it.
 *
 * @param heavy ids of the columns that call for a lighter underlay
 */
export function treatmentsOf(
  sewn: SewnDesign,
  { heavy, fabric }: Pick<AdviceJob, 'heavy' | 'fabric'>,
  use: ThreadUse,
): UnderlayTreatment[] {
  const asItCame: UnderlayTreatment = {
    to: null,
    changes: [],
    sewn,
    thread: threadLength(sewn.stitches, use),
  };
  if (heavy.size === 0) return [asItCame];
  const ids = sewn.objects.map(({ id }) => id).filter((id) => heavy.has(id));
  const lighter = (fabric.stretchy ? LIGHTER_ON_STRETCH : LIGHTER_UNDERLAYS).map((to): UnderlayTreatment => {
    const changed = relaid(sewn, new Map(ids.map((id) => [id, to])));
    return {
      to,
      changes: ids.map((object) => ({ object, to })),
      sewn: changed,
      thread: threadLength(changed.stitches, use),
    };
  });
  return [asItCame, ...lighter];
}
