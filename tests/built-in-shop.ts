import { fullShop } from '../lib/pipeline.js';
import { shopOf } from '../lib/shop.js';

/** The shop of a test that is about no profile: every figure is the built-in one. */
export const SHOP = fullShop(shopOf());
