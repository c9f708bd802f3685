import { COMMON_PRACTICE, type Sourced } from '../core/sourced.js';

/** What the model leaves open. The fitted ones are set by tests/fit/fit-parameters.ts, and can be set again from a shop's own sew-outs. */
export interface MechanicsParameters {
  /** Tension with which the machine lays a stitch, N. */
  readonly tension: Sourced;
  /** Length over which a stitch loses half its tension to the bedding-in at its needle points, mm. */
  readonly bedIn: Sourced;
  /** Needle points per mm² that tack all but 1/e of what the hoop leaves loose. */
  readonly fullTacking: Sourced;
  /** Part of the backing that the hoop alone makes bear. */
  readonly hooped: Sourced;
  /** Part of an object's own needle points that are down when one of its stitches pulls. */
  readonly ownPoints: Sourced;
  /** k of N_cr = k·π²·D/L² of goods between tacked places: plates have 4 (edges free to turn) to 7 (edges held). */
  readonly threshold: Sourced;
  /** Longest span over which goods stand free before the backing, the table or the next wrinkle holds them, mm. */
  readonly longestSpan: Sourced;
  /** Needle points per mm of a line that halve the stiffness of a sheet that perforates. */
  readonly perforation: Sourced;
  /** Part of the final shrinkage that one laundering brings about; the next takes the same part of the rest. */
  readonly firstWash: Sourced;
  /** Wrinkle height that scores 50, mm. */
  readonly scoreHalf: Sourced;
}

const fitted = (value: number, low: number, high: number, unit: string): Sourced => ({
  value,
  low,
  high,
  unit,
  basis: `fitted to facts of the trade (${COMMON_PRACTICE}) on two reference designs`,
});

const assumed = (value: number, low: number, high: number, unit: string, why: string): Sourced => ({
  value,
  low,
  high,
  unit,
  basis: `${why}; our own assumption, chosen with the fit in view`,
});

export const PARAMETERS: MechanicsParameters = {
  tension: fitted(0.135, 0.1, 0.18, 'N'),
  bedIn: fitted(7, 4.5, 10, 'mm'),
  fullTacking: fitted(0.24, 0.15, 0.4, '1/mm²'),
  hooped: assumed(0.05, 0.03, 0.1, '', 'friction between goods and backing in the hoop'),
  ownPoints: assumed(
    0.25,
    0.1,
    0.5,
    '',
    'an object’s own points come down one by one while its stitches pull',
  ),
  threshold: fitted(4.4, 4, 7, ''),
  longestSpan: assumed(5, 4, 6, 'mm', 'puckers about lettering stand some 8 to 12 mm apart'),
  perforation: assumed(
    0.6,
    0.3,
    1.2,
    '1/mm',
    'holes of about 0.4 mm at a satin rail, 0.4 mm apart, leave next to nothing between them',
  ),
  firstWash: assumed(0.6, 0.45, 0.75, '', 'most of the shrinkage comes with the first wash'),
  scoreHalf: fitted(0.32, 0.22, 0.45, 'mm'),
};
