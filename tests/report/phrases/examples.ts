/** Parameters for every phrase: one that has none does not compile. */

import type { Voice } from '../../../lib/report/phrases/voice.js';
import type { Phrases } from '../../../lib/report/phrases/words.js';

export * from './shop-examples.js';

/** For each phrase that takes parameters some of them; plain strings need none. */
export type Examples<T> = {
  readonly [K in keyof T as T[K] extends string ? never : K]: T[K] extends (
    params: infer P,
    say: Voice,
  ) => string
    ? readonly [P, ...P[]]
    : Examples<T[K]>;
};

const COUNTS = [
  { fail: 0, warn: 0, note: 0 },
  { fail: 1, warn: 2, note: 12_345 },
] as const;

const FILE = [
  { says: 'there is no end record', byte: 11_087, line: null, more: 0, cutOff: true },
  { says: 'a row is odd', byte: null, line: 3, more: 996, cutOff: false },
] as const;

/** Findings whose fact and order go by the same figures. */
const both = <P>(...params: [P, ...P[]]) => ({ fact: params, todo: params });

export const batch: Examples<Phrases['batch']> = {
  pageTitle: [{ designs: 1 }, { designs: 2000 }],
  column: { size: [{}] },
  count: [
    {
      files: { vetted: 3, sound: 1, warn: 1, fail: 1, unread: 2, skipped: 4 },
      stopped: { done: 10, of: 12 },
    },
    { files: { vetted: 1, sound: 1, warn: 0, fail: 0, unread: 0, skipped: 0 }, stopped: null },
  ],
  stopped: [{ done: 4, of: 12 }],
  otherEndings: [
    { endings: [{ ending: '.pdf', files: 1 }] },
    { endings: Array.from({ length: 12 }, (_, i) => ({ ending: i === 0 ? '' : `.${i}`, files: 20 - i })) },
  ],
  inFolder: [{ folder: 'orders/' }],
  copiesOf: [
    { file: 'a.dst', copies: ['b.dst'] },
    { file: 'a.dst', copies: ['b', 'c', 'd', 'e', 'f', 'g'] },
  ],
  sameAs: [{ file: 'b.dst', first: 'a.dst' }],
  stitches: [{ stitches: 1 }, { stitches: 12_345 }],
  widths: [{ columns: 1 }, { columns: 20 }],
  densities: [{ areas: 1 }, { areas: 20 }],
  step: [
    { from: '0', to: '1' },
    { from: '12', to: null },
  ],
};

export const common: Examples<Phrases['common']> = {
  underlay: {},
  severity: {},
  verdict: {},
  kind: {},
  underlayList: [{ kinds: [] }, { kinds: ['center-run', 'edge-run', 'zigzag', 'double-zigzag', 'fill'] }],
  tally: COUNTS,
  caution: [{ text: 'Keep hands clear.' }],
  others: [{ left: 1 }, { left: 28 }],
};

export const findings: Examples<Phrases['findings']> = {
  'no-stitches': both({}),
  'does-not-fit-hoop': both(
    { hoop: 'hoop of 10 cm', side: 'across', sizeMm: 120, fieldMm: 100, turned: false },
    { hoop: 'hoop of 10 cm', side: 'width', sizeMm: 120, fieldMm: 100, turned: true },
    { hoop: 'hoop of 10 cm', side: 'height', sizeMm: 120, fieldMm: 100, turned: false },
  ),
  'does-not-fit-place': both(
    { place: 'left chest', side: 'width', sizeMm: 110, usualMm: 100, frame: false },
    { place: 'cap front', side: 'height', sizeMm: 58, usualMm: 57, frame: true },
  ),
  'satin-too-wide': both({ widthMm: 7.4, past: 'snag' }, { widthMm: 12.6, past: 'record' }),
  'satin-too-narrow': both({ widthMm: 0.7 }),
  'wide-satin-heavy-underlay': both(
    { widthMm: 4.2, underlay: 'zigzag' },
    { widthMm: 9, underlay: 'double-zigzag' },
  ),
  'wide-satin-no-underlay': both({ widthMm: 4.2 }),
  'satin-over-foam': both({ spacingMm: 0.18 }),
  'satin-too-dense': both({ spacingMm: 0.18 }),
  'satin-too-open': both({ spacingMm: 0.9 }),
  'fill-too-dense': both({ spacingMm: 0.18 }),
  'fill-too-open': both({ spacingMm: 0.9 }),
  'fill-too-many-points': both({ perMm2: 7.31 }),
  'dense-place': both({ perMm2: 16.5 }),
  'layers-stacked': both({ layers: 4 }),
  'needle-points-piled': both({ points: 17 }),
  'stitch-too-short': both(
    { count: 1, limitMm: 0.5, shortestMm: 0 },
    { count: 16, limitMm: 0.5, shortestMm: 0.1 },
  ),
  'stitch-too-long': both({ count: 1, limitMm: 7, longestMm: 8 }, { count: 9, limitMm: 7, longestMm: 8 }),
  'jump-not-trimmed': both({ count: 1, longestMm: 18.39 }, { count: 3, longestMm: 18.39 }),
  'missing-lock': both({ at: 'start' }, { at: 'end' }, { at: 'both' }),
  'no-trims': both({ moves: 2 }),
  'lettering-too-small': both({ heightMm: 4, letters: 8, strokeMm: 0.8 }),
  file: { names: {}, fact: FILE, todo: FILE },
  where: [
    { objects: [], first: null, place: null },
    { objects: [], first: null, place: '1.0, 2.0 mm' },
    { objects: [3], first: 3, place: '1.0, 2.0 mm' },
    { objects: [3, 4, 5, 9], first: 9, place: '1.0, 2.0 mm' },
    { objects: Array.from({ length: 40 }, (_, i) => 2 * i + 1), first: 9, place: null },
  ],
};

const HEIGHTS = [
  { wrinkleMm: 0.31, range: [0, 0.62] },
  { wrinkleMm: 0, range: [0, 0.05] },
] as const;

export const risk: Examples<Phrases['risk']> = {
  causes: {
    width: {},
    spacing: {},
    underlay: {},
    layers: {},
    fabric: {},
    backing: {},
    laundering: {},
    hooping: {},
    'no-backing': {},
  },
  cautions: {},
  sources: {},
  mostLikely: HEIGHTS,
  grades: [{ range: [2, 4] }, { range: [5, 5] }],
  backing: [
    { backing: 'tear-away', given: true },
    { backing: 'tear-away', given: false },
  ],
  grade: [{ grade: 5 }, { grade: 4 }, { grade: 3 }, { grade: 1 }],
  height: HEIGHTS,
  whole: [
    { ...HEIGHTS[0], grade: 3, cause: 'wide stitches', worst: 4 },
    { ...HEIGHTS[1], grade: 5, cause: null, worst: null },
  ],
  on: [
    { fabric: 'twill', backing: 'tear-away', given: true },
    { fabric: 'twill', backing: 'tear-away', given: false },
  ],
};

export const vet: Examples<Phrases['vet']> = {
  stitches: [
    { stitches: 1, objects: 0, kinds: [] },
    {
      stitches: 3465,
      objects: 34,
      kinds: [
        [31, 'satin'],
        [0, 'fill'],
        [3, 'run'],
      ],
    },
  ],
  machine: [
    { trims: 1, colorChanges: 0, stops: 0, jumps: 0, seconds: 40 },
    { trims: 14, colorChanges: 2, stops: 1, jumps: 6, seconds: 7200 },
  ],
  thread: [{ topMm: 32_500, bobbinMm: 10_800 }],
  notSet: {},
  setRight: [
    { objects: [{ name: 'object 7', is: ['underlay'] }], back: 7 },
    { objects: [{ name: 'object 7', is: ['satin', 'decorative'] }], back: null },
  ],
  notSetRight: [{ name: 'object 7', is: ['satin'], why: 'its stitches do not swing from side to side' }],
  objectName: [
    { object: 7, stitches: [1, 2] },
    { object: null, stitches: [100, 240] },
  ],
  listAll: [{ left: 1 }, { left: 28 }],
  kindSet: [{ kind: 'satin' }],
  locks: [
    { start: true, end: true },
    { start: true, end: false },
    { start: false, end: true },
    { start: false, end: false },
  ],
  pageTitle: [{ file: 'crest.dst' }],
  pageOfSeveral: [{ designs: 2 }],
  unread: [{ files: 1 }, { files: 2 }],
  notWhole: [{ stopped: 'stopped after 4 of 12 files' }],
  pictureOf: [{ file: 'crest.dst' }],
  stitchesOf: [{ file: 'crest.dst', places: 1 }],
  pictureCaption: [{ places: 0 }, { places: 3 }],
  pictureNotWhole: [{ says: 'the first 500,000 stitches are drawn' }],
  rests: [
    { limit: '7.00 mm', basis: 'common practice, no source' },
    { limit: null, basis: 'read from the file' },
  ],
  onFabric: [{ fabric: 'twill' }],
  movesIn: [{ mm: 0.13 }],
  cause: [{ short: 'wide stitches', why: 'long swings of satin pull harder', share: 0.28 }],
  graded: [{ grade: 3.5, word: 'slight' }],
  foot: [{}],
  column: {
    place: [{}],
    width: [{}],
    spacing: [{}],
    middle: [{}],
    stitch: [{}],
    wrinkle: [{}],
    range: [{}],
    pullIn: [{}],
    size: [{}],
  },
  found: COUNTS,
};
