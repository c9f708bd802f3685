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
  fitAgain: [{ place: 'shop.json: line 3' }],
  none: [{ name: 'lieflat.config.json' }],
  inUse: [
    { path: 'shop.json', figures: 0 },
    { path: 'shop.json', figures: 1 },
    { path: 'shop.json', figures: 12 },
  ],
  column: {},
};

const OBJECT = { file: 'crest.dst', object: 3 };
const KINDS = ['zigzag', 'fill'];
/** What is wrong and what to do go by the same figures. */
const both = <P>(...params: [P, ...P[]]) => ({ what: params, remedy: params });
const SURE = [{ sure: true }, { sure: false }] as const;
const BESIDE = { above: SURE, below: SURE };
const SEW_OUT = { file: 'crest.dst', fabric: 'poplin', stack: 'none' };

export const calibrate: Examples<Phrases['calibrate']> = {
  faults: {
    'file-missing': both({}),
    'fabric-missing': both({}),
    'fabric-unknown': both(
      { fabric: 'pique-knti', near: 'pique-knit' },
      { fabric: 'constructor', near: null },
    ),
    'stack-missing': both({ usual: 'cutaway-2.5oz' }),
    'stack-unreadable': both({ stack: 'felt', what: 'no sheet of that name', todo: 'choose another' }),
    'underlay-unknown': both({ part: 'felt:1', kinds: KINDS }),
    'underlay-of-nothing': both({ part: 'fill', kinds: KINDS }),
    'underlay-twice': both({ object: 1, kinds: ['zigzag', 'fill'] }),
    'washes-unreadable': both({ washes: '1.5' }),
    'grade-unreadable': both({ grade: 'good' }),
    'width-unreadable': both({ width: 'wide' }),
    'width-of-nothing': both({}),
    'object-unreadable': both({ object: 'left A' }),
    'width-after-washing': both({ washes: 1 }, { washes: 3 }),
    'design-unreadable': both({ file: 'crest.dst', what: 'no such file', todo: 'check the name' }),
    'design-empty': both({ file: 'crest.dst' }),
    'object-unknown': both(OBJECT),
    'object-no-column': both(OBJECT),
    'object-no-width': both(OBJECT),
    'object-uneven': both({ ...OBJECT, fromMm: 2.04, toMm: 6 }),
    'width-of-another': both({ ...OBJECT, fileMm: 5, seenMm: 47 }),
  },
  lacks: {
    'few-grades': both(
      { graded: 0, needed: 10, rows: 0 },
      { graded: 0, needed: 10, rows: 3 },
      { graded: 1, needed: 10, rows: 3 },
      { graded: 9, needed: 10, rows: 9 },
    ),
    'one-setup': both({ fabric: 'poplin', stack: 'none' }),
    'grades-alike': both({ least: 4, most: 4 }, { least: 4, most: 5 }),
    'no-effect': both({ graded: true }, { graded: false }),
    'not-told-apart': both({ names: ['tension', 'scoreHalf'] }),
  },
  meanings: {},
  untold: {},
  stands: { tension: BESIDE, pointSpring: BESIDE, longestSpan: BESIDE, firstWash: BESIDE, scoreHalf: BESIDE },
  log: [
    { path: 'log.csv', sewOuts: 1, setups: 1 },
    { path: 'log.csv', sewOuts: 59, setups: 27 },
  ],
  gradesOff: [{ before: 0.9, now: 0.65 }],
  widthsOff: [{ before: 0.08, now: 0.03 }],
  wrong: [{ rows: 1 }, { rows: 2 }],
  ungraded: [{ rows: 1 }, { rows: 2 }],
  gradesUnused: [{ lack: 'every grade is 4' }],
  littleTold: [{ meaning: 'how soon your fabric wrinkles' }],
  atBound: [{ meaning: 'how soon your fabric wrinkles' }],
  held: [{ meaning: 'how soon your fabric wrinkles', why: 'no sew-out shows it; grade some' }],
  column: {},
  rowAt: [{ path: 'log.csv', line: 3 }],
  sewOut: [
    { ...SEW_OUT, underlay: null, washes: 0 },
    { ...SEW_OUT, underlay: 'fill:1 2', washes: 1 },
    { ...SEW_OUT, underlay: null, washes: 8 },
  ],
  objectOf: [{ object: 3, sewOut: 'crest.dst on poplin over none, not washed' }],
  grade: [{ grade: 3.5 }],
  width: [{ mm: 4.7 }],
  off: [
    { by: 2.9, decimals: 1, marked: true },
    { by: -0.03, decimals: 2, marked: false },
  ],
  sewAndGrade: [{ times: 4, sewOut: 'crest.dst on poplin over none, not washed' }],
  measure: [{ object: 3, sewOut: 'crest.dst on poplin over none, not washed' }],
  tells: [{ meaning: 'how soon your fabric wrinkles' }],
  narrows: [{ name: 'tension', part: 0.15 }],
  value: [
    { value: 0.147, unit: 'N' },
    { value: 0.5612, unit: '' },
  ],
  interval: [{ low: 0.119, high: 1 }],
  gradeUnseen: [{ off: 0.71 }],
  widthUnseen: [{ off: 0.04 }],
  trust: { grades: [{ off: 0.5 }], widths: [{ off: 0.1 }], ranges: [{ level: 0.95 }] },
};
