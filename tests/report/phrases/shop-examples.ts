/** Parameters for the phrases about a shop's own figures and materials. */
import type { Phrases } from '../../../lib/report/phrases/words.js';
import type { Examples } from './examples.js';

export const catalog: Examples<Phrases['catalog']> = {
  shelves: {},
  values: {},
  traits: { is: {}, isNot: {}, use: [{ use: 'knits' }] },
  seeMore: [
    { shelf: 'fabrics', id: 'denim', alone: true },
    { shelf: 'fabrics', id: 'denim', alone: false },
  ],
  material: [{ id: 'denim', is: ['denim', 'woven', 'no give at all'] }],
  range: [{ low: '0.1', high: '0.4' }],
  usualRange: [{ usual: '100', low: '90', high: '115' }],
  twoBases: [{ width: 'typical, from memory', height: 'common practice, no source' }],
  sizes: {},
  column: { width: [{}], height: [{}] },
};

export const profile: Examples<Phrases['profile']> = {
  none: [{ name: 'lieflat.config.json' }],
  inUse: [
    { path: 'shop.json', figures: 0 },
    { path: 'shop.json', figures: 1 },
    { path: 'shop.json', figures: 12 },
  ],
  column: {},
};
