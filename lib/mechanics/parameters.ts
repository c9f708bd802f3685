/** What the model of two layers leaves open. */
import { COMMON_PRACTICE, type GivenValue, type Sourced } from '../core/sourced.js';

export interface MechanicsParameters {
  /** Tension with which the machine lays a stitch, N. */
  readonly tension: Sourced;
  /** Length over which a stitch loses half its tension to the bedding-in at its needle points, mm. */
  readonly bedIn: Sourced;
  /** Part of a stitch's tension that is on the fabric, by the top thread; the rest is on the backing, by the bobbin. */
  readonly topShare: Sourced;
  /** Stiffness with which a needle point joins fabric and backing that do not give, N/mm. */
  readonly pointSpring: Sourced;
  /** The same of fabric that gives, as a multiple of its membrane stiffness. */
  readonly fabricGrip: Sourced;
  /** Part of that with which a point joins them while stitches of its own block pull. */
  readonly ownPoints: Sourced;
  /**
   * Force per width with which careful hooping stretches the fabric beyond its backing, N/mm. The hoop clamps both together and stretches them
   * alike, which does no harm; what counts is what the fabric alone springs back by.
   */
  readonly hoopForce: Sourced;
  /** Longest span over which fabric stands free, mm. */
  readonly longestSpan: Sourced;
  /** How stiff sewn thread is beside straight thread: kinked over the fabric it gives more easily. */
  readonly sewnThread: Sourced;
  /** How needle points cut the fibers of a bonded sheet: stiffness falls by 1/(1 + this · points per mm²). */
  readonly cutFibers: Sourced;
  /** Needle points per mm of a line that halve the stiffness of a sheet that perforates. */
  readonly perforation: Sourced;
  /** Part of the final shrinkage that one laundering brings about; the next takes the same part of the rest. */
  readonly firstWash: Sourced;
  /** Wrinkle height that scores 50, mm. */
  readonly scoreHalf: Sourced;
  /** The model's own error: of the logarithm of a strain, one standard deviation, alike for all setups of a design. */
  readonly modelError: Sourced;
  /** The same of a setup by itself: what is left when two setups of a design are compared. */
  readonly setupError: Sourced;
}

/** What a fit says of them. */
export type FittedParameters = { readonly [P in keyof MechanicsParameters]?: GivenValue };

const JUDGED = 'our own judgement; no published value was found';
const assumed = (value: number, low: number, high: number, unit: string, why = ''): Sourced => ({
  value,
  low,
  high,
  unit,
  basis: why ? `${why}; ${JUDGED}` : JUDGED,
});
const fitted = (value: number, low: number, high: number, unit: string, to: string): Sourced => ({
  value,
  low,
  high,
  unit,
  basis: `fitted to ${to} (${COMMON_PRACTICE})`,
});
const leftOpen = (value: number, low: number, high: number): Sourced => ({
  value,
  low,
  high,
  unit: '',
  basis: `what facts held out of the fit leave on words that it never saw, beyond what the materials are uncertain by (${COMMON_PRACTICE})`,
});
const COLUMNS = 'the pull-in of upright columns on piqué and twill';

export const PARAMETERS: MechanicsParameters = {
  tension: fitted(0.129, 0.09, 0.14, 'N', COLUMNS),
  bedIn: assumed(2, 1, 6, 'mm'),
  topShare: assumed(0.67, 0.5, 0.8, '', 'needle thread is tighter than bobbin thread'),
  pointSpring: fitted(14.8, 6, 20, 'N/mm', COLUMNS),
  fabricGrip: fitted(53.2, 25, 60, '', COLUMNS),
  ownPoints: assumed(0.25, 0.2, 0.4, '', 'points come down one by one while the stitches between them pull'),
  hoopForce: assumed(
    0.00025,
    0.00006,
    0.001,
    'N/mm',
    'between what fabric drags over a table by its own weight (150 g/m², half a hoop of 120 mm, friction 0.5 to 1: 0.00005 to 0.0001) and what visibly stretches the softest knit (1 % of 0.06 N/mm)',
  ),
  longestSpan: fitted(6.08, 5, 8, 'mm', 'the height of one name on thin performance knit'),
  sewnThread: assumed(0.36, 0.07, 0.7, ''),
  cutFibers: assumed(0.15, 0, 0.25, 'mm²'),
  perforation: assumed(
    0.6,
    0.3,
    1.2,
    '1/mm',
    'holes of about 0.4 mm at a satin rail, 0.4 mm apart, leave next to nothing between them',
  ),
  firstWash: assumed(0.6, 0.45, 0.75, '', 'most of the shrinkage comes with the first wash'),
  scoreHalf: assumed(0.32, 0.22, 0.45, 'mm'),
  modelError: leftOpen(0.04, 0, 0.23),
  setupError: leftOpen(0.09, 0.07, 0.13),
};
