/**
 * Colours of the pictures. Chosen in the OKLCH colour space so that neighbours differ in lightness as well as hue:
 * they stay apart in a grey print and for colour-blind eyes (the tests simulate both).
 */

/** For things of a kind without an order: taken in turn. */
export const TURN_COLOURS = [
  '#162f72',
  '#dd881b',
  '#007654',
  '#cd5394',
  '#86281d',
  '#5dcbd1',
  '#835cbe',
] as const;

/** For amounts: each step darker than the one before. */
export const STEP_COLOURS = ['#e0d385', '#e49842', '#d45b46', '#a43163', '#63216a', '#261650'] as const;

/** The step colours spread over however few steps there are, so that the top step is always the darkest. */
export function stepColour(step: number, steps: number): string {
  const last = STEP_COLOURS.length - 1;
  return STEP_COLOURS[steps === 1 ? last : Math.round((step * last) / (steps - 1))];
}

/** Stitches that belong to no object, or that an amount does not apply to. */
export const ASIDE_COLOUR = '#9a9a9a';
export const PAPER_COLOUR = '#ffffff';
export const INK_COLOUR = '#1c1c1c';

/** Whether white shows better on the colour than ink: by relative luminance (WCAG 2.1), halfway in contrast. */
export function isDark(hex: string): boolean {
  return relativeLuminance(hex) < 0.179;
}

/** Relative luminance of an sRGB colour, 0 to 1 (WCAG 2.1, "relative luminance"). */
export function relativeLuminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const v = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
