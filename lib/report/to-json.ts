import { LieflatError } from '../core/errors.js';
import { printableJson } from './render/printable.js';

/** Characters of a piece, about: few enough to be held, enough to be worth a write. */
export const PIECE = 65_536;

/**
 * One report, or an array for several files, indented for reading; ends with a line feed.
 * @throws LieflatError `too-large`
 *
 * @example
 * ```ts
 * import { toJson } from 'lieflat';
 * toJson({ id: 1 }); // => '{\n  "id": 1\n}\n'
 * ```
 */
export function toJson(value: object): string {
  return jsonText(value, 2);
}

/**
 * One report on one line; ends with a line feed.
 * @throws LieflatError `too-large`
 *
 * @example
 * ```ts
 * import { toJsonLine } from 'lieflat';
 * toJsonLine({ id: 1 }); // => '{"id":1}\n'
 * ```
 */
export function toJsonLine(value: object): string {
  return jsonText(value, 0);
}

/**
 * The same text piece by piece, never held as a whole. What a field of `value` brings one by one (a list, or anything that can be gone through) is
 * written as a list.
 *
 * @param indent blanks a level; 0 for one line
 *
 * @example
 * ```ts
 * import { jsonPieces, toJsonLine } from 'lieflat';
 * [...jsonPieces({ ids: [1, 2] }, 0)].join('') === toJsonLine({ ids: [1, 2] }); // => true
 * ```
 */
export function* jsonPieces(value: object, indent: 0 | 2): Generator<string> {
  const [lineEnd, colon] = indent === 0 ? ['', ':'] : ['\n', ': '];
  const pad = ' '.repeat(indent);
  /** A value as it stands so many levels in: no line feed of JSON is anything but layout. */
  const set = (inner: unknown, levels: number): string =>
    JSON.stringify(inner, null, indent).replaceAll('\n', `\n${pad.repeat(levels)}`);
  const fields = Object.entries(value).filter(([, field]) => field !== undefined);
  let text = '{';
  for (const [n, [name, field]] of fields.entries()) {
    text += `${n === 0 ? '' : ','}${lineEnd}${pad}${JSON.stringify(name)}${colon}`;
    if (!isList(field)) {
      text += set(field, 1);
      continue;
    }
    let any = false;
    text += '[';
    for (const item of field) {
      text += `${any ? ',' : ''}${lineEnd}${pad}${pad}${set(item, 2)}`;
      any = true;
      if (text.length < PIECE) continue;
      yield printableJson(text);
      text = '';
    }
    text += any ? `${lineEnd}${pad}]` : ']';
  }
  yield printableJson(`${text}${fields.length > 0 ? lineEnd : ''}}\n`);
}

const isList = (field: unknown): field is Iterable<unknown> =>
  typeof field === 'object' && field !== null && Symbol.iterator in field;

function jsonText(value: object, indent: number): string {
  try {
    return `${printableJson(JSON.stringify(value, null, indent))}\n`;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    // What an engine says of a text longer than it can hold, some half a billion characters.
    throw new LieflatError({
      code: 'too-large',
      place: 'report',
      what: 'as JSON it is longer than a text can be',
      todo: 'take it as text or csv, or split the design',
    });
  }
}
