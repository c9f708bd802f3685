/** What relaying and enlarging ask of a thread alike. */
import type { ShopFigures } from '../../lib/index.js';
import type { Conditions } from '../../lib/mechanics/index.js';
import type { FileBounds } from '../budget.js';
import type { PrintLook } from '../output.js';
import type { VettingFor } from '../settings.js';

export interface RewriteSetup<Wish> extends FileBounds {
  figures: ShopFigures;
  fit: Omit<VettingFor, 'shop'>;
  wish: Wish;
  conditions: Conditions | null;
  format: 'text' | 'json';
  look: PrintLook;
  /** The file to write; null where it is called as its design. */
  out: string | null;
  /** Show, and make no stitch file. */
  dry: boolean;
}
