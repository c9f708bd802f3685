import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { NOWHERE } from '../place-of.js';

/** A design larger than what the place that was chosen usually takes. */
export const doesNotFitPlace: Finder = ({ stitches, measures, place, limits }) => {
  if (!place || stitches.count === 0) return [];
  const sides = [
    { side: 'width', measured: measures.widthMm, size: place.widthMm },
    { side: 'height', measured: measures.heightMm, size: place.heightMm },
  ] as const;
  const [worst] = sides.toSorted((a, b) => b.measured / b.size.value - a.measured / a.size.value);
  const over = 100 * (worst.measured / worst.size.value - 1);
  const verdict = judge(limits['place-overrun'], over);
  if (!verdict) return [];
  const { frame } = place;
  return [
    {
      code: 'does-not-fit-place',
      severity: frame ? 'fail' : verdict.severity,
      ...NOWHERE,
      measured: worst.measured,
      limit: worst.size.value,
      unit: 'mm',
      params: {
        place: place.name,
        side: worst.side,
        sizeMm: worst.measured,
        usualMm: worst.size.value,
        frame,
      },
      fix: { do: 'ask-digitizer', objects: [], to: 'make-smaller' },
      basis: worst.size.basis,
    },
  ];
};
