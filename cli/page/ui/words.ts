/** The words of the page, in the units of its reader. */
import type { pageWords } from '../../../lib/report/index.js';

export type PageWords = ReturnType<typeof pageWords>;
export type LengthUnits = Parameters<typeof pageWords>[0];
