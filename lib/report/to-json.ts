import { LieflatError } from '../core/errors.js';
import { printableJson } from './printable.js';

/** One report, or an array for several files, indented for reading; ends with a line feed. @throws LieflatError `too-large` */
export function toJson(value: object): string {
  return jsonText(value, 2);
}

/** One report on one line; ends with a line feed. @throws LieflatError `too-large` */
export function toJsonLine(value: object): string {
  return jsonText(value, 0);
}

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
