import type { Sourced } from '../core/sourced.js';
import type { PlyValues } from './ply-values.js';

export type FabricStructure = 'knit' | 'woven';

export interface Fabric extends PlyValues {
  readonly id: string;
  readonly name: string;
  readonly structure: FabricStructure;
  /** Gives under the hand: calls for a backing that stays. */
  readonly stretchy: boolean;
  /** Knit of synthetic yarn that gives far and springs back: a bonded sheet gives with it (common practice, no source). */
  readonly elastic: boolean;
  /** No give at all: a backing that tears away is enough. */
  readonly rigid: boolean;
  readonly pile: boolean;
  /** Open enough, or loose enough, for stitches to sink in. */
  readonly open: boolean;
  /** See-through: the backing shows. */
  readonly sheer: boolean;
  readonly cap: boolean;
  readonly washable: boolean;
  /** Needle holes stay in it for good: leather, and cloth with a film on it. */
  readonly holesStay: boolean;
  /** % longer before it resists, in its stretchier direction. */
  readonly stretch: Sourced;
}
