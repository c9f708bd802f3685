import type { Why } from '../reason.js';

/**
 * Rules of the trade that no flat sew-out makes up for: without them the stitching is held by nothing in wear, or wash and water harm garment or
 * backing (common practice, no source). The others are about looks, weight and cost, which a prediction or a shop may judge otherwise.
 */
const BINDING: ReadonlySet<Why['code']> = new Set([
  'some-backing',
  'sheets-that-stay',
  'soft-cap',
  'washable-sheets',
  'nothing-to-rinse',
]);

/** Whether a plan has a backing that breaks one of them, which only a backing that was asked for does. */
export const breaksBindingRule = (reasons: readonly Why[]): boolean =>
  reasons.some((why) => why.code === 'against-rule' && BINDING.has(why.params.rule.code));
