/** Words that several reports share. */
import type { ObjectKind, UnderlayKind } from '../../../segment/objects.js';
import type { Severity } from '../../../vetting/finding.js';
import type { Voice } from '../voice.js';

/** Underlay as an embroiderer calls it; programs go by the ids. */
const underlay: Readonly<Record<UnderlayKind, string>> = {
  'center-run': 'center run',
  'edge-run': 'edge run',
  zigzag: 'zigzag',
  'double-zigzag': 'double zigzag',
  fill: 'light fill',
};

const severity: Readonly<Record<Severity, string>> = { fail: 'FAIL', warn: 'WARN', note: 'NOTE' };

/** The answer about a whole file. */
const verdict = { fail: 'DO NOT SEW', warn: 'CHECK FIRST', sound: 'GOOD TO SEW' };

const kind: Readonly<Record<ObjectKind | 'split', string>> = {
  satin: 'satin',
  fill: 'fill',
  run: 'run',
  split: 'split satin',
};

export const common = {
  underlay,
  severity,
  verdict,
  kind,
  none: 'none',
  /** For an empty cell. */
  nothing: '-',
  underlayList: ({ kinds }: { kinds: readonly UnderlayKind[] }, _: Voice): string =>
    kinds.map((one) => underlay[one]).join(', ') || 'none',
  /** `1 failure, 2 notes`. */
  tally: (counts: Readonly<Record<Severity, number>>, say: Voice): string => {
    const parts = [
      ...(counts.fail > 0 ? [say.counted(counts.fail, 'failure')] : []),
      ...(counts.warn > 0 ? [say.counted(counts.warn, 'warning')] : []),
      ...(counts.note > 0 ? [say.counted(counts.note, 'note')] : []),
    ];
    return parts.join(', ') || 'nothing found';
  },
  /** Before what may hurt somebody. */
  caution: ({ text }: { text: string }, _: Voice): string => `Caution: ${text}`,
  howSure: 'How sure',
  /** What a table or list leaves out. */
  others: ({ left }: { left: number }, say: Voice): string => `and ${say.counted(left, 'other')}`,
};
