/** A profile to start from: every figure as it is built in, with what it rests on beside it. */
import { wrap } from '../report/render/wrap.js';
import { profileDescription } from './schema.js';
import { groupIn, settingOf, settingWords } from './setting.js';

/** Groups that a shop seldom needs, or that are written for it. */
const FURTHER = ['places', 'catalogue', 'garments', 'threadColors', 'designs', 'calibration', 'stock'];

/**
 * The text of that profile: JSON with comments. Read as it stands it changes nothing: a figure that is repeated stays built in.
 * @param schema where editors find what a profile may say, if they can
 */
export async function starterProfile(schema?: string): Promise<string> {
  const { profile, settings } = await profileDescription();
  const groups = Object.entries(profile.shape).flatMap(([name, place]) => {
    const group = groupIn(place);
    if (!group || FURTHER.includes(name)) return [];
    const entries = Object.entries((group as import('zod').core.$ZodObjectDef).shape).map(([key, of]) => {
      const setting = settingOf(settings, of)!;
      return `${commented(settingWords(setting), '    ')}    ${JSON.stringify(key)}: ${spaced(setting.builtIn)}`;
    });
    return [
      `${commented(`${settingOf(settings, place)!.words}.`, '  ')}  ${JSON.stringify(name)}: {\n${entries.join(',\n')}\n  }`,
    ];
  });
  const head = [
    'What this shop does its own way. Delete what is to stay as it is built in; lieflat profile shows what differs.',
    `Further keys: ${FURTHER.join(', ')}; lieflat profile --schema has them all.`,
  ].map((line) => commented(line, '  '));
  const schemaLine = schema === undefined ? [] : [`  "$schema": ${JSON.stringify(schema)}`];
  return `{\n${head.join('')}${[...schemaLine, ...groups].join(',\n\n')}\n}\n`;
}

const WIDTH = 110;

const commented = (text: string, indent: string): string =>
  wrap(text, WIDTH, `${indent}// `)
    .map((line) => `${line}\n`)
    .join('');

/** On one line, with blanks inside the braces. */
const spaced = (value: unknown): string =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? `{ ${Object.entries(value)
        .map(([key, v]) => `${JSON.stringify(key)}: ${JSON.stringify(v)}`)
        .join(', ')} }`
    : JSON.stringify(value);
