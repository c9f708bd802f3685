import type { Sourced } from '../core/sourced.js';

/**
 * What a layer of material resists with. "Along" is the grain: warp, wale or machine direction; "across" is weft, course
 * or cross direction.
 */
export interface PlyValues {
  /** N/mm. */
  readonly membraneAlong: Sourced;
  readonly membraneAcross: Sourced;
  readonly membraneShear: Sourced;
  /** Strain across over strain along, for a pull along. */
  readonly poisson: Sourced;
  /** µN·m. */
  readonly bendingAlong: Sourced;
  readonly bendingAcross: Sourced;
  /** g/m². */
  readonly mass: Sourced;
  /** mm. */
  readonly thickness: Sourced;
  /** % shorter after many launderings. */
  readonly shrinkage: Sourced;
}
