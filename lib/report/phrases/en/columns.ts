/** What `lieflat columns` says: the satin columns of a design, and which need a lighter underlay. */

import type { LaidUnderlay } from '../../../stitch/laid-underlay.js';
import type { UnderlayKept } from '../../../vetting/finding.js';
import { capital } from '../../quantities.js';
import type { Voice } from '../voice.js';
import { GRADES, gradeStep } from './risk.js';
import { keptUnderlay, laid } from './underlay.js';

/** What a fabric does to the columns as they are and, where some are relaid, to the relaid ones. */
export interface NowAndRelaid {
  readonly now: { readonly grade: number; readonly wrinkleMm: number };
  readonly onAdvised: { readonly grade: number; readonly wrinkleMm: number } | null;
}

const predicted = ({ grade, wrinkleMm }: NowAndRelaid['now'], say: Voice): string =>
  `${GRADES[gradeStep(grade)].word} (grade ${grade}, wrinkles ${say.figure(wrinkleMm)})`;

export const columns = {
  title: 'Satin columns',
  /** `overMm` is the width that was asked for; `lighter` need a lighter underlay, `bare` are wide and have none. */
  headline: (
    {
      file,
      columns: n,
      overMm,
      lighter,
      bare,
    }: { file: string; columns: number; overMm: number | null; lighter: number; bare: number },
    say: Voice,
  ): string =>
    [
      `${file}: ${say.counted(n, 'satin column')}${overMm === null ? '' : ` wider than ${say.length(overMm)}`}`,
      ...(lighter > 0
        ? [`${say.count(lighter)} ${lighter === 1 ? 'needs' : 'need'} a lighter underlay`]
        : []),
      ...(bare > 0 ? [`${say.counted(bare, 'wide one has', 'wide ones have')} no underlay`] : []),
    ].join(', '),
  column: {
    object: 'object',
    width: (_: Record<never, never>, say: Voice): string => `width ${say.units}`,
    median: 'median',
    spacing: 'spacing',
    place: (_: Record<never, never>, say: Voice): string => `at x, y ${say.units}`,
    underlay: 'underlay',
    lighter: 'lighter?',
    wrinkle: (_: Record<never, never>, say: Voice): string => `wrinkle ${say.units}`,
  },
  /** A cell of `underlay`, with what is known of the column beside it. */
  underlay: (
    { kinds, split, setByShop }: { kinds: string; split: boolean; setByShop: boolean },
    _: Voice,
  ): string => `${kinds}${split ? ' (split satin)' : ''}${setByShop ? ' (set by you)' : ''}`,
  /** Cells of `lighter`; below the table the first two are explained. */
  lighter: 'YES',
  bare: 'NO UNDERLAY',
  fine: 'no',
  /** Heavy by the rule of the trade, and left on this fabric. */
  kept: 'it can stay',
  stays: ({ objects, because }: { objects: readonly number[]; because: UnderlayKept }, say: Voice): string =>
    `The heavier underlay of ${say.counted(objects.length, 'column')} can stay: ${keptUnderlay[because]}.`,
  wrinkle: ({ now, onAdvised }: NowAndRelaid, say: Voice): string =>
    [now, onAdvised].flatMap((risk) => (risk ? [say.bare(risk.wrinkleMm)] : [])).join(' -> '),
  /** `on` is where: `on twill, over one sheet`; `others` of the relaid columns are not among those listed. */
  onFabric: (
    {
      on,
      relaid,
      to,
      others,
      now,
      onAdvised,
    }: NowAndRelaid & { on: string; relaid: number; to: LaidUnderlay | null; others: boolean },
    say: Voice,
  ): string => {
    const head = `${capital(on)}: ${predicted(now, say)}.`;
    if (onAdvised === null || to === null) return head;
    const which = `${say.counted(relaid, 'column')}${others ? ', not all of them listed here' : ''}`;
    return `${head} With ${laid[to]} under ${which}: ${predicted(onAdvised, say)}.`;
  },
};
