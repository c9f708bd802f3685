/** Parameters for the phrases about a file that is written anew: relaid, or enlarged to be sewn again. */

import type { Phrases } from '../../../lib/report/phrases/words.js';
import { RESEW_MODES } from '../../../lib/rework/resew-mode.js';
import type { Examples } from './examples.js';

const FILE = 'name.dst';
const WRITTEN = [
  { file: FILE, written: true },
  { file: FILE, written: false },
] as const;
const COUNTS = [1, 8, 1200] as const;

/** One example with each value in a field. */
const eachOf = <K extends string, V, R extends object>(key: K, values: readonly V[], rest: R) =>
  values.map((value) => ({ ...rest, [key]: value })) as unknown as readonly [
    R & { readonly [P in K]: V },
    ...(R & { readonly [P in K]: V })[],
  ];

const looks = (grade: number, wrinkleMm: number) => ({ grade, wrinkleMm });

export const rework: Examples<Phrases['rework']> = {
  fault: {},
  notRelaid: [
    { because: 'no-room', to: 'fill' },
    { because: 'shows', to: 'edge-run+fill' },
    { because: 'float', to: 'edge-run' },
    { because: 'stitch-length', to: 'zigzag' },
    { because: 'underlay', to: 'center-run' },
    { because: 'locks', to: 'keep' },
    { because: 'objects', to: 'fill' },
    { because: 'no-satin', to: 'fill' },
  ],
  kept: {},
  notCompensated: {},
  notGrown: {},
};

export const relay: Examples<Phrases['relay']> = {
  relaid: eachOf('columns', COUNTS, {}),
  relaidTo: eachOf('own', ['some', 'none', 'both'] as const, { ...WRITTEN[0], laid: 'a light fill' }),
  allKept: [{ file: FILE }],
  keptNote: [{ objects: 1 }, { objects: 8 }],
  drawnOut: eachOf('objects', COUNTS, {}),
  drawnOutOf: WRITTEN,
  drawsInLittle: [{ file: FILE }],
  allLeft: [{ file: FILE }],
  noneNeeds: [{ file: FILE }],
  advised: [
    { name: 'woven polyester', looks: 'BAD (grade 1.5) -> SLIGHT (grade 3.5)', sure: '' },
    { name: 'cut-away', looks: 'LIES FLAT (grade 5)', sure: ' Too close to call.' },
  ],
  stitches: [
    { before: 938, after: 981 },
    { before: 938, after: 900 },
    { before: 0, after: 0 },
  ],
  thread: [
    { before: 6800, after: 6400 },
    { before: 6800, after: 6800 },
  ],
  machine: [
    { trims: [4, 4], jumps: [2, 2] },
    { trims: [0, 1], jumps: [1, 1200] },
  ],
  proof: [
    { columns: 1, moved: false },
    { columns: 8, moved: true },
  ],
  gone: [{ findings: 8 }],
  looks: [
    { before: looks(3, 0.32), after: looks(4, 0.13) },
    { before: looks(5, 0), after: looks(5, 0) },
  ],
  column: { thread: [{}], wrinkle: [{}] },
  underlay: [{ kinds: [] }, { kinds: ['center-run', 'double-zigzag'] }],
  change: [{ before: '109', after: '118' }],
  left: [
    { objects: [3], reason: 'it is not a satin column' },
    { objects: [3, 4], reason: 'too narrow or too short for a light fill' },
  ],
  leftNote: [{ objects: 1 }, { objects: 2 }],
  bare: [{ objects: [3] }, { objects: [3, 4] }],
  newFindings: [{ findings: 1 }],
  compensation: {
    result: [{ on: 'on twill, over one sheet', offMm: 0.05, narrowerMm: 0.4 }],
    column: { drawn: [{}] },
    more: [
      { left: 1, upToMm: 0.1 },
      { left: 12, upToMm: 0.1 },
    ],
  },
};

const HOLES = [
  { holes: 0, exposed: 0, exact: false },
  { holes: 1, exposed: 1, exact: false },
  { holes: 938, exposed: 0, exact: false },
  { holes: 938, exposed: 0, exact: true },
  { holes: 938, exposed: 266, exact: false },
] as const;
const NAMED = [
  { objects: 'object 3', one: true },
  { objects: 'objects 3, 4', one: false },
] as const;
const BY = { dx: 0.1, dy: -0.2 };

export const resew: Examples<Phrases['resew']> = {
  answer: HOLES,
  taken: [
    { file: FILE, mode: 'machine', grown: 'at 5 %', holes: 1, roomMm: null, askedMm: null },
    { file: FILE, mode: 'widen', grown: 'at 5 %', holes: 938, roomMm: 0.1, askedMm: 0.3 },
    { file: FILE, mode: 'regenerate', grown: 'at the same size', holes: 938, roomMm: 0, askedMm: null },
  ],
  unchanged: [
    { roomMm: null, slackMm: 0, find: false },
    { roomMm: null, slackMm: 0, find: true },
    { roomMm: 0, slackMm: 0, find: true },
    { roomMm: 0.1, slackMm: 0.3, find: false },
  ],
  grown: [
    { scaleX: 1, scaleY: 1 },
    { scaleX: 1.05, scaleY: 1.05 },
    { scaleX: 1.05, scaleY: 1.025 },
  ],
  percent: [{ scale: 1.05 }],
  way: [
    { mode: 'machine', given: true, find: false },
    { mode: 'regenerate', given: false, find: false },
    { mode: 'widen', given: false, find: true },
  ],
  moved: [
    { ...BY, toHide: true },
    { ...BY, toHide: false },
  ],
  size: [{ before: [56.3, 19], after: [59.1, 20] }],
  stitches: [
    { before: 938, after: 981, trims: 0 },
    { before: 1, after: 1, trims: 1 },
    { before: 938, after: 1200, trims: 3 },
  ],
  spacing: [{ beforeMm: 0.4, afterMm: 0.42, threadMm: 0.4 }],
  onlyScaled: [{ objects: 'object 3' }],
  runs: NAMED,
  failed: [
    { ...NAMED[0], mode: 'regenerate' },
    { ...NAMED[1], mode: 'widen' },
  ],
  unsure: [
    { ...NAMED[0], mode: 'widen' },
    { ...NAMED[1], mode: 'regenerate' },
  ],
  part: [
    { object: 3, underlay: false },
    { object: 3, underlay: true },
  ],
  parts: [
    { names: ['3'], more: 0 },
    { names: ['3', '4'], more: 12 },
  ],
  proof: eachOf('mode', RESEW_MODES, {}),
  gaps: [{ halfMm: 0.1, mostMm: 0.4 }],
  scale: [
    { smallest: null, complete: false, slackMm: 0, better: null },
    { smallest: null, complete: true, slackMm: 0.3, better: { ...BY, exposed: 0 } },
    { smallest: 1, complete: true, slackMm: 0, better: { ...BY, exposed: 12 } },
    { smallest: 1.065, complete: true, slackMm: 0, better: null },
  ],
  risk: [
    {
      before: { ...looks(3, 0.32), word: 'visible' },
      after: { ...looks(4, 0.13), word: 'slight' },
      tooClose: false,
    },
    {
      before: { ...looks(5, 0), word: 'lies flat' },
      after: { ...looks(5, 0), word: 'lies flat' },
      tooClose: true,
    },
  ],
  column: { room: [{}], spacing: [{}], place: [{}], gap: [{}] },
  takenWay: [{ mode: 'widen' }],
  take: [
    { mode: 'machine', scale: 1.05, holes: 938, exposed: 0, roomMm: 0.1 },
    { mode: 'machine', scale: 1.05, holes: 1, exposed: 0, roomMm: null },
    { mode: 'widen', scale: 1, holes: 938, exposed: 12, roomMm: null },
  ],
  hideAll: [
    { others: [{ mode: 'widen', scale: 1.05 }] },
    {
      others: [
        { mode: 'widen', scale: 1.05 },
        { mode: 'machine', scale: 1.1 },
      ],
    },
  ],
  objectsTitle: [
    { scale: 1.05, objects: 1, ties: false },
    { scale: 1.05, objects: 3, ties: true },
    { scale: 1, objects: 0, ties: true },
  ],
  listAll: [{ left: 1 }, { left: 28 }],
  enough: [
    { scale: 1.05, objects: [3], ties: false },
    { scale: 1.05, objects: [], ties: true },
    { scale: 1.05, objects: [3, 4], ties: true },
  ],
  newFindings: [{ findings: 1 }],
  map: {
    heading: eachOf('exposed', [0, 12], { mode: 'widen' as const, scale: 1.05, holes: 938, roomMm: 0.1 }),
    thread: [{ threadMm: 0.4 }],
    hidden: [{ holes: 1 }, { holes: 938 }],
    shown: [{ holes: 1 }, { holes: 266 }],
  },
};
