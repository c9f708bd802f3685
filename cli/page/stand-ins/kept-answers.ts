import { type Answers, NOTHING_KEPT } from '../../../lib/index.js';

/** In the place of what keeps answers in a folder: the page keeps none. */
export const keptAnswers = (): Answers => NOTHING_KEPT;
