/** Parameters for the phrases about a whole order. */
import type { Phrases } from '../../../lib/report/phrases/words.js';
import type { Examples } from './examples.js';

const STANDARD = { grade: 3.5, washedGrade: 3.5, washes: 8 };
const UPPER = { wrinkleMm: 0.31, grade: 3, washes: 8 };
const NOTHING_WRONG = { checks: 0, stops: 0, errors: 0 };

export const order: Examples<Phrases['order']> = {
  title: [
    { lines: 1, pieces: 1 },
    { lines: 12, pieces: 1240 },
  ],
  cardsTitle: [{ cards: 1 }, { cards: 12 }],
  verdict: {},
  answer: [
    { lines: 12, setups: 1, ...NOTHING_WRONG },
    { lines: 1, setups: 1, checks: 0, stops: 1, errors: 0 },
    { lines: 90, setups: 3, checks: 4, stops: 2, errors: 10 },
  ],
  error: [
    { line: 4, what: 'the quantity cannot be "x"', todo: 'give a whole number' },
    { line: 5, what: 'a.dst: the file is empty; copy it again', todo: '' },
  ],
  setupTitle: [
    { fabric: 'fleece', lines: [4] },
    { fabric: 'performance knit, polyester', lines: [2, 3, 4, 9] },
  ],
  label: {},
  backing: [
    { name: 'woven polyester', kinds: 1 },
    { name: 'woven polyester + woven polyester turned 45°', kinds: 2 },
  ],
  speed: [{ speedSpm: 650 }],
  holds: [
    { ...STANDARD, meets: 'yes', upper: null, lines: 1 },
    { ...STANDARD, meets: 'yes', upper: null, lines: 12 },
    { ...STANDARD, meets: 'may', upper: UPPER, lines: 2 },
    { ...STANDARD, meets: 'may', upper: null, lines: 2 },
    { ...STANDARD, washes: 0, meets: 'no', upper: null, lines: 2 },
  ],
  hoops: [
    { hoops: [{ hoopName: 'round hoop, 90 mm', lines: [1, 2] }] },
    {
      hoops: [
        { hoopName: 'round hoop, 90 mm', lines: [1, 2] },
        { hoopName: 'cap frame', lines: [3] },
      ],
    },
  ],
  failures: [{ line: 3, codes: ['needle-points-piled', 'no-stitches'] }],
  warnings: [
    { lines: [3], codes: ['satin-too-dense'] },
    { lines: [3, 5], codes: ['needle-points-piled', 'file-no-header'] },
  ],
  noHoop: [
    { line: 3, hoop: null },
    { line: 3, hoop: 'round hoop, 90 mm' },
  ],
  missing: [
    { line: 3, meets: 'no', upper: null },
    { line: 3, meets: 'may', upper: UPPER },
    { line: 3, meets: 'may', upper: null },
  ],
  cap: [
    { line: 3, objects: [5] },
    { line: 12, objects: [2, 9] },
  ],
  smallLetters: [{ lines: [3] }, { lines: [3, 4, 5, 8] }],
  relaidFiles: [{ lines: [3] }, { lines: [3, 4, 5, 8] }],
  madeOf: [
    { garment: 'hoodie', madeOf: 'sweatshirt fleece', takenAs: null },
    { garment: 'silk polo', madeOf: 'piqué knit', takenAs: 'polo' },
  ],
  column: { price: [{ currency: 'USD' }], cut: [{}] },
  grade: [{ grade: 3.5 }],
  minutes: [{ minutes: 1.95 }],
  pictureOf: [{ line: 3, file: 'name.dst' }],
  pictureElsewhere: [{ line: 3, proof: 'proofs/name.svg' }],
  kind: {},
  pieces: [
    { pieces: 12, spare: 0, forTests: 0 },
    { pieces: 1200, spare: 24, forTests: 2 },
  ],
  cut: [{ widthMm: 200, heightMm: 200 }],
  thread: [{ lengthMm: 232_500 }],
  cost: [{ cost: 31.289, currency: 'USD' }],
  startingPrice: [{}],
  ofLine: [{ line: 3, says: 'needle points piled' }],
  price: [
    { price: 52.14, currency: 'USD', offPercent: 0, setupFee: 0, digitizing: 0 },
    { price: 52.14, currency: 'USD', offPercent: 10, setupFee: 25, digitizing: 40 },
  ],
  machine: [
    { minutes: 89.9, heads: 1 },
    { minutes: 89.9, heads: 6 },
  ],
  labor: [{ minutes: 25 }],
  made: [{ folder: 'done' }],
  unread: [{ heads: ['Rush', 'Shipping'], read: ['file', 'garment'] }],
  logged: [
    { rows: 1, log: 'sew-outs.csv' },
    { rows: 3, log: 'sew-outs.csv' },
  ],
};
