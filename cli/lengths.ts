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
    throw badArgument(`--${option} cannot be ${text}`, 'give a length, as 4 (mm) or 0.16in');
  }
  return mm;
}

/** Bare sizes with neither side this long, mm, are inches whose unit was left out. */
const LEAST_SIZE_MM = 8;

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
  if (unit === undefined && Math.max(widthMm, heightMm) < LEAST_SIZE_MM) {
    throw badArgument(
      `--${option} ${text} would be millimeters`,
      `write ${parts[1]}x${parts[3]}in for inches, or ${parts[1]}x${parts[3]}mm if it is meant so`,
    );
  }
  return { widthMm, heightMm };
}

function inMm(value: number, unit: string | undefined): number {
  return unit === 'in' ? inchToMm(value) : value;
}

/** Most that a design is enlarged, percent. */
const MOST_PERCENT = 25;

/**
 * A growth as a fraction: `5%` and `5` are 0.05. A bare `1.05` or `0.05` is refused: some mean 5 % by it.
 *
 * @throws LieflatError `bad-argument` for anything that is no percentage from 0 to 25
 */
export function growth(option: string, text: string): number {
  const parts = /^(\d+(?:\.\d*)?|\.\d+)\s*(%?)$/.exec(text.trim());
  const percent = parts ? Number(parts[1]) : Number.NaN;
  if (!(percent >= 0 && percent <= MOST_PERCENT))
    throw badArgument(
      `--${option} cannot be ${text || 'empty'}`,
      `give how much larger in percent, from 0 to ${MOST_PERCENT}, as 5%`,
    );
  if (parts![2] === '' && percent > 1 && percent < 1.25)
    throw badArgument(
      `--${option} ${text} may mean two things`,
      `write ${text}% for that many percent, or ${Number(((percent - 1) * 100).toFixed(2))}% for a factor of ${text}`,
    );
  if (parts![2] === '' && percent > 0 && percent <= MOST_PERCENT / 100)
    throw badArgument(
      `--${option} ${text} may mean two things`,
      `write ${text}% for that part of a percent, or ${Number((percent * 100).toFixed(2))}%`,
    );
  return percent / 100;
}

/** Most that a design is moved, mm: further it is another place. */
const MOST_MOVED_MM = 50;

/**
 * A move: `0.3,-0.2`, in the units of printed lengths.
 *
 * @throws LieflatError `bad-argument` for anything else
 */
export function moveMm(option: string, text: string, units: 'mm' | 'in'): { dx: number; dy: number } {
  const parts = /^\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+))\s*,\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+))\s*$/.exec(text);
  const [dx, dy] = parts ? [1, 2].map((k) => inMm(Number(parts[k]), units)) : [Number.NaN, Number.NaN];
  if (!(Math.abs(dx) <= MOST_MOVED_MM && Math.abs(dy) <= MOST_MOVED_MM))
    throw badArgument(
      `--${option} cannot be ${text || 'empty'}`,
      `give two lengths in ${units} with a comma between them, as ${units === 'mm' ? '0.3,-0.2' : '0.01,-0.02'}`,
    );
  return { dx, dy };
}
