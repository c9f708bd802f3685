/** Parameters for the phrases of the page. */
import type { Phrases } from '../../../lib/report/phrases/words.js';
import type { Examples } from './examples.js';

const FILE = [{ file: 'name.dst' }] as const;

export const page: Examples<Phrases['page']> = {
  files: {
    inUse: [{ file: 'lieflat.config.json' }],
    table: [{ file: 'order.csv' }],
    checked: [
      { done: 1, of: 1 },
      { done: 12, of: 2000 },
    ],
  },
  column: { size: [{}] },
  check: {
    said: [{ file: 'name.dst', verdict: 'CHECK FIRST', tally: '1 warning' }],
    next: {},
  },
  job: {
    unknown: [
      { typed: 'thing', akin: [] },
      { typed: 'vest', akin: ['fleece vest', 'denim vest'] },
    ],
    ledTo: [{ name: 'twill' }],
  },
  languages: {},
  setup: {},
  out: {
    relaidUse: {},
    cardUse: FILE,
    proofUse: {},
    proofOf: FILE,
    ready: FILE,
    again: FILE,
  },
  larger: { way: {}, map: FILE },
  order: {
    use: [
      { files: 12, table: null },
      { files: 0, table: 'order.csv' },
    ],
  },
  work: {
    checking: FILE,
    setup: FILE,
    making: FILE,
    holes: FILE,
    order: [{ files: 1 }, { files: 12 }],
    letter: FILE,
    failed: [{ why: 'not a stitch file' }],
  },
  field: {},
  hint: {},
};
