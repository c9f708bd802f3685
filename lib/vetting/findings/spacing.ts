import type { ObjectMeasures } from '../../measure/measures.js';
import type { StitchObject } from '../../segment/objects.js';
import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { placeOf } from '../place-of.js';
import { inWords } from '../words.js';

/** Only what is meant to cover can be too open. */
const isTop = ({ purpose }: StitchObject): boolean => purpose === 'top';

/** Rows that grow apart by this much are meant to: the area fades out (our own choice; measuring makes even rows differ by a tenth). */
const GRADED = 1.6;

const isGraded = ({ spacingMm }: ObjectMeasures): boolean =>
  spacingMm !== null && spacingMm.max > GRADED * spacingMm.min;

const WORDS = {
  'satin-too-dense': (mm: string) =>
    `Satin stitches only ${mm} apart: they pull hard, stand stiff and can cut the goods. Open the spacing.`,
  'satin-too-open': (mm: string) =>
    `Satin stitches ${mm} apart: the goods show through. Close the spacing, or use a thicker thread.`,
  'fill-too-dense': (mm: string) =>
    `Fill rows only ${mm} apart: they pull hard, stand stiff and can cut the goods. Open the rows.`,
  'fill-too-open': (mm: string) =>
    `Fill rows ${mm} apart: the goods show through. Close the rows, unless a light fill is meant.`,
} as const;

const finder =
  (kind: 'satin' | 'fill', code: keyof typeof WORDS, speaksOf: (object: StitchObject) => boolean): Finder =>
  ({ objects, limits, stitches }) =>
    objects.flatMap(({ object, spacingMm }) => {
      if (object.kind !== kind || spacingMm === null || !(spacingMm.median > 0) || !speaksOf(object))
        return [];
      const verdict = judge(limits[code], spacingMm.median);
      if (!verdict) return [];
      return {
        code,
        ...verdict,
        object: object.id,
        ...placeOf(stitches, object.range[0]),
        measured: spacingMm.median,
        unit: 'mm',
        message: WORDS[code](inWords(spacingMm.median)),
        basis: limits[code].basis,
      };
    });

/** Satin whose stitches lie too close together. */
export const satinTooDense = finder('satin', 'satin-too-dense', (object) => !object.foam);
/** Satin whose stitches lie so far apart that the goods show. */
export const satinTooOpen = finder('satin', 'satin-too-open', isTop);
/** A fill whose rows lie too close together. */
export const fillTooDense = finder('fill', 'fill-too-dense', () => true);
/** A fill whose rows lie so far apart that the goods show. */
export const fillTooOpen: Finder = (context) =>
  openFills({ ...context, objects: context.objects.filter((measures) => !isGraded(measures)) });
const openFills = finder('fill', 'fill-too-open', isTop);
