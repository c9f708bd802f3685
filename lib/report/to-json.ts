import { printableJson } from './printable.js';

/** One report, or an array for several files, indented for reading; ends with a line feed. */
export function toJson(value: object): string {
  return `${printableJson(JSON.stringify(value, null, 2))}\n`;
}

/** One report on one line; ends with a line feed. */
export function toJsonLine(value: object): string {
  return `${printableJson(JSON.stringify(value))}\n`;
}
