import { fieldHolds, HOOP_FIELDS, type HoopField } from '../materials/places.js';
import type { AdviceJob } from './job.js';

/**
 * The hoop with the smallest field that holds the design: on caps a cap frame, else a round hoop or a square frame, as shops use them. Null
 * where none does.
 */
export function fittingHoop({ fabric, design }: AdviceJob): HoopField | null {
  const area = ({ widthMm: w, heightMm: h }: HoopField): number => w.value * h.value;
  const fitting = HOOP_FIELDS.filter(
    (hoop) => hoop.id.startsWith('cap-') === fabric.cap && fieldHolds(hoop, design),
  );
  return fitting.toSorted((a, b) => area(a) - area(b))[0] ?? null;
}
