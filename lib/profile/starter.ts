/** A profile to start from: every figure as it is built in, with what it rests on beside it. */
import { USUALLY_ACCEPTED } from '../advice/accepted.js';
import type { Sourced } from '../core/sourced.js';
import { COMMERCIAL_HEAD } from '../materials/machine.js';
import {
  CATALOGUE_CURRENCY,
  CATALOGUE_PRICES,
  USUAL_PRICES,
  withCataloguePrices,
} from '../materials/prices.js';
import { USUAL_THREAD_USE } from '../materials/thread-use.js';
import { wrap } from '../report/wrap.js';
import { LIMITS, type Limit } from '../vetting/limits.js';
import { MACHINE_KEYS, THREAD_KEYS } from './keys.js';

const STEPS = ['note', 'warn', 'fail'] as const;

/** A line of comment, or a key and its value with the comment that goes before it. */
interface Entry {
  readonly comment: string;
  readonly key: string;
  readonly value: unknown;
}

/**
 * The text of that profile: JSON with comments. Read as it stands it changes nothing: a figure that is repeated stays built in.
 * @param schema where editors find what a profile may say, if they can
 */
export async function starterProfile(schema?: string): Promise<string> {
  const { CATALOGUE } = await import('../materials/catalogue.js');
  const { sheets, toppings } = withCataloguePrices(CATALOGUE_PRICES, CATALOGUE);
  const groups = [
    group(
      'limits',
      'From where on something is said. A number alone moves the mildest step; null says nothing at that step.',
      Object.entries(LIMITS).map(([key, limit]) => ({
        comment: limitComment(limit),
        key,
        value: stepsOf(limit),
      })),
    ),
    group(
      'machine',
      'The head that sews.',
      MACHINE_KEYS.map((key) => entryOf(key, COMMERCIAL_HEAD[key])),
    ),
    group(
      'thread',
      'What thread a design takes: thickness of goods and backing together, bobbin for each length of top thread.',
      THREAD_KEYS.map((key) => entryOf(key, USUAL_THREAD_USE[key])),
    ),
    group(
      'prices',
      `What things cost. Another currency than ${CATALOGUE_CURRENCY} needs every price in it; sheets and toppings for a piece that fits a left-chest hoop.`,
      [
        { comment: 'ISO 4217', key: 'currency', value: CATALOGUE_CURRENCY },
        { comment: 'typical, from memory; lieflat catalog sheets', key: 'sheets', value: sheets },
        { comment: 'typical, from memory; lieflat catalog toppings', key: 'toppings', value: toppings },
        ...Object.entries(USUAL_PRICES).map(([key, price]) => entryOf(key, price)),
      ],
    ),
    group('accept', 'The lowest grades (5 smooth, 1 severe) that may leave the shop.', [
      { comment: 'as sewn; our own assumption', key: 'grade', value: USUALLY_ACCEPTED.grade },
      {
        comment: 'after launderings; our own assumption',
        key: 'washedGrade',
        value: USUALLY_ACCEPTED.washedGrade,
      },
      { comment: 'how many', key: 'washes', value: USUALLY_ACCEPTED.washes },
    ]),
  ];
  const head = [
    'What this shop does its own way. Delete what is to stay as it is built in; lieflat profile shows what differs.',
    'Further keys: places and catalogue for own sizes and materials, calibration as lieflat calibrate writes it.',
  ].map((line) => commented(line, '  '));
  const schemaLine = schema === undefined ? [] : [`"$schema": ${JSON.stringify(schema)}`];
  return `{\n${head.join('')}${[...schemaLine.map((line) => `  ${line}`), ...groups].join(',\n\n')}\n}\n`;
}

function group(name: string, about: string, entries: readonly Entry[]): string {
  const lines = entries.map(
    ({ comment, key, value }) => `${commented(comment, '    ')}    ${JSON.stringify(key)}: ${spaced(value)}`,
  );
  return `${commented(about, '  ')}  ${JSON.stringify(name)}: {\n${lines.join(',\n')}\n  }`;
}

const WIDTH = 110;

const commented = (text: string, indent: string): string =>
  wrap(text, WIDTH, `${indent}// `)
    .map((line) => `${line}\n`)
    .join('');

/** On one line, with blanks inside the braces. */
const spaced = (value: unknown): string =>
  typeof value === 'object' && value !== null
    ? `{ ${Object.entries(value)
        .map(([key, v]) => `${JSON.stringify(key)}: ${JSON.stringify(v)}`)
        .join(', ')} }`
    : JSON.stringify(value);

const entryOf = (key: string, { value, low, high, unit, basis }: Sourced): Entry => ({
  comment: `${unit ? `${unit}, ` : ''}usually ${short(low)} to ${short(high)}; ${basis}`,
  key,
  value,
});

const short = (value: number): number => Number(value.toPrecision(4));

const limitComment = ({ meaning, unit, side, basis }: Limit): string =>
  `${meaning}; found ${side} this, in ${unit}; ${basis}`;

const stepsOf = (limit: Limit): Record<string, number> =>
  Object.fromEntries(STEPS.flatMap((step) => (limit[step] === null ? [] : [[step, limit[step]]])));
