import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { NOWHERE } from '../place-of.js';
import { inWords } from '../words.js';

/** A design larger than what the place that was chosen usually takes. */
export const doesNotFitPlace: Finder = ({ stitches, measures, place, limits }) => {
  if (!place || stitches.count === 0) return [];
  const sides = [
    { word: 'wide', measured: measures.widthMm, size: place.widthMm },
    { word: 'high', measured: measures.heightMm, size: place.heightMm },
  ];
  const [worst] = sides.sort((a, b) => b.measured / b.size.value - a.measured / a.size.value);
  const over = 100 * (worst.measured / worst.size.value - 1);
  const verdict = judge(limits['place-overrun'], over);
  if (!verdict) return [];
  const todo = place.frame
    ? 'The frame sets this limit: a needle that strikes it breaks, and pieces fly. Make the design smaller; trace it before sewing and keep the guards on.'
    : 'Make the design smaller, or make sure on the garment that it is meant to be this large.';
  return [
    {
      code: 'does-not-fit-place',
      severity: place.frame ? 'fail' : verdict.severity,
      ...NOWHERE,
      measured: worst.measured,
      limit: worst.size.value,
      unit: 'mm',
      message: `The design is ${inWords(worst.measured)} ${worst.word} and the ${place.name} usually takes ${inWords(worst.size.value)}. ${todo}`,
      basis: worst.size.basis,
    },
  ];
};
