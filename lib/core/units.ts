/** Exact by definition (international yard and pound agreement, 1959). */
export const MM_PER_INCH = 25.4;
/** Avoirdupois ounce 28.349523125 g over the square yard 0.83612736 m², both exact. */
export const GSM_PER_OZ_YD2 = 28.349523125 / 0.83612736;
/** Exact: standard gravity 9.80665 m/s². */
export const NEWTON_PER_GRAM_FORCE = 9.80665e-3;
/** Exact: 0.45359237 kg × 9.80665 m/s². */
export const NEWTON_PER_POUND_FORCE = 0.45359237 * 9.80665;

/**
 * @example
 * ```ts
 * import { mmToInch } from 'lieflat';
 * mmToInch(50.8); // => 2
 * ```
 */
export const mmToInch = (mm: number): number => mm / MM_PER_INCH;
/**
 * @example
 * ```ts
 * import { inchToMm } from 'lieflat';
 * inchToMm(4); // => 101.6
 * ```
 */
export const inchToMm = (inch: number): number => inch * MM_PER_INCH;
export const degToRad = (deg: number): number => (deg * Math.PI) / 180;
export const radToDeg = (rad: number): number => (rad * 180) / Math.PI;
export const ozPerYd2ToGsm = (oz: number): number => oz * GSM_PER_OZ_YD2;
