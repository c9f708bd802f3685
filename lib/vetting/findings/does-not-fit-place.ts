import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { NOWHERE } from '../place-of.js';

/**
 * A design larger than what the place that was chosen usually takes. What usual sizes range over is noted; larger ones are judged by how far
 * they pass the largest of them. A frame has one size.
 */
export const doesNotFitPlace: Finder = ({ stitches, measures, place, limits }) => {
  if (!place || stitches.count === 0) return [];
  const sides = [
    { side: 'width', measured: measures.widthMm, size: place.widthMm },
    { side: 'height', measured: measures.heightMm, size: place.heightMm },
  ] as const;
  const [worst] = sides.toSorted((a, b) => b.measured / b.size.value - a.measured / a.size.value);
  const { side, measured, size } = worst;
  const over = (sizeMm: number) => judge(limits['place-overrun'], 100 * (measured / sizeMm - 1));
  if (!over(size.value)) return [];
  const { frame } = place;
  const severity = frame ? 'fail' : (over(size.high)?.severity ?? 'note');
  const isNote = severity === 'note';
  return [
    {
      code: 'does-not-fit-place',
      severity,
      ...NOWHERE,
      measured,
      limit: frame || isNote ? size.value : size.high,
      unit: 'mm',
      params: {
        place: place.name,
        side,
        sizeMm: measured,
        usualMm: size.value,
        mostMm: frame ? size.value : size.high,
        frame,
      },
      fix: isNote ? null : { do: 'ask-digitizer', objects: [], to: 'make-smaller' },
      basis: size.basis,
    },
  ];
};
