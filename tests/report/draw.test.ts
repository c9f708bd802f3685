import { Resvg } from '@resvg/resvg-js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { penetrations } from '../../lib/format/stitches.js';
import { densityBands } from '../../lib/report/density-bands.js';
import { drawDesign } from '../../lib/report/draw.js';
import { DRAW_BY } from '../../lib/report/draw-by.js';
import { relativeLuminance } from '../../lib/report/palette.js';
import { stitchPath } from '../../lib/report/stitch-path.js';
import { xmlText } from '../../lib/report/svg.js';
import { svgToPng } from '../../lib/report/to-png.js';
import { SHOP } from '../built-in-shop.js';
import { anyName, WENT_WRONG } from './any-report.js';
import { littleCrest, Needle } from './little-design.js';

const FILE = { path: 'crest.dst', format: 'dst', bytes: 1, sha256: '00'.repeat(32) } as const;
const vetting = (needle: Needle | null = null) => SHOP.vet(needle?.end() ?? littleCrest(), { file: FILE });

/** Reads path data of M, l and further pairs back into points, in 0.1 mm: the grammar of SVG 1.1, section 8.3. */
function pointsOf(path: string): { x: number; y: number; lifted: boolean }[] {
  const points: { x: number; y: number; lifted: boolean }[] = [];
  let at = { x: 0, y: 0 };
  for (const [, command, body] of path.matchAll(/([Ml])([^Ml]*)/g)) {
    const numbers = [...body.matchAll(/-?\d+/g)].map((m) => Number(m[0]));
    for (let i = 0; i < numbers.length; i += 2) {
      at =
        command === 'M'
          ? { x: numbers[i], y: numbers[i + 1] }
          : { x: at.x + numbers[i], y: at.y + numbers[i + 1] };
      points.push({ ...at, lifted: command === 'M' });
    }
  }
  return points;
}

describe('the path through stitches', () => {
  it('passes every needle point to within half of 0.1 mm', () => {
    const step = fc.tuple(
      fc.double({ min: -12, max: 12, noNaN: true }),
      fc.double({ min: -12, max: 12, noNaN: true }),
      fc.boolean(),
    );
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 200 }), (steps) => {
        const needle = new Needle();
        let [x, y] = [0, 0];
        for (const [dx, dy, cut] of steps) {
          [x, y] = [x + dx, y + dy];
          if (cut) needle.trimTo(x, y);
          else needle.to(x, y);
        }
        const stitches = penetrations(needle.end());
        const points = pointsOf(stitchPath(stitches, 0, stitches.count - 1));
        let k = 0;
        for (let i = 0; i < stitches.count; i++) {
          const reached = (p: { x: number; y: number }): boolean =>
            Math.abs(p.x / 10 - stitches.x[i]) <= 0.05 + 1e-9 &&
            Math.abs(p.y / 10 - stitches.y[i]) <= 0.05 + 1e-9;
          // A point on the same spot as the one before it is not drawn twice.
          if (k < points.length && reached(points[k])) k++;
          else expect(reached(points[k - 1])).toBe(true);
        }
        expect(k).toBe(points.length);
      }),
      { numRuns: 60 },
    );
  });

  it('lifts the line where the thread was cut, and only there', () => {
    const stitches = penetrations(new Needle().to(0, 0).to(3, 0).trimTo(9, 0).to(12, 0).end());
    const lifted = pointsOf(stitchPath(stitches, 0, stitches.count - 1)).filter((p) => p.lifted);
    expect(lifted.map((p) => p.x)).toEqual([0, 90]);
  });
});

const GRADES = new Map([
  [1, 1.5],
  [2, 3],
  [3, 5],
]);

describe('the picture of a design', () => {
  it('by risk is the darker the worse an object will look, and says on what', async () => {
    const options = {
      by: 'risk',
      title: 't',
      units: 'mm',
      on: { fabricName: '"jersey" & more', stackName: 'none' },
    } as const;
    const svg = await drawDesign({ ...vetting(), grades: GRADES }, options);
    const tops = [...svg.matchAll(/<path d="[^"]*" stroke="(#[0-9a-f]{6})"\/>/g)].map((m) =>
      relativeLuminance(m[1]),
    );
    expect(tops).toHaveLength(3);
    expect(tops[0]).toBeLessThan(tops[1]);
    expect(tops[1]).toBeLessThan(tops[2]);
    for (const words of [
      'lies flat (grade 5 to 4.5)',
      'bad (grade 2 to 1)',
      'on &quot;jersey&quot; &amp; more',
    ])
      expect(svg).toContain(words);
    await expect(drawDesign(vetting(), options)).rejects.toMatchObject({ code: 'bad-argument' });
  });

  it.each(DRAW_BY)('is a drawing that another program accepts, by %s', async (by) => {
    const svg = await drawDesign({ ...vetting(), grades: GRADES }, { by, title: 'crest.dst', units: 'mm' });
    const { width, height } = new Resvg(svg);
    expect(width).toBe(1000);
    expect(height).toBeGreaterThan(1000);
    expect(svg).not.toMatch(WENT_WRONG);
  });

  it('is to scale: the bars are as long as they say, beside the size of the design', async () => {
    const svg = await drawDesign(vetting(), { by: 'object', title: 'crest.dst', units: 'mm' });
    const unit = Number(/scale\(([\d.]+) /.exec(svg)![1]);
    const bars = [
      ...svg.matchAll(/d="M([\d.]+) [\d.]+V[\d.]+H([\d.]+)V[^"]+"[^>]*\/><text[^>]*>([^<]+)</g),
    ].map((m) => ({
      mm: (Number(m[2]) - Number(m[1])) / unit / 10,
      label: m[3],
    }));
    expect(bars.map((b) => b.label)).toEqual(['5 mm', '1/4 in']);
    expect(bars[0].mm).toBeCloseTo(5, 2);
    expect(bars[1].mm).toBeCloseTo(25.4 / 4, 2);
  });

  it('puts Y upward: what is sewn higher is drawn higher', async () => {
    const svg = await drawDesign(vetting(new Needle().walk(0, 10)), {
      by: 'object',
      title: 't',
      units: 'mm',
    });
    const [, sx, sy] = /scale\(([-\d.]+) ([-\d.]+)\)/.exec(svg)!;
    expect(Number(sx)).toBeGreaterThan(0);
    expect(Number(sy)).toBe(-Number(sx));
  });

  it('draws every stitch once in the picture by object', async () => {
    const { stitches, measures, designMeasures } = vetting();
    const svg = await drawDesign(
      { stitches, measures, designMeasures },
      { by: 'object', title: 't', units: 'mm' },
    );
    const drawn = new Set<string>();
    for (const [, path] of svg.matchAll(/ d="([^"]*)"/g))
      for (const p of pointsOf(path)) drawn.add(`${p.x} ${p.y}`);
    for (let i = 0; i < stitches.count; i++) {
      expect(drawn).toContain(`${Math.round(stitches.x[i] * 10)} ${Math.round(stitches.y[i] * 10)}`);
    }
  });

  it('takes any name for a title', async () => {
    const drawing = vetting();
    await fc.assert(
      fc.asyncProperty(anyName, async (title) => {
        const svg = await drawDesign(drawing, { by: 'object', title, units: 'mm' });
        expect(new Resvg(svg).width).toBe(1000);
      }),
      { numRuns: 20 },
    );
    expect(xmlText('<a href="x">&\'\u0000')).toBe('&lt;a href=&quot;x&quot;&gt;&amp;&#39;\\x00');
  });

  it('draws a design of one point, and one without any', async () => {
    for (const needle of [new Needle(), new Needle().to(3, 4)]) {
      for (const by of DRAW_BY) {
        const svg = await drawDesign({ ...vetting(needle), grades: GRADES }, { by, title: 't', units: 'in' });
        expect(new Resvg(svg).height).toBeLessThan(500);
        expect(svg).not.toMatch(WENT_WRONG);
      }
    }
  });

  it('stays small: one path an object, a few bytes a stitch', async () => {
    const needle = new Needle();
    for (let i = 0; i < 40; i++) needle.fill(0, i * 30, { width: 120, height: 25 });
    const drawing = vetting(needle);
    const svg = await drawDesign(drawing, { by: 'object', title: 't', units: 'mm' });
    expect(svg.match(/<path/g)!.length).toBeLessThanOrEqual(2 * drawing.objects.length + 4);
    expect(svg.length / drawing.stitches.count).toBeLessThan(8);
  });
});

describe('bands of density', () => {
  it('reach the density of an even field in its middle', async () => {
    // A lattice of one point every 0.5 mm both ways: 4 points a mm².
    const needle = new Needle();
    for (let row = 0; row < 60; row++)
      for (let i = 0; i < 60; i++) needle.to((row % 2 ? 59 - i : i) * 0.5, row * 0.5);
    const { stitches, designMeasures } = SHOP.vet(needle.end(), { file: FILE });
    const bands = await densityBands(stitches, designMeasures.bounds, 6);
    const at = bands.findIndex((band) => 4 <= band.to);
    expect(bands[at].from).toBeLessThanOrEqual(4);
    expect(bands.at(-1)!.to).toBeLessThanOrEqual(5);
    expect(bands[0].path).not.toBe('');
  });

  it('are none where there is no stitch', async () => {
    const { stitches, designMeasures } = SHOP.vet(new Needle().end(), { file: FILE });
    expect(await densityBands(stitches, designMeasures.bounds, 6)).toEqual([]);
  });
});

describe('the picture as PNG', () => {
  // PNG specification (ISO/IEC 15948), 5.2 and 11.2.2: the signature, then IHDR with width and height.
  it('has the width asked for', async () => {
    const svg = await drawDesign(vetting(), { by: 'width', title: 'crest.dst', units: 'mm' });
    const { data, lettered } = await svgToPng(svg, 300);
    expect([...data.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
    expect(new DataView(data.buffer, data.byteOffset).getUint32(16)).toBe(300);
    expect(typeof lettered).toBe('boolean');
  });

  it.each([15, 8001, 1.5, Number.NaN])('refuses a width of %d', async (width) => {
    await expect(svgToPng('<svg xmlns="http://www.w3.org/2000/svg"/>', width)).rejects.toMatchObject({
      code: 'bad-argument',
    });
  });
});
