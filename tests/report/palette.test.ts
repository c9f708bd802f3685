import { describe, expect, it } from 'vitest';
import {
  INK_COLOUR,
  isDark,
  PAPER_COLOUR,
  relativeLuminance,
  STEP_COLOURS,
  TURN_COLOURS,
} from '../../lib/report/palette.js';

type Rgb = [number, number, number];

const linear = (hex: string): Rgb =>
  [1, 3, 5].map((at) => {
    const v = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  }) as Rgb;

/** Björn Ottosson, "A perceptual color space for image processing" (2020): linear sRGB to OKLab. */
function oklab([r, g, b]: Rgb): Rgb {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

/** Machado, Oliveira & Fernandes (2009), severity 1, on linear RGB; from memory, each row adds up to 1. */
const EYES: Record<string, number[][]> = {
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

const seenBy = (eyes: number[][], rgb: Rgb): Rgb =>
  eyes.map((row) => Math.max(0, row[0] * rgb[0] + row[1] * rgb[1] + row[2] * rgb[2])) as Rgb;
const distance = (a: Rgb, b: Rgb): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

describe('colours of the pictures', () => {
  it('uses matrices that keep grey grey', () => {
    for (const eyes of Object.values(EYES)) {
      for (const row of eyes) expect(row[0] + row[1] + row[2]).toBeCloseTo(1, 4);
    }
  });

  it.each(Object.keys(EYES))('keeps turn colours apart for %s eyes', (kind) => {
    const seen = TURN_COLOURS.map((hex) => oklab(seenBy(EYES[kind], linear(hex))));
    // 0.05 in OKLab is several times a just noticeable difference (about 0.02).
    for (let i = 0; i < seen.length; i++) {
      for (let j = i + 1; j < seen.length; j++) expect(distance(seen[i], seen[j])).toBeGreaterThan(0.05);
    }
  });

  it('keeps neighbours in turn apart in a grey print', () => {
    const lightness = TURN_COLOURS.map((hex) => oklab(linear(hex))[0]);
    lightness.forEach((l, i) => {
      expect(Math.abs(l - lightness[(i + 1) % lightness.length])).toBeGreaterThan(0.1);
    });
  });

  it('grows darker step by step, for every eye', () => {
    for (const eyes of [...Object.values(EYES), null]) {
      const lightness = STEP_COLOURS.map((hex) => oklab(eyes ? seenBy(eyes, linear(hex)) : linear(hex))[0]);
      for (let i = 1; i < lightness.length; i++)
        expect(lightness[i - 1] - lightness[i]).toBeGreaterThan(0.05);
    }
  });

  // WCAG 2.1: contrast is (L1 + 0.05) / (L2 + 0.05); black on white is 21.
  it('draws thin lines in the better of white and ink', () => {
    const contrast = (a: string, b: string): number => {
      const [high, low] = [relativeLuminance(a), relativeLuminance(b)].sort((p, q) => q - p);
      return (high + 0.05) / (low + 0.05);
    };
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
    for (const colour of [...TURN_COLOURS, ...STEP_COLOURS]) {
      expect(contrast(colour, isDark(colour) ? PAPER_COLOUR : INK_COLOUR)).toBeGreaterThan(3.5);
    }
  });
});
