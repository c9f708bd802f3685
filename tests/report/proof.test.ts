import { readFileSync } from 'node:fs';
import { DOMParser } from '@xmldom/xmldom';
import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { decodeDesign } from '../../lib/format/decode.js';
import { type Design, Kind } from '../../lib/format/design.js';
import { penetrations } from '../../lib/format/stitches.js';
import { lettering, letteringWidth } from '../../lib/report/proof/lettering.js';
import { type ProofInput, proofOf, proofPng, proofSvg } from '../../lib/report/proof/proof.js';
import { reliefOf } from '../../lib/report/proof/relief.js';
import { colorNamed, colorsNamed, lighter, lightness } from '../../lib/report/proof/thread-colors.js';
import { rasterThreads } from '../../lib/report/proof/thread-raster.js';
import { SHOP } from '../built-in-shop.js';

const CREST = { path: 'crest.dst', format: 'dst', bytes: 1, sha256: '0' } as const;
const READER = { units: 'mm', detail: 'full' } as const;
const PER_MM = 300 / 25.4;

/** Stitches through these places; a null is a change of color. */
function sewn(places: readonly (readonly [number, number] | null)[]) {
  const design: Design = {
    kind: Uint8Array.from(places, (place) => (place ? Kind.stitch : Kind.colour)),
    x: Float64Array.from(places, (place) => place?.[0] ?? 0),
    y: Float64Array.from(places, (place) => place?.[1] ?? 0),
  } as Design;
  return penetrations(design);
}

/** A square fill of rows that far apart, turned. */
function fill(apartMm: number, turnDeg: number, sideMm = 12) {
  const places: [number, number][] = [];
  const [c, s] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  const put = (x: number, y: number) =>
    places.push([Math.round((x * c - y * s) * 10) / 10, Math.round((x * s + y * c) * 10) / 10]);
  for (let row = 0; row * apartMm <= sideMm; row++) {
    const y = row * apartMm - sideMm / 2;
    for (let k = 0; k <= sideMm / 3; k++) {
      const x = 3 * k - sideMm / 2;
      put(row % 2 ? -x : x, y);
    }
  }
  return sewn(places);
}

function pixelsOf(stitches: ReturnType<typeof sewn>, thread = 'lime', side = 16) {
  const width = Math.round(side * PER_MM);
  const data = new Uint8Array(3 * width * width);
  for (let k = 0; k < data.length; k += 3) data.set([255, 0, 255], k);
  const colors = colorsNamed(thread);
  rasterThreads(
    { width, height: width, data },
    { perMm: PER_MM, originX: width / 2, originY: width / 2 },
    stitches,
    (block) => colors[block - 1],
  );
  const at = (x: number, y: number) => {
    const k = 3 * (Math.floor(width / 2 - y * PER_MM) * width + Math.floor(width / 2 + x * PER_MM));
    return [...data.subarray(k, k + 3)];
  };
  return { at, data, width };
}

describe('colors as people write them', () => {
  // CSS Color Module Level 4, 6.1: the named colors.
  it.each([
    ['navy', '0 0 128'],
    ['Light Blue', '173 216 230'],
    ['dark-slate gray', '47 79 79'],
    ['rebeccapurple', '102 51 153'],
    ['#c8102e', '200 16 46'],
    ['C8102E', '200 16 46'],
    ['#0f0', '0 255 0'],
  ])('%s is %s', (text, expected) => {
    const { r, g, b, name } = colorNamed(text);
    expect(`${r} ${g} ${b}`).toBe(expected);
    expect(name).toBe(text);
  });

  it("knows a shop's own names first", () => {
    const own = new Map([
      ['house red', '#b3122a'],
      ['navy', '#101840'],
    ]);
    expect(colorNamed('House Red', own)).toMatchObject({ r: 0xb3, g: 0x12, b: 0x2a });
    expect(colorsNamed('navy, house red ,white', own).map(({ b }) => b)).toEqual([0x40, 0x2a, 255]);
  });

  it('says which one it does not know, and what can be given', () => {
    expect(() => colorsNamed('navy, bleu marine')).toThrow(/bleu marine.*there is no color of that name/);
  });

  it('are lighter and darker by lightness, and the same in gray where that is the same', () => {
    const red = colorNamed('crimson');
    expect(lightness(lighter(red, 10)) - lightness(red)).toBeCloseTo(10, 0);
    expect(lightness(lighter(red, -200))).toBeCloseTo(0, 5);
    expect(lightness(colorNamed('white'))).toBeCloseTo(100, 1);
  });
});

describe('stitches as thread', () => {
  it.each([0, 17, 45, 90, 133])('cover the garment in a fill of rows 0.40 mm apart at %i degrees', (turn) => {
    const { at } = pixelsOf(fill(0.4, turn));
    for (let x = -4; x <= 4; x += 0.085)
      for (let y = -4; y <= 4; y += 0.085) {
        const [r, g] = at(x, y);
        // Magenta garment under lime thread: a garment that shows has more red than green.
        expect(g, `${x} ${y}`).toBeGreaterThan(r + 60);
      }
  });

  it('cover it in every fill of a sample whose rows lie 0.40 mm apart or closer', async () => {
    const bytes = readFileSync(new URL('../../samples/crest.dst', import.meta.url));
    const vetting = SHOP.vet(await decodeDesign(bytes, 'dst'), { file: CREST });
    const fills = vetting.measures.filter(
      ({ object, spacingMm }) => object.kind === 'fill' && spacingMm !== null && spacingMm.median <= 0.401,
    );
    expect(fills.length).toBeGreaterThan(0);
    const { stitches } = vetting;
    const { at } = pixelsOf(stitches, Array.from({ length: 12 }, () => 'lime').join(), 110);
    const point = (i: number) => [stitches.x[i], stitches.y[i]] as const;
    const along = (a: number, b: number, t: number) =>
      [0, 1].map((k) => point(a)[k] + t * (point(b)[k] - point(a)[k]));
    let looked = 0;
    for (const { object } of fills)
      for (let k = 1; k < object.from.length; k++)
        for (const t of [0.2, 0.35, 0.5, 0.65, 0.8]) {
          // Half way between two rows that lie beside each other, the second sewn the other way.
          const [a, b] = [
            along(object.from[k - 1], object.to[k - 1], t),
            along(object.to[k], object.from[k], t),
          ];
          if (Math.hypot(a[0] - b[0], a[1] - b[1]) > 0.42) continue;
          looked++;
          const [r, g] = at((a[0] + b[0]) / 2, (a[1] + b[1]) / 2);
          expect(g, `object ${object.id}, row ${k}`).toBeGreaterThan(r + 60);
        }
    expect(looked).toBeGreaterThan(500);
  });

  // Printed in gray only lightness is left: what stood apart has to stand apart still, sheen and shade and all.
  it.each([
    ['white', 'navy'],
    ['navy', 'white'],
    ['crimson', 'lightgray'],
    ['gold', 'black'],
    ['gray', 'white'],
  ])('%s on %s stands apart from the garment in gray print', (thread, garment) => {
    const cloth = colorNamed(garment);
    const apart = lightness(colorNamed(thread)) - lightness(cloth);
    for (const turn of [0, 45, 90, 135]) {
      const { at } = pixelsOf(fill(0.4, turn), thread);
      let sum = 0;
      let count = 0;
      for (let x = -4; x <= 4; x += 0.4)
        for (let y = -4; y <= 4; y += 0.4, count++) {
          const [r, g, b] = at(x, y);
          sum += lightness({ r, g, b }) - lightness(cloth);
        }
      // On the same side, and more than half as far.
      expect((sum / count) * Math.sign(apart), `${turn}`).toBeGreaterThan(Math.abs(apart) / 2);
    }
  });

  it('let the garment show between rows that stand open', () => {
    const { data } = pixelsOf(fill(1.2, 30));
    let shows = 0;
    for (let k = 0; k < data.length; k += 3) if (data[k] === 255 && data[k + 1] === 0) shows++;
    expect(shows / (data.length / 3)).toBeGreaterThan(0.5);
  });

  it('lie over what is sewn before them', () => {
    const cross = [[-5, 0], [5, 0], null, [0, -5], [0, 5]] as const;
    const over = pixelsOf(sewn(cross), 'lime, blue').at(0, 0);
    expect(over[2]).toBeGreaterThan(over[1] + 60);
    const side = pixelsOf(sewn(cross), 'lime, blue').at(3, 0);
    expect(side[1]).toBeGreaterThan(side[2] + 60);
  });

  it('are not drawn where the thread is cut', () => {
    const { at } = pixelsOf(sewn([[-5, 3], [-3, 3], null, [3, 3], [5, 3]]), 'lime, lime');
    expect(at(0, 3)).toEqual([255, 0, 255]);
    expect(at(-4, 3)[1]).toBeGreaterThan(150);
  });

  it('shine by the direction that they lie in', () => {
    const along = (deg: number) => {
      const [x, y] = [5 * Math.cos((deg * Math.PI) / 180), 5 * Math.sin((deg * Math.PI) / 180)];
      const [r, g, b] = pixelsOf(
        sewn([
          [-x, -y],
          [x, y],
        ]),
        'gray',
      ).at(x / 4, y / 4);
      return lightness({ r, g, b });
    };
    expect(along(35)).toBeGreaterThan(along(125) + 8);
  });
});

const bounds = { minX: -6, minY: -6, maxX: 6, maxY: 6 };
const input = (more: Partial<ProofInput> = {}): ProofInput => ({
  name: 'a <b> & c.dst',
  bounds,
  widthMm: 12,
  heightMm: 12,
  views: [{ stitches: fill(0.4, 0), maps: null, caption: ['As it is'] }],
  threads: colorsNamed('navy'),
  garment: colorNamed('white'),
  ...more,
});

/** Wrinkles of one height and wavelength over a square of 40 mm. */
const waves = (heightMm: number) => {
  const n = 40;
  const all = (value: number) => new Float64Array(n * n).fill(value);
  return {
    grid: { x0: -20, y0: -20, nx: n, ny: n, cellMm: 1 },
    wrinkleMm: all(heightMm),
    wavelengthMm: all(8),
    acrossDeg: all(0),
  };
};

describe('relief', () => {
  it('is flat where nothing wrinkles', () => {
    expect(reliefOf(waves(0)).shade.every((value) => value === 0)).toBe(true);
  });

  it('is deeper the higher the wrinkles, the same each time', () => {
    const depth = (mm: number) => {
      const { shade } = reliefOf(waves(mm));
      return Math.sqrt(shade.reduce((sum, value) => sum + value * value, 0) / shade.length);
    };
    expect(depth(0.1)).toBeGreaterThan(0.02);
    expect(depth(0.4)).toBeGreaterThan(2 * depth(0.1));
    expect(reliefOf(waves(0.3)).shade).toEqual(reliefOf(waves(0.3)).shade);
  });

  it('runs across its crests: light from the left sees those that stand upright', () => {
    const { shade: upright } = reliefOf(waves(0.3));
    const { shade: level } = reliefOf({ ...waves(0.3), acrossDeg: new Float64Array(1600).fill(90) });
    const power = (shade: Float32Array) => shade.reduce((sum, value) => sum + value * value, 0);
    expect(power(upright)).toBeGreaterThan(3 * power(level));
  });
});

describe('a proof', () => {
  it('is as large as it is sewn, as SVG and in pixels', async () => {
    const proof = proofOf(input(), READER);
    const svg = await proofSvg(proof);
    const root = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement!;
    expect(root.getAttribute('width')).toBe(`${proof.sheet.widthMm.toFixed(2)}mm`);
    expect(root.getAttribute('viewBox')).toBe(
      `0 0 ${proof.sheet.widthMm.toFixed(2)} ${proof.sheet.heightMm.toFixed(2)}`,
    );
    // The design and the garment about it.
    expect(proof.sheet.panels[0].width).toBeCloseTo(12 + 2 * 14, 9);
    const png = await proofPng(proof);
    const { width, height, resolution } = decode(png, { checkCrc: true });
    // PNG, third edition, 11.3.4.3: pixels a meter.
    expect(resolution).toMatchObject({ x: 11811, y: 11811, unit: 1 });
    expect(width).toBe(Math.ceil(proof.sheet.widthMm * PER_MM));
    expect(height).toBe(Math.ceil(proof.sheet.heightMm * PER_MM));
  });

  it('needs no font, and is safe whatever a file is called', async () => {
    const svg = await proofSvg(proofOf(input(), READER));
    expect(svg).not.toContain('<text');
    expect(svg).toContain('a &lt;b&gt; &amp; c.dst');
  });

  it('names the threads that print as light as the garment', () => {
    const notes = (threads: string, garment: string) =>
      proofOf(input({ threads: colorsNamed(threads), garment: colorNamed(garment) }), READER).notes;
    expect(notes('navy', 'black')).toContain('Nearly alike in gray print: the garment and thread 1 navy.');
    expect(notes('white', 'black').join()).not.toContain('alike');
  });

  it('says where its colors come from', async () => {
    // Each note is strokes of its own: the picture grows with it.
    const long = async (more: Partial<ProofInput>) => (await proofSvg(proofOf(input(more), READER))).length;
    const named = await long({});
    expect(await long({ threads: [] })).toBeGreaterThan(named);
    expect(await long({ garment: colorNamed('navy') })).not.toBe(named);
  });

  it('shows light and shade on the garment alone', async () => {
    const both = [null, waves(0.6)].map((maps) => ({ stitches: fill(0.4, 0), maps, caption: ['x'] }));
    const proof = proofOf(input({ views: both, garment: colorNamed('gray') }), READER);
    const { data, width } = decode(await proofPng(proof));
    const spread = (k: number, dx: number, dy: number) => {
      const { originX, originY } = proof.sheet.panels[k];
      let [low, high] = [255, 0];
      for (let i = -20; i <= 20; i++)
        for (let j = -20; j <= 20; j++) {
          const x = Math.floor((originX + dx + i * 0.1) * PER_MM);
          const y = Math.floor((originY - dy - j * 0.1) * PER_MM);
          const value = data[3 * (y * width + x)];
          [low, high] = [Math.min(low, value), Math.max(high, value)];
        }
      return high - low;
    };
    expect(spread(0, 10, 10)).toBe(0);
    expect(spread(1, 10, 10)).toBeGreaterThan(40);
    expect(spread(1, 0, 0)).toBe(spread(0, 0, 0));
  });
});

describe('lettering', () => {
  it('has strokes for whatever a keyboard types, and a dot for what it does not', () => {
    for (let code = 33; code < 127; code++) {
      const letter = String.fromCharCode(code);
      expect(lettering(letter, 0, 0, 6).length, letter).toBeGreaterThan(0);
    }
    expect(lettering('é', 0, 0, 6)).toEqual(lettering('E', 0, 0, 6));
    expect(lettering('漢', 0, 0, 6)).toEqual(lettering('.', 0, 0, 6));
  });

  it('stays within its height and width', () => {
    const text = 'As it is: 2.5 oz/yd² (45°)';
    for (const line of lettering(text, 10, 50, 6))
      for (let k = 0; k < line.length; k += 2) {
        expect(line[k]).toBeGreaterThanOrEqual(10);
        expect(line[k]).toBeLessThanOrEqual(10 + letteringWidth(text, 6));
        expect(line[k + 1]).toBeGreaterThanOrEqual(44);
        expect(line[k + 1]).toBeLessThanOrEqual(50);
      }
  });
});
