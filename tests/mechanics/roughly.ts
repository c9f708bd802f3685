/**
 * A design to be looked at under many stacks and fabrics: heights on the rough mesh differ by a few parts of a hundred from those of the fine
 * one (two-layers.test.ts), and a sign needs no more.
 */

import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import { prepare } from '../../lib/mechanics/risk.js';
import { SHOP } from '../built-in-shop.js';
import type { TestDesign } from './designs.js';

const ready = new WeakMap<TestDesign, PreparedDesign>();

export function roughly(design: TestDesign): PreparedDesign {
  const made = ready.get(design);
  if (made) return made;
  const { stitches, objects, thread, rough, wantedCellMm } = prepare(design, SHOP.catalogue);
  const prepared = { stitches, objects, thread, fine: rough, rough, wantedCellMm };
  ready.set(design, prepared);
  return prepared;
}
