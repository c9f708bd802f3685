/** The rules of the trade about backing, the general before the particular. */
import { crispOnSheer } from './crisp-on-sheer.js';
import { crossedWoven } from './crossed-woven.js';
import { nothingToRinse } from './nothing-to-rinse.js';
import type { StackRule } from './rule.js';
import { sheetsThatStay } from './sheets-that-stay.js';
import { softCap } from './soft-cap.js';
import { someBacking } from './some-backing.js';
import { stableWoven } from './stable-woven.js';
import { plainStack, stackLimit } from './stack-limit.js';
import { structuredCap } from './structured-cap.js';
import { tearAwayOnRigid } from './tear-away-on-rigid.js';
import { towelBacking } from './towel-backing.js';
import { washableSheets } from './washable-sheets.js';
import { wovenOnElastic } from './woven-on-elastic.js';
import { wovenSandwich } from './woven-sandwich.js';

export const STACK_RULES: readonly StackRule[] = [
  someBacking,
  washableSheets,
  nothingToRinse,
  sheetsThatStay,
  wovenOnElastic,
  crossedWoven,
  wovenSandwich,
  tearAwayOnRigid,
  crispOnSheer,
  structuredCap,
  softCap,
  towelBacking,
  stableWoven,
  stackLimit,
  plainStack,
];
