import { Resvg } from '@resvg/resvg-js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { relativeLuminance } from '../../lib/report/palette.js';
import { puckerReport } from '../../lib/report/pucker/report.js';
import { svgToPng } from '../../lib/report/to-png.js';
import { type MapInput, wrinkleMap } from '../../lib/report/wrinkle-map.js';
import { anyName, WENT_WRONG } from './any-report.js';
import { puckerInput, THIN } from './on-fabric.js';

async function mapInput(fabric: string): Promise<MapInput> {
  const input = await puckerInput({ fabric, stack: 'cutaway-2.5oz', grainDeg: 60 });
  const { stitches, designMeasures, risk } = input;
  return { stitches, bounds: designMeasures.bounds, maps: risk.maps, report: puckerReport(input) };
}

const OPTIONS = { title: 'crest.dst', units: 'mm' } as const;

/** Areas of the map: colour and the rings of its outline in mm. */
function areas(svg: string) {
  return [...svg.matchAll(/<path d="([^"]*)" fill="(#[0-9a-f]{6})"\/>/g)].map(([, path, colour]) => ({
    colour,
    rings: path
      .split('Z')
      .filter(Boolean)
      .map((ring) =>
        ring
          .slice(1)
          .split('L')
          .map((point) => point.split(' ').map((n) => Number(n) / 10)),
      ),
  }));
}

describe('the map of wrinkles', async () => {
  const input = await mapInput(THIN);
  const svg = await wrinkleMap(input, OPTIONS);

  it('is darker the higher the wrinkles, so that it reads in grey', () => {
    const seen = areas(svg).map(({ colour }) => relativeLuminance(colour));
    expect(seen.length).toBeGreaterThan(2);
    for (let k = 1; k < seen.length; k++) expect(seen[k]).toBeLessThan(seen[k - 1]);
  });

  it('has outlines at the heights that its legend says, where the model has them', () => {
    const { grid, wrinkleMm } = input.maps;
    const heights = [...svg.matchAll(/wrinkles ([\d.]+) (?:to [\d.]+ )?mm high/g)].map((m) => Number(m[1]));
    const bands = areas(svg);
    expect(heights).toHaveLength(bands.length);
    // Linear between the middles of cells.
    const at = (x: number, y: number): number => {
      const [u, v] = [(x - grid.x0) / grid.cellMm - 0.5, (y - grid.y0) / grid.cellMm - 0.5];
      const [i, j] = [Math.floor(u), Math.floor(v)];
      const value = (a: number, b: number) => wrinkleMm[b * grid.nx + a];
      const row = (b: number) => value(i, b) * (1 - u + i) + value(i + 1, b) * (u - i);
      return row(j) * (1 - v + j) + row(j + 1) * (v - j);
    };
    bands.forEach(({ rings }, k) => {
      for (const [x, y] of rings.flat()) {
        // Rounded to 0.1 mm: the height is that of some place at most half of it away.
        const off = [-0.05, -0.025, 0, 0.025, 0.05];
        const near = off.flatMap((dx) => off.map((dy) => at(x + dx, y + dy)));
        expect(Math.min(...near)).toBeLessThanOrEqual(heights[k] + 0.005);
        expect(Math.max(...near)).toBeGreaterThanOrEqual(heights[k] - 0.005);
      }
    });
    const marks = [...svg.matchAll(/font-weight="bold"[^>]*>([^<]+)</g)].map((m) => Number(m[1]));
    expect(marks.length).toBeGreaterThan(0);
    for (const mark of marks) expect(heights.slice(1)).toContain(mark);
  });

  it('draws the stitches over it to scale, with a scale, the grain and what decides', () => {
    const scale = Number(/scale\(([\d.]+) /.exec(svg)![1]);
    expect(scale).toBeGreaterThan(0);
    for (const words of ['grain', ' mm</text>', ' in</text>', 'sew a test on the same fabric', '>crest.dst<'])
      expect(svg).toContain(words);
    // 60° counter-clockwise of +X on paper, whose Y runs down.
    const [, x1, y1, x2, y2] = /M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)M/.exec(svg)!.map(Number);
    expect((Math.atan2(y1 - y2, x2 - x1) * 180) / Math.PI).toBeCloseTo(60, 0);
  });

  it('is a drawing that another program accepts, and turns into a PNG, whatever it is called', async () => {
    await fc.assert(
      fc.asyncProperty(anyName, async (title) => {
        const odd = await wrinkleMap(input, { title, units: 'in' });
        expect(new Resvg(odd).width).toBe(1000);
        expect(odd).not.toMatch(WENT_WRONG);
      }),
      { numRuns: 8 },
    );
    const { data } = await svgToPng(svg, 300);
    expect([...data.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
    expect(new DataView(data.buffer, data.byteOffset).getUint32(16)).toBe(300);
  });

  it('says so where nothing wrinkles', async () => {
    const flat = await wrinkleMap(await mapInput('canvas-tote'), OPTIONS);
    expect(areas(flat)).toEqual([]);
    expect(flat).toContain('no wrinkles higher than 0.05 mm are predicted');
  });
});
