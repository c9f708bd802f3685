/** Parameters for every phrase: one that has none does not compile. */

import type { OddityParams } from '../../../lib/format/diagnostic.js';
import type { Voice } from '../../../lib/report/phrases/voice.js';
import type { Phrases } from '../../../lib/report/phrases/words.js';

export * from './order-examples.js';
export * from './page-examples.js';
export * from './plan-examples.js';
export * from './rewrite-examples.js';
export * from './shop-examples.js';

/** For each phrase that takes parameters some of them; plain strings need none. */
export type Examples<T> = {
  readonly [K in keyof T as T[K] extends string | readonly string[] ? never : K]: T[K] extends (
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
  { says: 'the file has no end mark', byte: 11_087, line: null, more: 0, cutOff: true },
  { says: 'a row is odd', byte: null, line: 3, more: 996, cutOff: false },
] as const;

type Claim = OddityParams['file-extent'];

/** Findings whose fact and order go by the same figures. */
const both = <P>(...params: [P, ...P[]]) => ({ fact: params, todo: params });

export const batch: Examples<Phrases['batch']> = {
  andOthers: [
    { why: 'heavy underlay', others: 1 },
    { why: 'needle points piled', others: 1200 },
  ],
  onGarment: {},
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
  sendBack: [
    { files: ['crest.dst'], only: 'in/crest.dst' },
    { files: ['a b.dst'], only: 'a b.dst' },
    { files: ['a.dst', 'b.dst', 'c.dst', 'd.dst', 'e.dst', 'f.dst', 'g.dst'], only: null },
  ],
  otherEndings: [
    { endings: [{ ending: '.pdf', files: 1 }] },
    { endings: Array.from({ length: 12 }, (_, i) => ({ ending: i === 0 ? '' : `.${i}`, files: 20 - i })) },
  ],
  gap: {
    missing: [
      { missing: [3], parts: 16 },
      { missing: [3, 7], parts: 16 },
    ],
    unfinished: [{ part: 3, parts: 16, left: 1 }],
    unlike: {},
    changed: [{ changed: ['a.dst'] }, { changed: ['a', 'b', 'c', 'd', 'e', 'f', 'g'] }],
  },
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
  'little-room-in-hoop': both(
    { hoop: 'cap frame', side: 'height', sizeMm: 56.3, fieldMm: 57, roomMm: 0.35 },
    { hoop: 'hoop of 10 cm', side: 'across', sizeMm: 100, fieldMm: 100, roomMm: 0 },
  ),
  'does-not-fit-place': both(
    { place: 'left chest', side: 'width', sizeMm: 110, usualMm: 100, mostMm: 115, frame: false },
    { place: 'left chest', side: 'width', sizeMm: 140, usualMm: 100, mostMm: 115, frame: false },
    { place: 'cap front', side: 'height', sizeMm: 58, usualMm: 57, mostMm: 57, frame: true },
  ),
  'satin-too-wide': both(
    { widthMm: 7.4, past: 'snag', over: 'fill' },
    { widthMm: 12.6, past: 'record', over: null },
  ),
  'satin-too-narrow': both({ widthMm: 0.7 }),
  'wide-satin-heavy-underlay': both(
    { widthMm: 4.2, underlay: 'zigzag', to: 'fill', onlyIfNamed: false, kept: null, decided: true },
    {
      widthMm: 9,
      underlay: 'double-zigzag',
      to: 'edge-run+fill',
      onlyIfNamed: true,
      kept: null,
      decided: false,
    },
    { widthMm: 4.2, underlay: 'zigzag', to: 'fill', onlyIfNamed: false, kept: 'lies-flat', decided: true },
  ),
  'wide-satin-no-underlay': both(
    { widthMm: 4.2, to: 'fill', onlyIfNamed: false },
    { widthMm: 4.2, to: 'edge-run', onlyIfNamed: true },
  ),
  'satin-over-foam': both({ spacingMm: 0.18 }),
  'satin-too-dense': both({ spacingMm: 0.18 }),
  'satin-too-open': both({ spacingMm: 0.9 }),
  'fill-too-dense': both({ spacingMm: 0.18 }),
  'fill-too-open': both({ spacingMm: 0.9 }),
  'fill-too-many-points': both({ perMm2: 7.31 }),
  'dense-place': both({ perMm2: 16.5 }),
  'layers-stacked': both({ layers: 4 }),
  'needle-points-piled': both({ points: 17, ofShort: true }, { points: 17, ofShort: false }),
  'stitch-too-short': both(
    { count: 1, limitMm: 0.5, shortestMm: 0 },
    { count: 16, limitMm: 0.5, shortestMm: 0.1 },
  ),
  'stitch-too-long': both({ count: 1, limitMm: 7, longestMm: 8 }, { count: 9, limitMm: 7, longestMm: 8 }),
  'jump-not-trimmed': both({ count: 1, longestMm: 18.39 }, { count: 3, longestMm: 18.39 }),
  'missing-lock': both({ at: 'start' }, { at: 'end' }, { at: 'both' }),
  'no-trims': both({ moves: 2 }),
  'lettering-too-small': both({ heightMm: 4, letters: 8, strokeMm: 0.8 }),
  curedBy: [{ name: 'satin too wide' }],
  file: {
    names: {},
    oddities: {
      'file-bytes-after-end': [{ bytes: 1 }, { bytes: 12 }],
      'file-colour-count': [{ key: 'CO', claimed: 3, counted: 2 }],
      'file-contradictory-move': [{}],
      'file-end-position': [
        { key: 'AX', claimed: 3, counted: 2 },
        { key: 'AY', claimed: 3, counted: -2 },
      ],
      'file-end-record': [{}],
      'file-extent': (['+X', '-X', '+Y', '-Y'] as const).map((key) => ({
        key,
        claimed: 300,
        counted: 298,
      })) as [Claim],
      'file-header-field-extra': [{ keys: ['AU'] }, { keys: Array.from({ length: 25 }, (_, i) => `F${i}`) }],
      'file-header-field-garbled': [{ key: 'ST' }],
      'file-header-field-missing': [{ keys: ['AX', 'AY'] }],
      'file-header-field-repeated': [{ key: 'ST' }],
      'file-header-garbled': [{}],
      'file-header-line-ends': [{}],
      'file-header-no-end-mark': [{}],
      'file-header-padding': [{}],
      'file-header-short': [{ start: 125 }],
      'file-no-end-record': [{}],
      'file-no-header': [{ start: 0 }, { start: 512 }],
      'file-record-count': [{ key: 'ST', claimed: 1200, counted: 1199 }],
      'file-reserved-bits': [{}],
      'file-stop-list': [{ pauses: 3 }],
      'file-stops-assumed': [{ claimed: 2, pauses: 3, stops: 1 }],
      'file-thread-list': [{ blocks: 3 }],
      'file-truncated-record': [{ bytes: 1 }, { bytes: 2 }],
      'file-unknown-record': [{}],
      'file-zero-fill': [{ bytes: 40 }],
      'table-blank-lines': [{}],
      'table-delimiter': [{}],
      'table-other-columns': [{}],
      'table-positions-rounded': [{}],
    },
    fact: FILE,
    todo: [
      { ...FILE[0], doubtful: true },
      { ...FILE[1], doubtful: true },
      { ...FILE[1], doubtful: false },
    ],
  },
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
  stack: [
    { sheets: [] },
    { sheets: [{ name: 'tear-away', angleDeg: 0 }] },
    { sheets: [0, 0].map((angleDeg) => ({ name: 'cap backing', angleDeg })) },
    { sheets: [0, 45].map((angleDeg) => ({ name: 'woven polyester', angleDeg })) },
  ],
  backing: [
    { stackName: 'tear-away', stackGiven: true },
    { stackName: 'tear-away', stackGiven: false },
  ],
  grade: [{ grade: 5 }, { grade: 4 }, { grade: 3 }, { grade: 1 }],
  height: HEIGHTS,
  whole: [
    { ...HEIGHTS[0], grade: 3, cause: 'wide stitches', worst: 4 },
    { ...HEIGHTS[1], grade: 5, cause: null, worst: null },
  ],
  on: [
    { fabricName: 'twill', stackName: 'tear-away', stackGiven: true },
    { fabricName: 'twill', stackName: 'tear-away', stackGiven: false },
  ],
};

export const vet: Examples<Phrases['vet']> = {
  haveItFixed: [{}],
  moreAdvice: [{ others: 0 }, { others: 3 }],
  askFirst: [{ codes: ['satin-too-wide'] }, { codes: ['no-trims', 'file-no-end-record'] }],
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
    { trims: 1, colorChanges: 0, stops: 0, jumps: 0, seconds: 40, speedSpm: 800 },
    { trims: 14, colorChanges: 2, stops: 1, jumps: 6, seconds: 7200, speedSpm: 1050 },
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

const [FLAT, BAD] = [
  { grade: 5, wrinkleMm: 0 },
  { grade: 1.8, wrinkleMm: 0.82 },
];

export const columns: Examples<Phrases['columns']> = {
  headline: [
    { file: 'a.dst', columns: 1, overMm: null, lighter: 1, bare: 0 },
    { file: 'a.dst', columns: 1200, overMm: 4, lighter: 2, bare: 1 },
    { file: 'a.dst', columns: 0, overMm: 20, lighter: 0, bare: 0 },
    { file: 'a.dst', columns: 3, overMm: null, lighter: 0, bare: 3 },
  ],
  column: { width: [{}], place: [{}], wrinkle: [{}] },
  underlay: [
    { kinds: 'edge run, zigzag', split: true, setByShop: true },
    { kinds: 'none', split: false, setByShop: false },
  ],
  wrinkle: [
    { now: BAD, onAdvised: FLAT },
    { now: FLAT, onAdvised: null },
  ],
  stays: [
    { objects: [1], because: 'lies-flat' },
    { objects: [1, 2], because: 'no-gain' },
  ],
  onFabric: [
    { on: 'on twill, over tear-away', relaid: 0, to: null, others: false, now: FLAT, onAdvised: null },
    { on: 'on twill, over tear-away', relaid: 1, to: 'fill', others: false, now: BAD, onAdvised: FLAT },
    {
      on: 'on twill, over tear-away',
      relaid: 8,
      to: 'edge-run+fill',
      others: true,
      now: BAD,
      onAdvised: FLAT,
    },
  ],
};

export const compare: Examples<Phrases['compare']> = {
  headline: {},
  files: [{ headline: 'Better', before: 'a.dst', after: 'b.dst' }],
  unrelated: [
    { before: 1, after: 3, alike: 0 },
    { before: 12, after: 3, alike: 2 },
  ],
  column: {},
  field: [{ what: 'colourChanges' }, { what: 'spacingMm.median' }],
  value: [
    { what: 'stitches', value: 12_345 },
    { what: 'threadMm', value: 6430 },
    { what: 'sewSeconds', value: 200 },
    { what: 'angleDeg', value: 90 },
    { what: 'underlay.kinds', value: 'edge-run zigzag' },
    { what: 'underlay.kinds', value: '' },
    { what: 'kind', value: 'satin' },
    { what: 'split', value: true },
    { what: 'widthMm.max', value: null },
  ],
  share: [
    { before: 100, after: 104.6 },
    { before: 100, after: 0 },
  ],
  change: [
    { what: 'spacingMm.median', before: 0.4, after: 0.5 },
    { what: 'locks.start', before: true, after: false },
  ],
  object: [
    { before: 3, after: 3 },
    { before: 3, after: 4 },
  ],
  objects: [{ before: 12, after: 1, unchanged: 0 }],
  removed: [{ objects: [3] }, { objects: Array.from({ length: 40 }, (_, i) => 2 * i + 1) }],
  added: [{ objects: [3, 4, 5] }],
  moreChanged: [{ left: 1 }, { left: 28 }],
  flatter: [
    { before: BAD, after: FLAT, flatter: 'after', sure: true },
    { before: FLAT, after: BAD, flatter: 'before', sure: false },
    { before: FLAT, after: FLAT, flatter: 'after', sure: false },
    { before: FLAT, after: FLAT, flatter: null, sure: true },
  ],
  changedMost: [
    { objects: [{ object: '3', before: BAD, after: FLAT }] },
    {
      objects: [
        { object: '3 -> 4', before: BAD, after: FLAT },
        { object: '7', before: FLAT, after: BAD },
      ],
    },
  ],
  lost: [{ findings: 1 }],
  gained: [{ findings: 12 }],
};
