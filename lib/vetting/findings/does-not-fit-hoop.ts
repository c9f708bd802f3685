import type { Finder } from '../context.js';
import { NOWHERE } from '../place-of.js';

/** A design larger than the field of the hoop that was chosen, hooped with its middle in the middle. */
export const doesNotFitHoop: Finder = ({ stitches, measures, hoop }) => {
  if (!hoop || stitches.count === 0) return [];
  const { widthMm, heightMm, acrossMm } = measures;
  const [fieldW, fieldH] = [hoop.widthMm.value, hoop.heightMm.value];
  const tooLarge = (
    side: 'width' | 'height' | 'across',
    sizeMm: number,
    { value: fieldMm, basis }: { value: number; basis: string },
    turned: boolean,
  ) =>
    ({
      code: 'does-not-fit-hoop',
      severity: 'fail',
      ...NOWHERE,
      measured: sizeMm,
      limit: fieldMm,
      unit: 'mm',
      params: { hoop: hoop.name, side, sizeMm, fieldMm, turned },
      fix: { do: 'choose-hoop', turned },
      basis,
    }) as const;
  if (hoop.shape === 'round')
    return acrossMm <= fieldW ? [] : [tooLarge('across', acrossMm, hoop.widthMm, false)];
  if (widthMm <= fieldW && heightMm <= fieldH) return [];
  const turned = widthMm <= fieldH && heightMm <= fieldW;
  return [
    widthMm > fieldW
      ? tooLarge('width', widthMm, hoop.widthMm, turned)
      : tooLarge('height', heightMm, hoop.heightMm, turned),
  ];
};
