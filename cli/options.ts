/** One option of a command, as the table of commands has it. */
export interface Option {
  /** There or not; with a value of its own; with one each time that it is given. */
  readonly type: 'flag' | 'value' | 'values';
  /** As the help has it. */
  readonly describe: string;
  /** One letter for short. */
  readonly alias?: string;
  /** The values that it takes, the first of which counts where it is not given. */
  readonly choices?: readonly string[];
  /** None of the choices counts where it is not given. */
  readonly optional?: true;
  /** Where it is not given, the choice that the file to write ends in, if it ends in one. */
  readonly byEnding?: true;
  /** Said where it is left out and may not be: what is missing, and what to do. */
  readonly required?: readonly [what: string, todo: string];
}

export type OptionTable = Readonly<Record<string, Option>>;

/** An option with one of a few values, the first of which counts where it is not given. */
export function oneOf<const C extends readonly string[]>(choices: C, describe: string) {
  const [first, ...rest] = choices;
  return {
    type: 'value',
    choices,
    describe: `${describe}: ${first} (default), ${rest.join(', ')}`,
  } as const;
}

/** An option with one of a few values, none of which counts where it is not given: `usual` says what is done then. */
export const choice = <const C extends readonly string[]>(choices: C, describe: string, usual: string) =>
  ({
    type: 'value',
    choices,
    optional: true,
    describe: `${describe}: ${choices.join(', ')}; default: ${usual}`,
  }) as const;

/** The form of a report: without it the file to write says by its ending which, so that a .csv is no text. */
export const reportForm = <const C extends readonly string[]>(choices: C, describe = 'how to report') => {
  const [first] = choices;
  const usual = `by the ending of -o, else ${first}`;
  return {
    type: 'value',
    choices,
    byEnding: true,
    describe: `${describe}: ${choices.join(', ')}; default: ${usual}`,
  } as const;
};

/** An option with a value of the user's own. */
export function value<const O extends Pick<Option, 'alias' | 'required'> = Record<never, never>>(
  describe: string,
  more?: O,
) {
  return { type: 'value', describe, ...(more as O) } as const;
}

/** An option that may be given again, each time with a value. */
export function values(describe: string) {
  return { type: 'values', describe } as const;
}

/** An option that is there or is not. */
export function flag(describe: string) {
  return { type: 'flag', describe } as const;
}

type ValueOf<O> = O extends { type: 'flag' }
  ? boolean
  : O extends { type: 'values' }
    ? string[] | undefined
    : O extends { choices: readonly (infer C)[] }
      ? C | (O extends { optional: true } ? undefined : never)
      : O extends { required: unknown }
        ? string
        : string | undefined;

/** What the options of a table give a handler. */
export type Given<O extends OptionTable> = { -readonly [K in keyof O]: ValueOf<O[K]> };

/** The words after a command's name that are no options, in order. */
export interface TypedWords {
  words: readonly string[];
}

/** What was typed of each option, in turn: a value, or true for a flag. */
export type Typed = ReadonlyMap<string, readonly (string | boolean)[]>;

/** What a handler is given for what was typed, which has been checked: of an option that comes again the last counts. */
export function given<O extends OptionTable>(options: O, typed: Typed): Given<O> {
  const entries = Object.entries(options).map(([name, { type, choices, optional, byEnding }]) => {
    const all = typed.get(name);
    if (type === 'flag') return [name, all?.at(-1) ?? false];
    const usual = optional ? undefined : ((byEnding && endingOf(typed, choices)) ?? choices?.[0]);
    return [name, type === 'values' ? all : (all?.at(-1) ?? usual)];
  });
  return Object.fromEntries(entries) as Given<O>;
}

/** The choice that the name of the file to write ends in. */
function endingOf(typed: Typed, choices: readonly string[] = []): string | undefined {
  const ending = /\.([a-z]+)$/i.exec(String(typed.get('out')?.at(-1) ?? ''))?.[1].toLowerCase();
  return choices.find((one) => one === (ending === 'htm' ? 'html' : ending));
}

/** Taken by every command. */
export const everywhere = {
  profile: value("<file> the shop's settings; default: lieflat.config.json here or in a folder above"),
  'max-bytes': value('<size> refuse larger files, as 5MB; default 32MB'),
  'max-seconds': value(
    '<number> seconds allowed for a file; default 60, or 600 where pucker is predicted or a file is rewritten',
  ),
  'max-memory': value('<size> refuse work that needs more memory than this, as 4GB; default 2GB'),
  'out-dir': value('<folder> write files into it and nowhere else'),
  'no-cache': flag('work everything out anew, and keep none of it for the next time'),
  debug: flag('show where in the program an error came from'),
};
export type Everywhere = Given<typeof everywhere>;

export const force = flag('replace the file if it exists');

export const units = oneOf(['mm', 'in'], 'units of printed lengths');

/** Where a report goes and how it is set. */
export const report = {
  units,
  out: value('<file> write to this file instead of the terminal', { alias: 'o' }),
  force,
};
export type Report = Given<typeof report>;

/** What a person says of objects that were taken for something else. */
export const setRight = {
  is: values(
    '<number=what> say what an object is, for good, as 12=underlay or 7=satin; 12=found takes it back',
  ),
};

/** Colors of thread, which a stitch file does not hold. */
export const threadOptions = {
  threads: value('<colors> in sewing order with commas, as "navy, #c8102e, white"; "3: navy" is on needle 3'),
  'keep-threads': flag(
    "keep those --threads for this design in the shop's profile, by the content of the file",
  ),
};
export type ThreadOptions = Given<typeof threadOptions>;

/** Where the design is to be sewn, for the size limits. */
export const fit = {
  place: value('<id> where it is sewn, for the size limits; lieflat catalog places lists ids'),
  hoop: value('<size> inside of the hoop, as 100x100 (mm) or 4x4in, or an id of lieflat catalog hoops'),
};
export type PlacementOptions = Given<typeof fit>;

/** How commands that take many files go about them. */
export const many = {
  workers: value(
    '<number> how many files at once; default: one for each core (few files: 1); 1 starts no threads',
  ),
  ordered: flag('report in the order of the files, not as each is done (text always does)'),
};
export type Many = Given<typeof many>;

/** What the work that goes before every command looks at, whether the command takes it or not. */
export const beforehand = {
  ...everywhere,
  ...setRight,
  out: report.out,
  force,
  fabric: value(''),
  format: value(''),
  map: value(''),
  summary: value(''),
  since: values(''),
  init: flag(''),
  watch: flag(''),
};
export type Beforehand = Given<typeof beforehand>;
