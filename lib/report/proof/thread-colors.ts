/** Colors of thread and garment, as people write them. */
import { lab, rgb } from 'd3-color';
import { LieflatError } from '../../core/errors.js';

/** sRGB, 0 to 255. */
export interface Rgb {
  readonly r: number;
  readonly g: number;
  readonly b: number;
}

/** A color with the name that it was asked for by. */
export interface NamedColor extends Rgb {
  readonly name: string;
  /** The needle that carries it, where that was said. */
  readonly needle?: number;
}

/** Names of colors that a shop has given itself, in small letters, each with a color of CSS. */
export type OwnColors = ReadonlyMap<string, string>;

/** Those of a profile. */
export const ownColors = (named: Readonly<Record<string, string>> = {}): OwnColors =>
  new Map(Object.entries(named).map(([name, color]) => [name.trim().toLowerCase(), color]));

/** `Light  Blue` as CSS writes it. */
const cssName = (text: string): string => text.toLowerCase().replace(/[\s-]+/g, '');

/**
 * A color by a shop's own name for it, by its name in CSS Color Module Level 4 (6.1), spaces and capitals as they come, or in hexadecimal
 * digits with or without the mark before them.
 *
 * @throws LieflatError `bad-argument` where it is none of these
 * @example
 * colorNamed('navy').b; // 128
 */
export function colorNamed(text: string, own: OwnColors = new Map()): NamedColor {
  const name = text.trim();
  const asked = own.get(name.toLowerCase()) ?? name;
  const found = rgb(/^(?:[\da-f]{3}|[\da-f]{6})$/i.test(asked) ? `#${asked}` : cssName(asked));
  if (Number.isNaN(found.r))
    throw new LieflatError({
      code: 'bad-argument',
      place: `color "${name}"`,
      what: 'there is no color of that name',
      todo: 'give a common English name, as navy or light blue, or six digits, as #c8102e',
    });
  return { name, r: Math.round(found.r), g: Math.round(found.g), b: Math.round(found.b) };
}

/** `3: navy`, for the thread on the third needle. */
const ON_NEEDLE = /^\s*(\d{1,2})\s*:\s*(.*)$/s;

/**
 * The colors of a list with commas, in the order in which the machine calls them; each may name its needle first, as `3: navy`.
 * @throws LieflatError `bad-argument` as {@link colorNamed}
 */
export const colorsNamed = (list: string, own?: OwnColors): NamedColor[] =>
  list
    .split(',')
    .filter((part) => part.trim() !== '')
    .map((part) => {
      const [, needle, color = part] = ON_NEEDLE.exec(part) ?? [];
      return { ...colorNamed(color, own), ...(needle !== undefined && { needle: Number(needle) }) };
    });

/**
 * The needle of each color: the one that was said, else the lowest that is free, in sewing order. A color that comes again stays on its needle.
 *
 * @example
 * needlesOf(colorsNamed('navy, 5: white, navy, red')); // [1, 5, 1, 2]
 */
export function needlesOf(colors: readonly NamedColor[]): number[] {
  const key = ({ name }: NamedColor): string => name.toLowerCase();
  const on = new Map<string, number>();
  for (const color of colors) if (color.needle !== undefined) on.set(key(color), color.needle);
  const taken = new Set(on.values());
  let free = 1;
  return colors.map((color) => {
    const known = color.needle ?? on.get(key(color));
    if (known !== undefined) return known;
    while (taken.has(free)) free++;
    taken.add(free);
    on.set(key(color), free);
    return free;
  });
}

/** As SVG writes it. */
export const hexOf = ({ r, g, b }: Rgb): string => rgb(r, g, b).formatHex();

/** The same hue lighter (above zero) or darker (below) by so much of CIE L*, 0 to 100. */
export function lighter(color: Rgb, by: number): Rgb {
  const { l, a, b } = lab(rgb(color.r, color.g, color.b));
  const to = Math.min(100, Math.max(0, l + by));
  // A shade loses its chroma with its light, or it could not be shown.
  const chroma = to < l ? to / l : 1;
  return lab(to, a * chroma, b * chroma)
    .rgb()
    .clamp();
}

/** CIE L* of a color: how light it prints in gray, 0 to 100. */
export const lightness = (color: Rgb): number => lab(rgb(color.r, color.g, color.b)).l;
