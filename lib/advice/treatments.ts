import { type ThreadLength, type ThreadUse, threadLength } from '../measure/thread-length.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import { relaid, type SewnDesign } from '../stitch/relaid.js';
import { LIGHT_UNDERLAY } from '../vetting/called-underlay.js';
import type { AdviceJob } from './job.js';
import type { UnderlayChange } from './plan.js';

/** One way of underlaying the design. */
export interface UnderlayTreatment {
  /** What is laid under the columns that call for a lighter underlay, or null where theirs stays as it came. */
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

/** The underlays in question. */
export interface Treatments {
  /** To the last stitch as it came. */
  readonly asItCame: UnderlayTreatment;
  /**
   * First the one that leaves the underlay of heavy columns, then every lighter kind under all of them: columns of one design are treated alike, as a
   * shop would order it. A column with nothing under it gets some in each of them: that the fabric is tacked down first is a rule of the trade,
   * whatever the model makes of it.
   */
  readonly offered: readonly UnderlayTreatment[];
}

export function treatmentsOf(
  sewn: SewnDesign,
  { called: { heavy, bare }, fabric }: Pick<AdviceJob, 'called' | 'fabric'>,
  use: ThreadUse,
): Treatments {
  const laid = (to: LaidUnderlay | null, under: (id: number) => boolean, laying: LaidUnderlay) => {
    const ids = sewn.objects.map(({ id }) => id).filter(under);
    const changed = ids.length === 0 ? sewn : relaid(sewn, new Map(ids.map((id) => [id, laying])));
    const changes = ids.map((object) => ({ object, to: laying }));
    return { to, changes, sewn: changed, thread: threadLength(changed.stitches, use) };
  };
  const asItCame = laid(null, () => false, LIGHT_UNDERLAY);
  const kept = bare.size === 0 ? asItCame : laid(null, (id) => bare.has(id), LIGHT_UNDERLAY);
  const kinds = heavy.size === 0 ? [] : fabric.stretchy ? LIGHTER_ON_STRETCH : LIGHTER_UNDERLAYS;
  const lighter = kinds.map((to) => laid(to, (id) => heavy.has(id) || bare.has(id), to));
  return { asItCame, offered: [kept, ...lighter] };
}
