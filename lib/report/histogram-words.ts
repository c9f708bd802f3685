import type { BatchSummary, Histogram } from './batch-summary.js';
import { bareLength, counted, fixed, type Units } from './quantities.js';

/** A histogram in words: what it counts, and each step with its range. */
export interface WordedHistogram {
  title: string;
  bars: readonly { range: string; count: number }[];
}

/** The two histograms of a summary; one that counts nothing is left out, and so are the empty steps after the last full one. */
export function histogramsInWords(
  { columnWidthMm, densityPerMm2 }: BatchSummary,
  units: Units,
): WordedHistogram[] {
  const total = ({ counts }: Histogram) => counts.reduce((sum, n) => sum + n, 0);
  const bars = ({ step, counts }: Histogram, words: (value: number) => string) => {
    const last = counts.findLastIndex((n) => n > 0);
    return counts.slice(0, last + 1).map((count, i) => ({
      range:
        i === counts.length - 1
          ? `${words(i * step)} and more`
          : `${words(i * step)} to ${words((i + 1) * step)}`,
      count,
    }));
  };
  return [
    {
      title: `Width of ${counted(total(columnWidthMm), 'satin column')}, ${units}`,
      bars: bars(columnWidthMm, (mm) => (units === 'mm' ? fixed(mm, 0) : bareLength(mm, units))),
    },
    {
      title: `Needle points a mm² in ${counted(total(densityPerMm2), 'column or fill', 'columns and fills')}`,
      bars: bars(densityPerMm2, (density) => fixed(density, 1)),
    },
  ].filter(({ bars }) => bars.length > 0);
}
