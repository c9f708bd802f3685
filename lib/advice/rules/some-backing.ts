import { COMMON_PRACTICE } from '../../core/sourced.js';
import type { StackRule } from './rule.js';

export const someBacking: StackRule = {
  id: 'some-backing',
  basis: COMMON_PRACTICE,
  on: () => ({
    allows: (stack) => stack.length > 0,
    why: { code: 'some-backing', params: {} },
  }),
};
