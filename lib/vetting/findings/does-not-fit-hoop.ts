import type { Finder } from '../context.js';
import { NOWHERE } from '../place-of.js';
import { inWords } from '../words.js';

const CAUTION =
  'A needle that strikes the hoop breaks, and pieces fly: trace the design before sewing, keep the guards on, and go by the field in the manual of the machine.';

/** A design larger than the field of the hoop that was chosen, hooped with its middle in the middle. */
export const doesNotFitHoop: Finder = ({ stitches, measures, hoop }) => {
  if (!hoop || stitches.count === 0) return [];
  const { widthMm, heightMm, acrossMm } = measures;
  const [fieldW, fieldH] = [hoop.widthMm.value, hoop.heightMm.value];
  const common = { code: 'does-not-fit-hoop', severity: 'fail', ...NOWHERE, unit: 'mm' } as const;
  if (hoop.shape === 'round') {
    if (acrossMm <= fieldW) return [];
    return [
      {
        ...common,
        measured: acrossMm,
        limit: fieldW,
        message: `The design reaches ${inWords(acrossMm)} across and the field of the ${hoop.name} only ${inWords(fieldW)}. Take a larger hoop or make the design smaller. ${CAUTION}`,
        basis: hoop.widthMm.basis,
      },
    ];
  }
  if (widthMm <= fieldW && heightMm <= fieldH) return [];
  const tooWide = widthMm > fieldW;
  const [measured, limit] = tooWide ? [widthMm, fieldW] : [heightMm, fieldH];
  const turned = widthMm <= fieldH && heightMm <= fieldW;
  return [
    {
      ...common,
      measured,
      limit,
      message: `The design is ${inWords(measured)} ${tooWide ? 'wide' : 'high'} and the field of the ${hoop.name} only ${inWords(limit)}. ${turned ? 'Turned by a quarter it would fit; otherwise take' : 'Take'} a larger hoop or make the design smaller. ${CAUTION}`,
      basis: tooWide ? hoop.widthMm.basis : hoop.heightMm.basis,
    },
  ];
};
