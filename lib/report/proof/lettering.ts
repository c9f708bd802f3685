/** Words of a picture as strokes of our own: a bare machine has no fonts, and a picture must read alike everywhere. */

/** Strokes of a letter, a polyline each, on a field 4 wide and 6 high; y upward. */
type Glyph = readonly (readonly number[])[];

const strokes = (text: string): Glyph =>
  text.split(' ').map((line) => [...line].map((digit) => Number.parseInt(digit, 16)));

/** Places are pairs of digits, x then y: `0006` is a line from (0, 0) to (0, 6). */
const DRAWN: Readonly<Record<string, string>> = {
  A: '002640 1232',
  B: '00063645443303 3342413000',
  C: '4536160501103041',
  D: '00062644422000',
  E: '46060040 0333',
  F: '460600 0333',
  G: '45361605011030414323',
  H: '0006 4046 0343',
  I: '2026',
  J: '4641301001',
  K: '0006 4602 1340',
  L: '060040',
  M: '0006234640',
  N: '00064046',
  O: '100105163645413010',
  P: '00063645443303',
  Q: '100105163645413010 2240',
  R: '00063645443303 2340',
  S: '453616050413334241301001',
  T: '0646 2620',
  U: '060110304146',
  V: '062046',
  W: '0610243046',
  X: '0046 0640',
  Y: '062346 2320',
  Z: '06460040',
  0: '100105163645413010 1135',
  1: '152620',
  2: '05163645440040',
  3: '05163645443313 334241301001',
  4: '30360242',
  5: '460603334241301001',
  6: '4536160501103041423303',
  7: '064610',
  8: '13040516364544331302011030414233',
  9: '0110304145361605041343',
  '.': '2021',
  ',': '2110',
  ':': '2021 2324',
  ';': '2110 2324',
  '-': '1333',
  '+': '0343 2125',
  '/': '0046',
  '(': '36252130',
  ')': '16252110',
  '%': '0046 0515 3141',
  "'": '2625',
  '"': '1615 3635',
  '&': '40051626250201102042',
  '#': '1016 3036 0242 0444',
  '*': '1135 1531 0343',
  '=': '0242 0444',
  '<': '450341',
  '>': '054301',
  '!': '2622 2021',
  '?': '05163645442322 2021',
  '°': '1524352615',
  '²': '1526351434',
  _: '0040',
  '@': '41301001051636454222',
  $: '453616050413334241301001 2026',
};
const GLYPHS: Readonly<Record<string, Glyph>> = Object.fromEntries(
  Object.entries(DRAWN).map(([letter, text]) => [letter, strokes(text)]),
);

/** Widths of letters that are narrower than the field. */
const NARROW: Readonly<Record<string, readonly [left: number, width: number]>> = Object.fromEntries(
  [...".,:;'!1I()°"].map((letter) => [letter, [1, 2]] as const),
);
const WIDE = 4;
/** Between letters, and a space, in units of the field. */
const GAP = 1.6;
const SPACE = 2.6;
const HIGH = 6;

/** Capitals without accents (Unicode normalization form D); what has no strokes becomes a dot. */
const plain = (text: string): string[] =>
  [...text.normalize('NFD').replace(/\p{M}/gu, '').toUpperCase()].map((letter) =>
    letter === ' ' || GLYPHS[letter] ? letter : '.',
  );

const advance = (letter: string): number => (letter === ' ' ? SPACE : (NARROW[letter]?.[1] ?? WIDE) + GAP);

/** How wide a line stands at a height of its capitals, the same unit. */
export const letteringWidth = (text: string, height: number): number =>
  (plain(text).reduce((sum, letter) => sum + advance(letter), 0) * height) / HIGH;

/**
 * The strokes of a line, polylines of x, y pairs with y downward, from its left end on the base line.
 * @param height of the capitals, in the unit of the places
 */
export function lettering(text: string, left: number, base: number, height: number): number[][] {
  const unit = height / HIGH;
  const out: number[][] = [];
  let at = left;
  for (const letter of plain(text)) {
    const from = NARROW[letter]?.[0] ?? 0;
    for (const line of GLYPHS[letter] ?? []) {
      const points: number[] = [];
      for (let k = 0; k + 1 < line.length; k += 2)
        points.push(at + (line[k] - from) * unit, base - line[k + 1] * unit);
      out.push(points);
    }
    at += advance(letter) * unit;
  }
  return out;
}
