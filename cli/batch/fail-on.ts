import type { BatchSummary, Severity } from '../../lib/index.js';
import { oneOf } from '../options.js';

/** From which level of findings on a command exits with 1. */
export const failOn = oneOf(
  ['fail', 'warn', 'note', 'never'],
  'exit with 1 where something of this level or worse is found',
);

/** What is found at or above each level. */
const FOUND_FROM: Readonly<Record<Severity | 'never', readonly Severity[]>> = {
  note: ['note', 'warn', 'fail'],
  warn: ['warn', 'fail'],
  fail: ['fail'],
  never: [],
};

/** Whether anything of such a level was found in any file, or any file has a verdict of it on its garment. */
export const isFound = ({ findings, files }: BatchSummary, level: Severity | 'never'): boolean =>
  FOUND_FROM[level].some(
    (from) => findings.some(({ severity }) => severity === from) || (from !== 'note' && files[from] > 0),
  );
