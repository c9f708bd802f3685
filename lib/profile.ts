/** A shop's own figures in place of the built-in ones, read from its profile. */
import type { Profile } from './profile/schema.js';
import type { ShopFigures } from './profile/shop.js';

export type { Profile } from './profile/schema.js';
export { BUILT_IN_FIGURES, type ShopFigures } from './profile/shop.js';

/** The file that is looked for from the working directory upward. */
export const PROFILE_NAME = 'lieflat.config.json';

/**
 * Reads a profile: JSON, with comments and trailing commas where someone likes them. What it may say is described in `lib/profile/schema.ts`; what it
 * leaves out stays built in. A calibration of the pucker model's first edition is passed over, and the shop's `notes` say so.
 *
 * @param text the file's content
 * @param path what the file is called in errors
 * @throws LieflatError `bad-profile`, with the line: no JSON, an unknown key (named, with the nearest allowed one), a wrong value
 *
 * @example
 * ```ts
 * import { readProfile, shopOf } from 'lieflat';
 * const figures = await readProfile('{ "limits": { "satin-too-wide": 8 } }', 'lieflat.config.json');
 * shopOf(figures).figures.limits['satin-too-wide'].warn; // => 8
 * await readProfile('{ "limts": {} }', 'lieflat.config.json'); // throws 'bad-profile'
 * ```
 */
export async function readProfile(text: string, path: string): Promise<ShopFigures> {
  const [{ parseProfile }, { figuresOf }] = await Promise.all([
    import('./profile/source.js'),
    import('./profile/figures-of.js'),
  ]);
  return figuresOf(await parseProfile(text, path));
}

/**
 * The figures of a profile that is a value and not a file.
 *
 * @throws LieflatError `bad-profile`, naming the key
 *
 * @example
 * ```ts
 * import { figuresWith } from 'lieflat';
 * (await figuresWith({ accept: { washes: 20 } })).accept.washes; // => 20
 * ```
 */
export async function figuresWith(profile: Profile): Promise<ShopFigures> {
  const { figuresOf } = await import('./profile/figures-of.js');
  return figuresOf({ value: profile, placeOf: () => 'profile' });
}
