/** Names that no one would give a file and a name that anyone might. */
import type { Random } from '../../generators/random.js';

/** What a page must never hold as markup of its own; pages are searched for it. */
export const HARM = 'harm-mark';

const PARTS = [
  'crest',
  'Order 7 (final)',
  '=cmd|x',
  '@SUM(A1)',
  `<${HARM} a="1">`,
  `"><${HARM}>`,
  `' on${HARM}='1`,
  `" on${HARM}="1" x="`,
  `<!--<${HARM}>`,
  `]]><${HARM}/>`,
  `<!DOCTYPE ${HARM} [<!ENTITY a "b">]>`,
  '&amp;&#60;&lt;&nosuch;',
  '&',
  '\u001b[31m',
  '\u009b31m',
  '\u0007',
  '\r',
  '\n',
  '\t',
  '\u202egnp',
  '\u200f\u05e9\u05dc\u05d5\u05dd',
  '\u0634\u0639\u0627\u0631',
  '\u2028',
  '\ufeff',
  '\u00ad',
  '\ufffe',
  '\u{1f9f5}',
  '\u523a\u7e61',
  'e\u0301\u0302\u0303',
  '%s%n',
  '$& $1',
  '{{x}}$' + '{x}`x`',
  '\\',
  "'; --",
  '*?[a]{b,c}',
  '!x',
  '~',
  '-',
  '--',
  '#',
  ' ',
  'w'.repeat(120),
] as const;

/** A text made of them, without what parts folders or ends a name. */
export function oddText(random: Random, most = 3): string {
  const count = random.int(1, most);
  return Array.from({ length: count }, () => random.pick(PARTS)).join('');
}

/** The bytes that a name may have on the usual file systems. */
const MOST_BYTES = 255;

/** A name for a file with this ending, in a folder with others whose names are as odd. */
export function fileName(random: Random, ending: string, oddness: number): string {
  if (!random.chance(oddness))
    return `${random.pick(['crest', 'name', 'back'])}-${random.int(1, 99)}${ending}`;
  let stem = oddText(random).replaceAll('/', '');
  while (Buffer.byteLength(stem + ending) > MOST_BYTES) stem = stem.slice(0, -1);
  return `${stem || 'x'}${random.chance(0.1) ? ending.toUpperCase() : ending}`;
}
