import type { Fabric } from '../materials/fabric.js';
import { RULE_LIMITS } from './rule-limits.js';

/** What decides first about the backing. Fabric belong to one class. */
export type FabricClass =
  | 'structured-cap'
  | 'soft-cap'
  | 'thinnest-knit'
  | 'elastic-knit'
  | 'stretchy'
  | 'sheer'
  | 'rigid'
  | 'towel'
  | 'other';

/**
 * The class of a fabric, from its data. Where two could be meant, the first of the list counts: a cap sits on its frame whatever it is
 * made of, and stretch asks for a backing that stays even where that shows. Pile that must not get wet is no towel: a film could not be rinsed
 * out of it.
 */
export function fabricClass(fabric: Fabric): FabricClass {
  if (fabric.cap) return fabric.rigid ? 'structured-cap' : 'soft-cap';
  if (fabric.stretchy) {
    if (fabric.stretch.value >= RULE_LIMITS.thinnestStretch.value) return 'thinnest-knit';
    return fabric.elastic ? 'elastic-knit' : 'stretchy';
  }
  if (fabric.sheer) return 'sheer';
  if (fabric.rigid) return 'rigid';
  return fabric.pile && fabric.washable ? 'towel' : 'other';
}
