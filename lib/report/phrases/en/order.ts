/** A whole order: what to load, what to watch, what to take from the shelf, what it costs. */
import type { Meets, UpperEnd } from '../../../advice/meets.js';
import type { FindingCode } from '../../../vetting/finding.js';
import { capital } from '../../quantities.js';
import type { Voice } from '../voice.js';
import { smallLetters, startingPrice, upperEnd } from './advice.js';
import { namesFound, setup } from './setup.js';

/** Numbers of lines of an order. */
export interface Lines {
  lines: readonly number[];
}

const lines = ({ lines: numbers }: Lines, say: Voice): string =>
  `${numbers.length === 1 ? 'line' : 'lines'} ${say.ids(numbers)}`;

/** Pieces that are cut alike. */
export interface Cut {
  pieces: number;
  spare: number;
  forTests: number;
  widthMm: number;
  heightMm: number;
}

export const order = {
  title: ({ lines: count, pieces }: { lines: number; pieces: number }, say: Voice): string =>
    `Order: ${say.counted(count, 'line')}, ${say.counted(pieces, 'piece')}`,
  cardsTitle: ({ cards }: { cards: number }, say: Voice): string => say.counted(cards, 'operator card'),
  /** The answer. */
  verdict: { sound: 'GOOD TO SEW', warn: 'CHECK FIRST', fail: 'STOP' },
  answer: (
    {
      lines: count,
      setups,
      checks,
      stops,
      errors,
    }: Record<'lines' | 'setups' | 'checks' | 'stops' | 'errors', number>,
    say: Voice,
  ): string => {
    const wrong = [
      ...(stops > 0 ? [`${say.count(stops)} not to sew as ${stops === 1 ? 'it is' : 'they are'}`] : []),
      ...(checks > 0 ? [`${say.count(checks)} to check first`] : []),
      ...(errors > 0 ? [`${say.count(errors)} not done`] : []),
    ];
    const all = `${say.counted(count, 'line')} on ${say.counted(setups, 'setup')}`;
    return wrong.length === 0 ? all : `${all}: ${say.list(wrong)}`;
  },
  errorsTitle: 'Not done',
  error: ({ line, what, todo }: { line: number; what: string; todo: string }, _: Voice): string =>
    `Line ${line}: ${what}${todo === '' ? '' : `; ${todo}`}.`,
  loadTitle: 'What to load',
  /** Of hooping notes that hold for every setup. */
  allSetupsTitle: 'Hooping, for all of them',
  setupTitle: ({ fabric, lines: numbers }: { fabric: string } & Lines, say: Voice): string =>
    `${fabric}: ${lines({ lines: numbers }, say)}`,
  label: {
    backing: 'backing',
    topping: 'topping',
    needle: 'needle',
    speed: 'speed',
    hoop: 'hoop',
    holds: 'lies flat?',
    cost: 'cost',
    price: 'price',
    machine: 'machine',
    labor: 'hands',
  },
  backing: ({ name, kinds }: { name: string; kinds: number }, _: Voice): string =>
    kinds > 1 ? `${name} (from the garment outward)` : name,
  speed: ({ speedSpm }: { speedSpm: number }, say: Voice): string =>
    `${say.count(speedSpm)} stitches a minute`,
  /** One for all lines of a setup, or which line takes which. */
  hoops: ({ hoops }: { hoops: readonly (Lines & { readonly hoopName: string })[] }, say: Voice): string =>
    hoops.length === 1
      ? hoops[0].hoopName
      : say.list(hoops.map(({ hoopName, ...of }) => `${hoopName} for ${lines(of, say)}`)),
  /** Whether all lines of a setup keep the standard. */
  holds: (
    {
      meets,
      upper,
      grade,
      washedGrade,
      washes,
      lines: count,
    }: Record<'grade' | 'washedGrade' | 'washes' | 'lines', number> & {
      meets: Meets;
      upper: UpperEnd | null;
    },
    say: Voice,
  ): string => {
    const standard = setup.standard({ grade, washedGrade, washes }, say);
    if (meets === 'yes')
      return count === 1 ? `meets your standard (${standard})` : `all lines meet your standard (${standard})`;
    return meets === 'may'
      ? `may miss your standard (${standard}): ${upper === null ? 'it is close' : upperEnd(upper, say)}`
      : `no backing fully meets your standard (${standard}); this comes closest`;
  },
  watchTitle: 'What to watch',
  failures: ({ line, codes }: { line: number; codes: readonly FindingCode[] }, say: Voice): string =>
    `Line ${line}: ${setup.failures({ codes }, say)}`,
  /** Of the file itself, where it may be sewn all the same. */
  warnings: ({ lines: numbers, codes }: Lines & { codes: readonly FindingCode[] }, say: Voice): string =>
    `${capital(lines({ lines: numbers }, say))}: look at ${numbers.length === 1 ? 'the file' : 'the files'} first: ${namesFound({ codes }, say)}.`,
  noHoop: ({ line, hoop }: { line: number; hoop: string | null }, _: Voice): string =>
    hoop === null
      ? `Line ${line}: no hoop that is known holds the design.`
      : `Line ${line}: the design does not fit the ${hoop}.`,
  missing: (
    { line, meets, upper }: { line: number; meets: Meets; upper: UpperEnd | null },
    say: Voice,
  ): string => {
    if (meets === 'no')
      return `Line ${line}: it will show more wrinkles than you accept. Sew a test, or talk to the customer first.`;
    const may = upper === null ? 'it may show a little' : `${upperEnd(upper, say)},`;
    return `Line ${line}: ${may} more than you accept. Sew a test first.`;
  },
  /** `objects`: the first of each piece that is not sewn as a cap wants it. */
  cap: ({ line, objects }: { line: number; objects: readonly number[] }, say: Voice): string =>
    `Line ${line}: ${setup.capOrder({ objects }, say)}`,
  smallLetters: ({ lines: numbers }: Lines, say: Voice): string =>
    `${capital(lines({ lines: numbers }, say))}: ${smallLetters(say)}. Sew ${numbers.length === 1 ? 'it' : 'them'} apart where you can; the setup above is for 40-weight thread.`,
  relaidFiles: ({ lines: numbers }: Lines, say: Voice): string =>
    `Load the relaid file, not the one that came, for ${lines({ lines: numbers }, say)}: a lighter underlay under the wide columns.`,
  madeOf: (
    { garment, ...of }: { garment: string; madeOf: string; takenAs: string | null },
    say: Voice,
  ): string => `${setup.garment({ name: garment, ...of }, say)}. ${setup.anotherGarment({}, say)}`,
  test: 'Sew a test on the same fabric before you start the run.',
  linesTitle: 'Lines',
  column: {
    line: 'line',
    file: 'load this file',
    garment: 'garment',
    quantity: 'pieces',
    asSewn: 'new',
    washed: 'washed',
    minutes: 'min each',
    price: ({ currency }: { currency: string }, _: Voice): string => `${currency} each`,
    verdict: 'verdict',
    order: 'order',
    customer: 'customer',
    due: 'due',
    what: 'what',
    item: 'item',
    amount: 'amount',
    cut: (_: Readonly<Record<never, never>>, say: Voice): string => `cut to, ${say.units}`,
  },
  /** A clause about one line. */
  ofLine: ({ line, says }: { line: number; says: string }, _: Voice): string => `Line ${line}: ${says}.`,
  /** In the place of a file to load. */
  loadNone: 'none',
  gradesNote: 'The columns new and washed give the grade, 5 (smooth) to 1 (severe).',
  grade: ({ grade }: { grade: number }, say: Voice): string => say.plain(grade, 1),
  minutes: ({ minutes }: { minutes: number }, say: Voice): string => say.fixed(minutes, 1),
  pictureOf: ({ line, file }: { line: number; file: string }, _: Voice): string => `Line ${line}: ${file}`,
  pictureElsewhere: ({ line, proof }: { line: number; proof: string }, _: Voice): string =>
    `The picture of line ${line} is in ${proof}.`,
  card: 'card',
  cards: 'All cards to print',
  picturesTitle: 'What the customer will get',
  shelfTitle: 'What to take from the shelf',
  kind: {
    backing: 'backing',
    topping: 'topping',
    thread: 'top thread',
    bobbin: 'bobbin thread',
    needle: 'needle',
  },
  colorNotGiven: 'color not given',
  pieces: ({ pieces, spare, forTests }: Pick<Cut, 'pieces' | 'spare' | 'forTests'>, say: Voice): string =>
    [
      say.count(pieces),
      ...(spare === 0 ? [] : [`${say.count(spare)} spare`]),
      ...(forTests === 0 ? [] : [`${say.count(forTests)} to test`]),
    ].join(' + '),
  cut: ({ widthMm, heightMm }: Pick<Cut, 'widthMm' | 'heightMm'>, say: Voice): string =>
    `${say.bareOutline(widthMm)} x ${say.bareOutline(heightMm)}`,
  thread: ({ lengthMm }: { lengthMm: number }, say: Voice): string => say.thread(lengthMm),
  colorsNote:
    'A stitch file holds no thread colors. Give them in the column threads, as "navy, white", and they stand here by name.',
  priceTitle: 'Price',
  cost: ({ cost, currency }: { cost: number; currency: string }, say: Voice): string =>
    `${say.money(cost, currency)} with labor and spoiled pieces`,
  price: (
    {
      price,
      currency,
      offPercent,
      setupFee,
      digitizing,
    }: Record<'price' | 'offPercent' | 'setupFee' | 'digitizing', number> & { currency: string },
    say: Voice,
  ): string => {
    const parts = [
      ...(offPercent > 0 ? [`${say.plain(offPercent, 1)} % off for the quantity`] : []),
      ...(setupFee > 0 ? [`setup fee ${say.money(setupFee)}`] : []),
      ...(digitizing > 0 ? [`digitizing ${say.money(digitizing)}`] : []),
    ];
    return say.money(price, currency) + (parts.length > 0 ? ` (${say.list(parts)})` : '');
  },
  belowCost: ' BELOW COST',
  startingPrice,
  machine: ({ minutes, heads }: { minutes: number; heads: number }, say: Voice): string =>
    `${say.time(minutes * 60)} with ${say.counted(heads, 'head')}`,
  labor: ({ minutes }: { minutes: number }, say: Voice): string =>
    `${say.time(minutes * 60)} to hoop and trim`,
  /** On standard error. */
  unread: ({ heads, read }: Record<'heads' | 'read', readonly string[]>, say: Voice): string =>
    `columns that are not read: ${say.list(heads)}; those that are: ${say.list(read)}`,
  /** Below the report in a terminal: where it is, and from where files are named. */
  made: ({ folder }: { folder: string }, _: Voice): string =>
    `In ${folder}, from where the files above are named: order.html to look at, cards.html to print.`,
  logged: ({ rows, log }: { rows: number; log: string }, say: Voice): string =>
    `${say.counted(rows, 'graded card')} added to ${log}; lieflat calibrate reads it`,
};
