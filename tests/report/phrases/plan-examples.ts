/** Parameters for the phrases about a design on a fabric: the prediction, the plan, the card, the proof and the pictures. */

import type { Accepted } from '../../../lib/advice/accepted.js';
import type { Phrases } from '../../../lib/report/phrases/words.js';
import type { LaidUnderlay } from '../../../lib/stitch/laid-underlay.js';
import type { Examples } from './examples.js';

const FEW = [3] as const;
const MANY = Array.from({ length: 200 }, (_, i) => 2 * i + 1);
/** One object, some, and more than are named. */
const OBJECTS = [{ objects: FEW }, { objects: [1, 2, 3, 7] }, { objects: MANY }] as const;
const laidUnder = (to: LaidUnderlay) =>
  [
    { to, ...OBJECTS[0] },
    { to, ...OBJECTS[1] },
    { to, ...OBJECTS[2] },
  ] as const;
const WASHES = [{ washes: 1 }, { washes: 8 }] as const;
const NOT_WASHED: Accepted = { grade: 4, washedGrade: 4, washes: 0 };
const WASHED: Accepted = { grade: 3.5, washedGrade: 3.5, washes: 8 };
const STANDARDS = [NOT_WASHED, WASHED, { grade: 4, washedGrade: 3, washes: 1 }] as const;
const STANDARD = [
  { accepted: WASHED, only: true },
  { accepted: NOT_WASHED, only: false },
] as const;
const BACKING = 'cut-away, bonded, 2.5 oz/yd²';
const FILE = 'name.dst';
const RUNS = [{ quantity: 1 }, { quantity: 1200 }] as const;
const RUN = { labor: 0.5, spoilagePercent: 2, setupFee: 15, digitizing: 30, currency: 'USD' } as const;
const GRADES = [{ grade: 5 }, { grade: 3.5 }, { grade: 2.5 }, { grade: 1 }] as const;

export const setup: Examples<Phrases['setup']> = {
  laid: {},
  hooping: {
    'turn-others': [{ sheets: 2 }, { sheets: 3 }],
    'trim-backing': [{ leftMm: 10 }],
    'topping-last': [{ removedBy: 'water' }, { removedBy: 'heat' }],
    'hoop-marks': [{ washable: true }, { washable: false }],
  },
  changes: {},
  anotherGarment: [{}],
  cautions: {},
  capOrder: [{ objects: [4] }, { objects: [4, 7, 9] }],
  traceInHoop: [{ roomMm: 0.35 }, { roomMm: 0 }],
  material: [{ name: BACKING }, { name: 'a sheet of the shop' }],
  grade: GRADES,
  washes: WASHES,
  standard: STANDARDS,
  garment: [
    { name: 'hoodie', madeOf: 'sweatshirt fleece, a thick knit brushed on one side', takenAs: null },
    { name: 'apron of the shop', madeOf: 'waxed canvas', takenAs: 'apron' },
  ],
  failures: [
    { codes: ['needle-points-piled'] },
    { codes: ['file-truncated-record', 'file-no-header', 'does-not-fit-hoop', 'lettering-too-small'] },
  ],
  wovenSheet: [{ sheetName: 'woven polyester', massGPerM2: 55 }],
  warnings: [{ codes: ['needle-points-piled'] }, { codes: ['satin-too-wide', 'file-no-end-record'] }],
};

export const advice: Examples<Phrases['advice']> = {
  why: {
    'meets-standard': STANDARD,
    'may-miss-standard': [
      { accepted: WASHED, only: true, upper: null },
      { accepted: WASHED, only: false, upper: { wrinkleMm: 0.31, grade: 3, washes: 8 } },
      { accepted: NOT_WASHED, only: true, upper: { wrinkleMm: 0.2, grade: 3.5, washes: 0 } },
    ],
    'cheaper-may-miss': [
      { accepted: { grade: 3.5, washedGrade: 3.5, washes: 8 }, upper: null },
      {
        accepted: { grade: 3.5, washedGrade: 3.5, washes: 8 },
        upper: { wrinkleMm: 0.43, grade: 2.5, washes: 8 },
      },
    ],
    'comes-closest': STANDARD,
    'usual-sheet-first': [
      { flatterMm: 0.02, washes: 8 },
      { flatterMm: 0.2, washes: 0 },
    ],
    'beside-recommended': [
      { cost: 'less', lowerMm: -0.2, washes: 8, accepted: WASHED },
      { cost: 'more', lowerMm: 0.2, washes: 0, accepted: WASHED },
      { cost: 'same', lowerMm: 0.2, washes: 1, accepted: WASHED },
    ],
    'lighter-underlay': [
      { to: 'fill', columns: 1, nowMm: [0, 0], washedMm: [0.31, 0.1], washes: 8 },
      { to: 'edge-run+fill', columns: 12, nowMm: [0.31, 0.1], washedMm: [0, 0], washes: 0 },
    ],
    'underlay-where-none': [
      { to: 'fill', columns: 1 },
      { to: 'edge-run+fill', columns: 12 },
    ],
    'underlay-kept': [
      { columns: 1, because: 'lies-flat' },
      { columns: 12, because: 'meets-standard' },
      { columns: 2, because: 'no-gain' },
    ],
    'against-rule': [
      { rule: { code: 'sheets-that-stay', params: {} } },
      { rule: { code: 'stable-woven', params: { small: false } } },
    ],
    'towel-backing': [
      { light: true, stitches: 938, most: 8000 },
      { light: false, stitches: 9115, most: 8000 },
    ],
    'stable-woven': [{ small: true }, { small: false }],
    topping: [
      { because: 'not-washable' },
      { because: 'pile' },
      { because: 'open-knit' },
      { because: 'elastic' },
    ],
    needle: [
      { because: 'cap' },
      { because: 'fine-knit' },
      { because: 'narrow-on-knit' },
      { because: 'knit' },
      { because: 'heavy' },
      { because: 'heavy-woven' },
      { because: 'narrow' },
      { because: 'narrow-for-thread' },
      { because: 'woven' },
    ],
    speed: [
      { speedSpm: 600, because: 'cap' },
      { speedSpm: 650, because: 'thin-knit' },
      { speedSpm: 700, because: 'pile' },
      { speedSpm: 1000, because: 'wide-satin' },
    ],
  },
  beforeHooping: [
    { ask: ['needle-points-piled', 'file-no-end-record'], relay: false },
    { ask: ['satin-too-wide'], relay: true },
    { ask: [], relay: true },
  ],
  title: [{ file: FILE, fabric: 'twill' }],
  label: { washed: WASHES, run: RUNS, price: RUNS, time: RUNS },
  backing: [
    { name: BACKING, kinds: 1 },
    { name: `${BACKING} + woven polyester`, kinds: 2 },
  ],
  underlay: laidUnder('fill'),
  relayWith: [{ command: 'lieflat relay name.dst' }],
  because: [
    { reasons: [{ because: 'failures', codes: ['needle-points-piled'] }, { because: 'no-hoop' }] },
    { reasons: [{ because: 'warnings', codes: ['missing-lock', 'no-trims', 'satin-too-wide'] }] },
    { reasons: [{ because: 'underlay' }, { because: 'may-miss', washes: 8 }] },
    { reasons: [{ because: 'too-large-for-hoop' }] },
    { reasons: [{ because: 'misses' }] },
    { reasons: [{ because: 'against-rule' }] },
    { reasons: [{ because: 'may-miss', washes: null }] },
    { reasons: [{ because: 'may-miss', washes: 0 }] },
  ],
  fixFirst: [{}],
  noHoop: [{}],
  whichObject: [{}],
  speed: [{ speedSpm: 650 }, { speedSpm: 1000 }],
  wrongHoop: [{ name: 'round hoop, 90 mm' }],
  looks: [
    { grade: 3.5, wrinkleMm: 0.21, range: [0.01, 0.42] },
    { grade: 5, wrinkleMm: 0, range: [0, 0] },
  ],
  cost: [
    { total: 1, backing: 0.1, thread: 0.02, machine: 0.88, currency: 'USD', minutes: 1, topped: false },
    { total: 12.3, backing: 0, thread: 2.3, machine: 10, currency: 'EUR', minutes: 48.2, topped: true },
  ],
  runCost: [
    { ...RUN, cost: { each: 1.2, run: 28.8 } },
    { labor: 0, spoilagePercent: 0, currency: 'EUR', cost: { each: 1.2, run: 28.8 } },
  ],
  runPrice: [
    { ...RUN, each: 3, run: 102, marginPercent: 60, offPercent: 0 },
    { ...RUN, setupFee: 0, each: 2.7, run: 64.8, marginPercent: 55, offPercent: 10 },
  ],
  startingPrice: [{}],
  runTime: [
    { machineMinutes: 12, laborMinutes: 0.5, heads: 1 },
    { machineMinutes: 75, laborMinutes: 36, heads: 6 },
  ],
  column: { cost: [{ currency: 'USD' }] },
  gradeAndHeight: [{ grade: 3.5, wrinkleMm: 0.2 }],
  planSetup: [
    { backing: BACKING, to: null },
    { backing: BACKING, to: 'edge-run' },
  ],
  morePlans: [{ left: 1 }, { left: 30 }],
  plansNote: [
    { compared: 18, listed: 4 },
    { compared: 2, listed: 2 },
  ],
  relay: [
    { objects: FEW, to: 'fill', from: ['zigzag'], heights: [[0.3, 0.1]], washes: 0 },
    {
      objects: [1, 2],
      to: 'edge-run',
      from: null,
      heights: [
        [0.3, 0.1],
        [0.4, 0.2],
      ],
      washes: 1,
    },
    { objects: FEW, to: 'center-run', from: [], heights: [[0, 0]], washes: 8 },
    { objects: [1, 2], to: 'fill', from: ['edge-run', 'zigzag'], heights: [[0, 0]], washes: 8 },
  ],
  split: [
    { objects: [3], over: null },
    { objects: [1, 2, 3, 7], over: 'fill' },
  ],
  locks: OBJECTS,
  drawsIn: [
    { objects: FEW, movedMm: [0.6], mostMm: 0.5 },
    { objects: [1, 2], movedMm: [0.6, 0.9], mostMm: 0.5 },
  ],
  drawnOut: [
    { amounts: [{ mm: 0.2, objects: FEW }] },
    {
      amounts: [
        { mm: 0.2, objects: FEW },
        { mm: 0.3, objects: [4, 5] },
      ],
    },
  ],
  ids: OBJECTS,
  drawnOutNote: [{ stepMm: 0.1 }],
  trust: [{ thread: 'polyester, 40 weight' }],
  sewIt: [
    {
      backing: BACKING,
      underlay: null,
      topping: null,
      needle: '75/11 sharp',
      now: 5,
      washed: 5,
      washes: 0,
      total: 1,
      currency: 'USD',
    },
    {
      backing: BACKING,
      underlay: { to: 'fill', objects: [1, 2] },
      topping: 'water-soluble film',
      needle: '75/11 sharp',
      now: 3.5,
      washed: 2,
      washes: 8,
      total: 1.5,
      currency: 'USD',
    },
  ],
};

export const questions: Examples<Phrases['questions']> = {
  each: {
    stretch: { answers: {} },
    body: { answers: {} },
    surface: { answers: {} },
    care: { answers: {} },
  },
  again: [{ answers: ['yes', 'no'] }],
  unknown: [
    { typed: 'blouson', akin: [] },
    { typed: 'vest', akin: ['fleece vest', 'denim vest'] },
  ],
  ledTo: [{ fabric: 'fleece', name: 'fleece' }],
};

const STACKS = { best: 'woven polyester', other: 'none' } as const;

export const pucker: Examples<Phrases['pucker']> = {
  on: [{ file: FILE, fabric: 'twill' }],
  label: {},
  cause: [{ short: 'wide stitches', why: 'long swings of satin pull harder', share: 0.28 }],
  wrinkles: [
    { wrinkleMm: 0.31, range: [0.1, 0.5], grades: 'slight to bad' },
    { wrinkleMm: 0, range: [0, 0], grades: 'lies flat' },
  ],
  pullIn: [{ mm: 0.2 }],
  looks: GRADES,
  sewn: [
    { thread: 'polyester, 40 weight', grainDeg: 90, stretchPercent: 0, washes: 0 },
    { thread: 'rayon, 40 weight', grainDeg: 45, stretchPercent: 2.5, washes: 1 },
    { thread: 'rayon, 40 weight', grainDeg: 0, stretchPercent: 8, washes: 8 },
  ],
  column: { place: [{}], high: [{}], pullIn: [{}] },
  setByYou: [{ kind: 'satin' }],
  listAll: [{ left: 1 }, { left: 28 }],
  farNote: [{ mostMm: 0.5 }],
  values: [{ own: [] }, { own: ['twill'] }, { own: ['twill', 'tearaway-1.8oz-firm'] }],
  unknowns: [
    { first: 'how stiff the fabric is', second: null },
    { first: 'how stiff the fabric is', second: 'how stiff the backing is' },
  ],
  measure: [
    { object: 2, fileMm: 4.3, sewnMm: [3.8, 4], narrows: null },
    { object: 2, fileMm: 4.3, sewnMm: [4, 4], narrows: 0.2 },
  ],
  comparison: {
    answer: [
      { file: FILE, fabric: 'twill', best: BACKING, backings: 2, order: 'sure' },
      { file: FILE, fabric: 'twill', best: 'none', backings: 3, order: 'open' },
      { file: FILE, fabric: 'twill', best: 'none', backings: 2, order: 'alike' },
    ],
    rank: [{ rank: 1, stack: BACKING }],
    figures: [
      {
        grade: 3.5,
        height: 'wrinkles about 0.21 mm high',
        grades: 'slight to bad',
        pullInMm: 0.2,
        cause: null,
      },
      {
        grade: 5,
        height: 'no wrinkles predicted',
        grades: 'lies flat',
        pullInMm: 0,
        cause: 'wide stitches',
      },
    ],
    alike: [STACKS],
    flatter: [
      { ...STACKS, fall: 0.4 },
      { ...STACKS, fall: 1 },
    ],
    tooClose: [
      { ...STACKS, fall: 0.1 },
      { ...STACKS, fall: 1 },
    ],
  },
};

export const proof: Examples<Phrases['proof']> = {
  title: [{ name: 'crest' }],
  size: [
    { widthMm: 78.3, heightMm: 90.5, stitches: 1 },
    { widthMm: 78.3, heightMm: 90.5, stitches: 12_158 },
  ],
  threads: [{ names: ['navy'] }, { names: ['navy', '#c8102e', 'white'] }],
  garment: [{ name: 'white' }],
  someStandIns: [{ from: 3 }],
  asItIs: [{ fabric: 'twill', backing: BACKING }],
  advised: [
    { backing: BACKING, underlay: false },
    { backing: BACKING, underlay: true },
  ],
  wrinkles: [
    { wrinkleMm: 0, grade: 5, washes: 0 },
    { wrinkleMm: 0.31, grade: 3, washes: 1 },
    { wrinkleMm: 0.31, grade: 3, washes: 8 },
  ],
  low: [
    { threads: [{ number: 1, name: 'navy' }] },
    {
      threads: [
        { number: 1, name: 'navy' },
        { number: 3, name: null },
      ],
    },
  ],
  bar: [{}],
};

export const picture: Examples<Phrases['picture']> = {
  size: [
    { widthMm: 78.3, heightMm: 90.5, stitches: 1, objects: 1 },
    { widthMm: 78.3, heightMm: 90.5, stitches: 12_158, objects: 46 },
  ],
  notDrawn: [{ drawn: 500_000, left: 1 }],
  on: [{ fabric: 'twill' }],
  over: [{ backing: BACKING }],
  key: {
    width: [
      { from: null, to: 1 },
      { from: 1, to: 2 },
    ],
    grade: [{ word: 'slight', best: 4.4, from: 3.5 }],
    density: [
      { from: null, to: 1 },
      { from: 1, to: 2 },
    ],
    flat: [{ lowestMm: 0.05 }],
    wrinkles: [
      { fromMm: 0.05, toMm: 0.1 },
      { fromMm: 0.8, toMm: null },
    ],
    lower: [{ lowestMm: 0.05 }],
  },
  answer: [{ word: 'slight', grade: 3.5, height: 'wrinkles about 0.21 mm high' }],
};

const REDUCTIONS = [{ reduction: 1 }, { reduction: 3 }] as const;

export const card: Examples<Phrases['card']> = {
  pageTitle: [{ file: FILE }],
  title: [{ file: FILE, fabric: 'twill' }],
  stitches: [{ n: 1 }, { n: 12_158 }],
  machineTime: [{ seconds: 40 }, { seconds: 4000 }],
  threads: [{ topMm: 32_500, bobbinMm: 10_800 }],
  trims: [{ n: 1 }, { n: 14 }],
  cost: [{ total: 1.5, currency: 'USD' }],
  alerts: {
    notWhole: [
      { drawn: 1, left: 1 },
      { drawn: 500_000, left: 12_000 },
    ],
    notGoodEnough: [
      { standard: 'grade 3.5 as sewn', changes: [] },
      { standard: 'grade 3.5 as sewn', changes: ['Hoop the fabric without stretch.'] },
    ],
    mayMiss: [{ standard: 'grade 3.5 as sewn' }],
    changedFile: laidUnder('edge-run+fill'),
  },
  job: {
    order: [{ text: '4711' }],
    customer: [{ text: 'the ball club' }],
    quantity: [{ n: 1 }, { n: 24 }],
    garmentColor: [{ text: 'charcoal' }],
    due: [{ text: 'May 3' }],
    remarks: [{ text: 'mind the seam' }],
  },
  moreSheets: [{ sheets: 2 }, { sheets: 5 }],
  sheet: [{ title: 'crest.dst on twill', sheet: 2, of: 5 }],
  parts: {},
  pictureOf: REDUCTIONS,
  hoopPictureOf: REDUCTIONS,
  scale: REDUCTIONS,
  bars: REDUCTIONS,
  origin: [
    { right: null, up: null },
    { right: 3, up: null },
    { right: -3, up: -12.34 },
    { right: null, up: 4 },
  ],
  hoopAt: REDUCTIONS,
  colors: {
    part: [{ first: 1, last: 12 }],
    share: [{ share: 0.001 }, { share: 0.4 }],
    more: [{ left: 1 }, { left: 40 }],
    stop: [
      { after: [1], left: 0 },
      { after: [1, 20], left: 7 },
    ],
  },
  risk: {
    washed: WASHES,
    looks: [
      { when: 'As sewn', grade: 3.5, wrinkleMm: 0.31, lowestMm: 0.05 },
      { when: 'As sewn', grade: 5, wrinkleMm: 0, lowestMm: 0.05 },
    ],
    note: [{ washed: true }, { washed: false }],
    from: [{ mm: 0.8 }],
    between: [{ from: 0.1, to: 0.2 }],
  },
  layers: {
    note: [{ sheets: 0 }, { sheets: 1 }, { sheets: 3 }],
    toppingLast: [{ name: 'water-soluble film' }],
    backingNumber: [{ n: 2 }],
    grain: [{ name: 'twill', grain: 'upright' }],
    leaning: [
      { deg: 45, to: 'left' },
      { deg: 22.5, to: 'right' },
    ],
    turned: [
      { deg: 45, clockwise: true },
      { deg: 22.5, clockwise: false },
    ],
  },
  setup: {
    speedAtMost: [{ speedSpm: 650 }],
    field: [
      { name: 'round hoop, 90 mm', round: true, widthMm: 90, heightMm: 90 },
      { name: 'frame, 430 × 290 mm', round: false, widthMm: 430, heightMm: 290 },
    ],
  },
  checks: { needle: [{ name: '75/11 sharp' }], layers: {}, hoop: {}, test: {} },
  cautions: { children: {} },
  record: {},
};

const SHOULD = [
  { limit: null },
  { limit: 0.3 },
  { limit: 12, to: 'edge-run+fill' },
  { limit: 12, to: 'center-run' },
  { limit: 12, to: 'fill', onSoft: true, ofShort: true },
] as const;
const CODES = { names: ['satin too wide', 'no trims'], done: true };

export const reply: Examples<Phrases['reply']> = {
  should: {
    'no-stitches': SHOULD,
    'does-not-fit-hoop': SHOULD,
    'little-room-in-hoop': SHOULD,
    'does-not-fit-place': SHOULD,
    'satin-too-wide': SHOULD,
    'satin-too-narrow': SHOULD,
    'wide-satin-heavy-underlay': SHOULD,
    'wide-satin-no-underlay': SHOULD,
    'satin-over-foam': SHOULD,
    'satin-too-dense': SHOULD,
    'satin-too-open': SHOULD,
    'fill-too-dense': SHOULD,
    'fill-too-open': SHOULD,
    'fill-too-many-points': SHOULD,
    'dense-place': SHOULD,
    'layers-stacked': SHOULD,
    'needle-points-piled': SHOULD,
    'stitch-too-short': SHOULD,
    'stitch-too-long': SHOULD,
    'jump-not-trimmed': SHOULD,
    'missing-lock': SHOULD,
    'no-trims': SHOULD,
    'lettering-too-small': SHOULD,
  },
  topics: {},
  verdict: {},
  relaid: { done: {}, can: {} },
  title: [{ file: 'crest.dst' }],
  titleFine: [{ file: 'crest.dst' }],
  line: [
    { items: 1, file: 'crest.dst', fabric: null },
    { items: 9, file: 'crest.dst', fabric: 'twill' },
  ],
  fixedHere: [{ file: 'crest.dst' }],
  nothing: [{ file: 'crest.dst' }],
  design: [{ widthMm: 86.2, heightMm: 41, stitches: 1234 }],
  where: [
    { block: null, color: null, stitch: null, place: null, places: 1 },
    { block: 2, color: 'navy', stitch: 1234, place: '3.0, 4.0 mm', places: 7 },
    { block: null, color: null, stitch: null, place: '3.0, 4.0 mm', places: 1 },
    { block: null, color: null, stitch: null, place: '3.0, 4.0 mm', places: 2 },
  ],
  measured: [{ text: '4.9 mm' }],
  widestColumn: [{ text: '4.9 mm' }],
  compensation: [
    { mm: 0.15, places: 1, stitches: [1204] },
    { mm: 0.2, places: 2, stitches: [1, 88] },
    { mm: 0.2, places: 10, stitches: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] },
  ],
  compensationShould: [{ each: '0.15 mm' }],
  fine: [{ topics: ['trims'] }],
  minor: [{ names: ['layers stacked'] }, { names: ['layers stacked', 'heavy underlay'] }],
  changed: [{ columns: 1 }],
  can: [{ columns: 8 }],
  fixed: [CODES, { ...CODES, done: false }],
  stays: [CODES],
};
