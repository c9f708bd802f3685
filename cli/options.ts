import type { InferredOptionTypes, Options } from 'yargs';

/** An option with one of a few values, the first of which counts where it is not given. */
export function oneOf<const C extends readonly string[]>(choices: C, describe: string) {
  const [first, ...rest] = choices;
  return {
    type: 'string',
    choices,
    default: first as C[number],
    requiresArg: true,
    describe: `${describe}: ${first} (if not said), ${rest.join(', ')}`,
  } as const;
}

/** An option with a value of the user's own. */
export function value<const O extends Options = Record<never, never>>(describe: string, more?: O) {
  return { type: 'string', requiresArg: true, describe, ...(more as O) } as const;
}

/** An option that is there or is not; `nargs: 0` because yargs would quietly take `--flag=yes` for no. */
export function flag(describe: string) {
  return { type: 'boolean', nargs: 0, default: false, describe } as const;
}

/** What the options of a table give a handler. */
export type Given<O extends Readonly<Record<string, Options>>> = InferredOptionTypes<O>;

/** Taken by every command. */
export const everywhere = {
  profile: value(
    "<file> the shop's own settings; without it lieflat.config.json is looked for from here upward",
  ),
  'max-bytes': value('<size> refuse larger files, as 5MB; 32MB if not said'),
  'max-seconds': value(
    '<number> give up on a file after so long; by default 60, or 600 where the pucker is worked out or a file is made anew',
  ),
  'max-memory': value('<size> refuse what would take more memory than this, as 4GB; 2GB by default'),
  'out-dir': value('<folder> write files into it and nowhere else'),
  debug: flag('show where in the program an error came from'),
};
export type Everywhere = Given<typeof everywhere>;

export const force = flag('replace the file if it is there already');

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
  is: {
    ...value('<number=what> set an object right for good, as 12=underlay or 7=satin; 12=found takes it back'),
    array: true,
    nargs: 1,
  } as const,
};

/** Where the design is to be sewn, for the size limits. */
export const fit = {
  place: value('<id> where it is sewn, for the size limits; lieflat catalog places lists ids'),
  hoop: value('<size> inside of the hoop, as 100x100 (mm) or 4x4in, or an id of lieflat catalog hoops'),
};
export type Fit = Given<typeof fit>;

/** How commands that take many files go about them. */
export const many = {
  workers: value(
    '<number> how many files at once; as many as the machine has cores if not said (few files: 1), 1 starts no threads',
  ),
  ordered: flag('report in the order of the files (text always is), not as each is finished'),
};
export type Many = Given<typeof many>;
