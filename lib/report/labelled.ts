import { printable } from './render/printable.js';
import { wrap } from './render/wrap.js';
import type { ConditionsReport } from './vet/report.js';

const INDENT = '  ';
const LABEL = 10;

/** A labelled line of a summary, wrapped beside its label. */
export function labelled(label: string, text: string, width: number): string[] {
  return wrap(text, width, INDENT + label.padEnd(LABEL), INDENT + ' '.repeat(LABEL));
}

/** The backing in words, and whether it was taken for want of another. */
export const backingWords = ({ stackName, stackGiven }: ConditionsReport): string =>
  `${printable(stackName)}${stackGiven ? '' : ' (the usual sheet; you gave none)'}`;
