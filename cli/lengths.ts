import { inchToMm } from '../lib/index.js';
import { badArgument } from './bad-argument.js';

/**
 * A length from the command line: `4` and `4mm` are millimetres, `0.16in` inches.
 *
 * @throws LieflatError `bad-argument` for anything that is no length above 0
 */
export function lengthMm(option: string, text: string): number {
  const parts = /^(\d+(?:\.\d*)?|\.\d+)\s*(mm|in)?$/.exec(text.trim());
  const mm = parts ? inMm(Number(parts[1]), parts[2]) : Number.NaN;
  if (!(mm > 0 && Number.isFinite(mm))) {
    throw badArgument(`--${option} cannot be ${text}`, 'give a length, as 4 in mm or 0.16in');
  }
  return mm;
}

/**
 * Width and height: `100x100`, `100x100mm`, `4x4in`.
 *
 * @throws LieflatError `bad-argument` for anything else
 */
export function sizeMm(option: string, text: string): { widthMm: number; heightMm: number } | null {
  const parts = /^(\d+(?:\.\d*)?)\s*(mm|in)?\s*[x×]\s*(\d+(?:\.\d*)?)\s*(mm|in)?$/i.exec(text.trim());
  if (!parts) return null;
  const unit = (parts[4] ?? parts[2])?.toLowerCase();
  const widthMm = inMm(Number(parts[1]), parts[2]?.toLowerCase() ?? unit);
  const heightMm = inMm(Number(parts[3]), unit);
  if (!(widthMm > 0 && heightMm > 0)) {
    throw badArgument(`--${option} cannot be ${text}`, 'give a width and a height above 0, as 100x100');
  }
  return { widthMm, heightMm };
}

function inMm(value: number, unit: string | undefined): number {
  return unit === 'in' ? inchToMm(value) : value;
}
