/** Where the rules of the trade draw their lines. */
import { COMMON_PRACTICE, FROM_MEMORY, type Sourced } from '../core/sourced.js';

const line = (value: number, low: number, high: number, unit: string, basis: string): Sourced => ({
  value,
  low,
  high,
  unit,
  basis,
});

export const RULE_LIMITS = {
  /** Stretch from which knit counts among the thinnest: it comes to four or five times its size. */
  thinnestStretch: line(300, 300, 400, '%', COMMON_PRACTICE),
  /** Weight from which a woven is tight enough to hold a small logo on a tear-away. */
  stableMass: line(140, 130, 150, 'g/m²', FROM_MEMORY),
  /** A logo is small up to this size, which is that of a left chest, and this many stitches. */
  smallLogo: line(100, 90, 115, 'mm', COMMON_PRACTICE),
  smallLogoStitches: line(8000, 6000, 10_000, 'stitches', FROM_MEMORY),
  /** Stitches that film alone carries behind a towel: it is thin, and perforated along close stitching. */
  filmStitches: line(8000, 6000, 10_000, 'stitches', FROM_MEMORY),
  /** Columns whose swings differ by more than this pull in directions of their own. */
  directionsApart: line(25, 15, 30, '°', FROM_MEMORY),
  /** A sheet whose stiffest direction is less than this many times its softest need not be turned. Our own choice. */
  turnedFrom: line(1.5, 1.5, 1.5, '', 'our own choice: a smaller difference does not show'),
  /** Strokes of letters so small that they need a fine needle: about 5 mm high. */
  smallLetterStroke: line(1.2, 1, 1.4, 'mm', FROM_MEMORY),
  /** Satin from this width on is sewn more slowly. */
  wideSatin: line(7, 6, 8, 'mm', COMMON_PRACTICE),
  /** Movement of an edge up to which a design can be drawn to meet it. */
  mostDrawn: line(1, 0.8, 1.2, 'mm', COMMON_PRACTICE),
  /** Pieces of a cap design from this size on push fabric ahead of them. */
  capPiece: line(5, 3, 8, 'mm', FROM_MEMORY),
  /** Wovens from these weights on take a stouter needle. */
  heavyMass: line(300, 280, 320, 'g/m²', FROM_MEMORY),
} as const;
