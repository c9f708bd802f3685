import type { ObjectMeasures } from '../../measure/measures.js';
import type { StitchObject } from '../../segment/objects.js';
import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { startOf } from '../place-of.js';

/** Only what is meant to cover can be too open. */
const isTop = ({ purpose }: StitchObject): boolean => purpose === 'top';

/** Rows that grow apart by this much are meant to: the area fades out (our own choice; measuring makes even rows differ by a tenth). */
const GRADED = 1.6;

const isGraded = ({ spacingMm }: ObjectMeasures): boolean =>
  spacingMm !== null && spacingMm.max > GRADED * spacingMm.min;

const finder =
  (
    kind: 'satin' | 'fill',
    code: 'satin-too-dense' | 'satin-too-open' | 'fill-too-dense' | 'fill-too-open',
    to: 'open-spacing' | 'close-spacing',
    speaksOf: (object: StitchObject) => boolean,
  ): Finder =>
  ({ objects, limits, stitches }) =>
    objects.flatMap(({ object, spacingMm }) => {
      if (object.kind !== kind || spacingMm === null || !(spacingMm.median > 0) || !speaksOf(object))
        return [];
      const verdict = judge(limits[code], spacingMm.median);
      if (!verdict) return [];
      return {
        code,
        ...verdict,
        ...startOf(stitches, object),
        measured: spacingMm.median,
        unit: 'mm',
        params: { spacingMm: spacingMm.median },
        fix: { do: 'ask-digitizer', objects: [object.id], to },
        basis: limits[code].basis,
      };
    });

/** Satin whose stitches lie too close together. */
export const satinTooDense = finder('satin', 'satin-too-dense', 'open-spacing', (object) => !object.foam);
/** Satin whose stitches lie so far apart that the fabric shows. */
export const satinTooOpen = finder('satin', 'satin-too-open', 'close-spacing', isTop);
/** A fill whose rows lie too close together. */
export const fillTooDense = finder('fill', 'fill-too-dense', 'open-spacing', () => true);
/** A fill whose rows lie so far apart that the fabric shows. */
export const fillTooOpen: Finder = (context) =>
  openFills({ ...context, objects: context.objects.filter((measures) => !isGraded(measures)) });
const openFills = finder('fill', 'fill-too-open', 'close-spacing', isTop);
