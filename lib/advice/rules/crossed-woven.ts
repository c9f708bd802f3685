import { COMMON_PRACTICE } from '../../core/sourced.js';
import { fabricClass } from '../fabric-class.js';
import type { AdviceJob } from '../job.js';
import { RULE_LIMITS } from '../rule-limits.js';
import { countOf, type StackRule } from './rule.js';

/** Two woven sheets, one turned against the other by half a right angle. */
export const isCrossed = (angles: readonly number[]): boolean =>
  angles.some((a) => angles.some((b) => (((a - b) % 90) + 90) % 90 === 45));

/** A ring swings in all directions and has no one angle. */
export function swingsInSeveralDirections({ objects }: AdviceJob): boolean {
  const satin = objects.filter(({ object }) => object.kind === 'satin');
  if (satin.some(({ angleDeg }) => angleDeg === null)) return true;
  const angles = satin.map(({ angleDeg }) => angleDeg ?? 0).toSorted((a, b) => a - b);
  // The directions lie on a circle of 180°: they are all alike where one gap leaves no more than the limit for them.
  const gaps = angles.map((angle, i) =>
    i === 0 ? angle + 180 - angles[angles.length - 1] : angle - angles[i - 1],
  );
  return angles.length > 1 && 180 - Math.max(...gaps) > RULE_LIMITS.directionsApart.value;
}

export const crossedWoven: StackRule = {
  id: 'crossed-woven',
  basis: COMMON_PRACTICE,
  on: (job) =>
    fabricClass(job.fabric) === 'elastic-knit' && swingsInSeveralDirections(job)
      ? {
          allows: (stack) => {
            const woven = stack.filter((s) => countOf(job, [s], ({ kind }) => kind === 'woven') > 0);
            return isCrossed(woven.map(({ angleDeg }) => angleDeg));
          },
          about: (stack) => countOf(job, stack, ({ kind }) => kind === 'woven') > 0,
          why: { code: 'crossed-woven', params: {} },
        }
      : null,
};
