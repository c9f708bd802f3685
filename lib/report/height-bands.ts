import { MM_PER_INCH } from '../core/units.js';
import type { WrinkleField } from '../mechanics/risk.js';
import { niceSteps } from './nice-steps.js';
import type { Units } from './quantities.js';

/** Wrinkles lower than this are left out, mm: they look flat. */
export const LOWEST_MM = 0.05;
/** Steps are chosen for this part of the wrinkled fabric; what stands higher is small spots, and goes into the last step. */
const USUAL = 0.98;

export type BandRing = readonly (readonly [x: number, y: number])[];

/** An area of equal height, mm. */
export interface HeightBand {
  from: number;
  /** Null where it has no end: the last. */
  to: number | null;
  /** Closed rings in mm: outlines and holes. */
  rings: readonly BandRing[];
}

/** Areas of equal height, lowest first, about as many as `most`; none where all lies flat. Limits are round in the units shown. */
export async function heightBands(
  { grid, wrinkleMm }: WrinkleField,
  units: Units,
  most: number,
): Promise<HeightBand[]> {
  const { contours } = await import('d3-contour');
  const perUnit = units === 'mm' ? 1 : MM_PER_INCH;
  const high = wrinkleMm.filter((height) => height > LOWEST_MM).sort();
  if (high.length === 0) return [];
  const limits = niceSteps(high[Math.floor(USUAL * (high.length - 1))] / perUnit, most)
    .map((limit) => limit * perUnit)
    .filter((limit) => limit > LOWEST_MM);
  const froms = [LOWEST_MM, ...limits.slice(0, -1)];
  const { nx, ny, cellMm, x0, y0 } = grid;
  // Values stand for the middles of cells, half a cell in from the corner, as here.
  const shapes = contours().size([nx, ny]).thresholds(froms)(wrinkleMm as unknown as number[]);
  const last = froms.length - 1;
  return froms.map((from, i) => ({
    from,
    to: i < last ? limits[i] : null,
    rings: shapes[i].coordinates
      .flat()
      .map((ring) =>
        ring.slice(0, -1).map(([gx, gy]): [number, number] => [x0 + gx * cellMm, y0 + gy * cellMm]),
      ),
  }));
}

/** SVG path data in units of 0.1 mm, Y up. */
export const ringPath = (rings: readonly BandRing[]): string =>
  rings
    .map((ring) => `M${ring.map(([x, y]) => `${Math.round(x * 10)} ${Math.round(y * 10)}`).join('L')}Z`)
    .join('');
