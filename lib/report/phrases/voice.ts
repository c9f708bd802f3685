/** How figures are said to a reader: in the reader's units and the language's words. No phrase sets a figure itself. */
import { mmToInch } from '../../core/units.js';
import {
  bareLength,
  bareThread,
  count,
  duration,
  fixed,
  length,
  place,
  size,
  threadLength,
  type Units,
} from '../quantities.js';

/** Whom a report is for. */
export interface Reader {
  /** The system that comes first; sentences give the other one beside it. */
  readonly units: Units;
  /** `short`: the fact alone. `full`: with what to do about it. */
  readonly detail: 'short' | 'full';
  /** Whether sentences name commands to type; they do unless this is false, as on a page, whose reader may have no terminal. */
  readonly commands?: boolean;
}

/** The little words that figures need, in one language. */
export interface Grammar {
  /** Between the ends of a range: `0.1 to 0.3 mm`. */
  readonly to: string;
  /** Before the last of a list. */
  readonly and: string;
  readonly object: readonly [one: string, many: string];
  /** What is left of a list: `4 more`. */
  readonly more: (n: string) => string;
}

export const ENGLISH: Grammar = {
  to: 'to',
  and: 'and',
  object: ['object', 'objects'],
  more: (n) => `${n} more`,
};

/** Below this a hundredth of an inch is too coarse: a spacing of 0.4 mm and one of 0.5 would read alike. */
const FINE_BELOW_IN = 0.1;
/** Below this a thousandth of an inch would read as nothing. */
const FINEST_BELOW_IN = 0.001;

/** A reader's voice: every figure in a sentence or a cell goes through one of these. Lengths are given in mm. */
export class Voice {
  readonly units: Units;
  readonly detail: Reader['detail'];
  readonly commands: boolean;

  constructor(
    { units, detail, commands = true }: Reader,
    private readonly grammar: Grammar = ENGLISH,
  ) {
    this.units = units;
    this.detail = detail;
    this.commands = commands;
  }

  /** What names a command to type, for whoever has a terminal; what is said instead to whoever has none. */
  typed(named: string, instead = ''): string {
    return this.commands ? named : instead;
  }

  /** For sentences, as short as it is exact, both systems: `4.2 mm (0.17 in)`. */
  length(mm: number): string {
    return this.both(inMillimetres(mm), inInches(mm));
  }

  /** The lowest to the highest of some lengths: `0.1 to 0.32 mm (0.004 to 0.013 in)`; one where they read alike. */
  range(mm: readonly number[]): string {
    const [low, high] = [Math.min(...mm), Math.max(...mm)];
    if (inMillimetres(low) === inMillimetres(high)) return this.length(high);
    const { to } = this.grammar;
    return this.both(
      `${inMillimetres(low)} ${to} ${inMillimetres(high)}`,
      `${inInches(low)} ${to} ${inInches(high)}`,
    );
  }

  /** With even digits, the reader's system alone: `4.20 mm`. */
  figure(mm: number): string {
    return length(mm, this.units);
  }

  /** The same without its unit, for columns that name it: `4.20`. */
  bare(mm: number): string {
    return bareLength(mm, this.units);
  }

  /** The same in the other system: `0.165`. */
  bareOther(mm: number): string {
    return bareLength(mm, this.units === 'mm' ? 'in' : 'mm');
  }

  /** As a hand measures: `12.3 mm`, or `0.48 in`. */
  measured(mm: number): string {
    return this.units === 'mm' ? `${fixed(mm, 1)} mm` : `${fixed(mmToInch(mm), 2)} in`;
  }

  /** The size of a place or hoop, no finer than it is laid out by hand and without its unit: `100`, or `3.9`. */
  bareOutline(mm: number): string {
    return this.units === 'mm' ? fixed(mm, 0) : fixed(mmToInch(mm), 1);
  }

  /** The ends of a range for such a column: `0.10 to 0.40`. */
  bareRange([low, high]: readonly [number, number]): string {
    return `${this.bare(low)} ${this.grammar.to} ${this.bare(high)}`;
  }

  /** `86.2 x 41.0 mm (3.39 x 1.61 in)`. */
  size(widthMm: number, heightMm: number): string {
    return size(widthMm, heightMm, this.units);
  }

  /** The same without units, for a column that names them: `86.2 x 41.0`. */
  bareSize(widthMm: number, heightMm: number): string {
    return this.units === 'mm'
      ? `${fixed(widthMm, 1)} x ${fixed(heightMm, 1)}`
      : `${fixed(mmToInch(widthMm), 2)} x ${fixed(mmToInch(heightMm), 2)}`;
  }

  /** A place on the design, from its origin: `12.3, -4.0`. */
  place({ x, y }: { readonly x: number; readonly y: number }): string {
    return place(x, y, this.units);
  }

  /** The same with its unit: `12.3, -4.0 mm`. */
  placeWithUnit(at: { readonly x: number; readonly y: number }): string {
    return `${this.place(at)} ${this.units}`;
  }

  /** Thread length: `61.2 m (66.9 yd)`. */
  thread(mm: number): string {
    return threadLength(mm, this.units);
  }

  /** The same for a column that names its unit, `m` or `yd`. */
  bareThread(mm: number): string {
    return bareThread(mm, this.units);
  }

  /** `40 s`, `18 min`, `1 h 05 min`. */
  time(seconds: number): string {
    return duration(seconds);
  }

  /** `12,345`. */
  count(n: number): string {
    return count(n);
  }

  /** `1 stitch`, `2,500 stitches`. */
  counted(n: number, one: string, many = `${one}s`): string {
    return `${count(n)} ${n === 1 ? one : many}`;
  }

  /** A figure with so many decimals: `4.20`. */
  fixed(value: number, decimals: number): string {
    return fixed(value, decimals);
  }

  /** A figure without trailing zeros: `4.2`. */
  plain(value: number, decimals: number): string {
    return String(Number(value.toFixed(decimals)));
  }

  /** A figure to so many significant digits: `0.147`. */
  significant(value: number, digits: number): string {
    return String(Number(value.toPrecision(digits)));
  }

  /** An amount, with its currency if that is named: `$4.20`, `4.20 EUR`. */
  money(amount: number, currency?: string): string {
    if (currency === 'USD') return `$${amount.toFixed(2)}`;
    return `${amount.toFixed(2)}${currency ? ` ${currency}` : ''}`;
  }

  /** A share of one: `12 %`. */
  share(share: number): string {
    return `${fixed(share * 100, 0)} %`;
  }

  /** `satin, fill and run`. */
  list(items: readonly string[]): string {
    if (items.length < 2) return items.join('');
    return `${items.slice(0, -1).join(', ')} ${this.grammar.and} ${items.at(-1)}`;
  }

  /** Ids in rising order, those that follow one another as a run; of many the first: `objects 1 to 4 and 7`. */
  objects(ids: readonly number[], most = Number.POSITIVE_INFINITY): string {
    const [one, many] = this.grammar.object;
    return `${ids.length === 1 ? one : many} ${this.ids(ids, most)}`;
  }

  /** The same without the word: `1 to 4 and 7`. */
  ids(ids: readonly number[], most = Number.POSITIVE_INFINITY): string {
    const runs = runsOf(ids);
    const shown = runs.slice(0, most);
    const named = shown.flatMap(([a, b]) =>
      b - a > 1 ? [`${a} ${this.grammar.to} ${b}`] : a === b ? [`${a}`] : [`${a}`, `${b}`],
    );
    const left = ids.length - shown.reduce((sum, [a, b]) => sum + b - a + 1, 0);
    return this.list(left > 0 ? [...named, this.grammar.more(count(left))] : named);
  }

  private both(mm: string, inches: string): string {
    return this.units === 'mm' ? `${mm} mm (${inches} in)` : `${inches} in (${mm} mm)`;
  }
}

/** First and last of each run of numbers that follow one another. */
export function runsOf(ids: readonly number[]): [first: number, last: number][] {
  const runs: [number, number][] = [];
  for (const id of new Set(ids.toSorted((a, b) => a - b))) {
    const run = runs.at(-1);
    if (run && id === run[1] + 1) run[1] = id;
    else runs.push([id, id]);
  }
  return runs;
}

const inMillimetres = (mm: number): string => trimmed(mm, 2);

function inInches(mm: number): string {
  // What millimetres leave out is nothing in inches either.
  const inches = mmToInch(Number(inMillimetres(mm)));
  const magnitude = Math.abs(inches);
  return trimmed(inches, magnitude < FINEST_BELOW_IN ? 4 : magnitude < FINE_BELOW_IN ? 3 : 2);
}

const trimmed = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));
