import type { StackedSheet } from '../../lib/mechanics/layup.js';

const sheet = (id: string, angleDeg = 0): StackedSheet => ({ sheet: id, angleDeg });

export const NONE: StackedSheet[] = [];
export const BONDED = [sheet('cutaway-2.5oz')];
export const TWO_BONDED = [...BONDED, ...BONDED];
export const WOVEN = [sheet('woven-polyester')];
export const WOVEN_SAME = [...WOVEN, ...WOVEN];
export const WOVEN_CROSSED = [...WOVEN, sheet('woven-polyester', 45)];
export const SANDWICH = [...WOVEN, ...BONDED, sheet('woven-polyester', 45)];
export const TEAR_FIRM = [sheet('tearaway-1.8oz-firm')];
export const TEAR_CRISP = [sheet('tearaway-1.8oz-crisp')];
export const CAP = [sheet('cap-backing')];
export const TWO_CAP = [...CAP, ...CAP];
export const FILM = [sheet('soluble-film')];
