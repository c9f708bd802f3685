import { describe, expect, it } from 'vitest';
import { type FillUnderPart, readFillUnderlay } from '../../lib/segment/fill-underlay.js';
import { LegFinder } from '../../lib/segment/legs.js';
import { findPatches } from '../../lib/segment/patches.js';
import { FillRegion } from '../../lib/segment/region.js';
import { inset, turned, type Vec, vec } from '../generators/plane.js';
import { block, rows, sewn, walk, zigzag } from './board.js';

const WIDE = 30;
const HIGH = 20;
const OUTLINE = [vec(0, 0), vec(WIDE, 0), vec(WIDE, HIGH), vec(0, HIGH)];

/** Reads what lies under an oblong of 30 × 20 mm. */
function read(...parts: Vec[][]) {
  const top = rows(0.4, HIGH, block(0, WIDE));
  const stitches = sewn(...parts, top);
  const { x, y } = stitches;
  const first = parts.reduce((n, p) => n + p.length, 0);
  const from: number[] = [];
  const to: number[] = [];
  for (let i = first; i + 1 < stitches.count; i++) {
    if (Math.abs(y[i + 1] - y[i]) > 0.05) continue;
    from.push(i);
    to.push(i + 1);
  }
  const region = new FillRegion(x, y, Int32Array.from(from), Int32Array.from(to), 0.4);
  let at = 0;
  const under = parts.map((p): FillUnderPart => {
    const part = { first: at, last: at + p.length - 1 };
    at += p.length;
    const legs = new LegFinder(stitches, p.length).find(part.first, part.last);
    return { ...part, patch: findPatches(stitches, legs)[0] ?? null };
  });
  return readFillUnderlay(stitches, region, under);
}

/** The way round the outline, `d` mm inside it, from the corner `k` on. */
function round(d: number, k = 0, way: 1 | -1 = 1): Vec[] {
  const ring = inset(OUTLINE, d);
  const corners = [0, 1, 2, 3, 4].map((i) => ring[(k + way * i + 8) % 4]);
  return walk(2.5, ...corners);
}

/** Light rows at an angle, in the circle of 9.5 mm about the middle of the oblong. */
function lightRows(apart: number, degrees: number): Vec[] {
  const within = (y: number) => Math.sqrt(9.5 ** 2 - (y - 9) ** 2);
  return rows(apart, 18, (y) => [-within(y), within(y)]).map((p) => {
    const q = turned(vec(p.x, p.y - 9), (degrees * Math.PI) / 180);
    return vec(q.x + WIDE / 2, q.y + HIGH / 2);
  });
}

describe('under a fill', () => {
  it.each([
    [0.4, 0, 1],
    [0.8, 2, -1],
    [1.2, 1, 1],
  ] as const)('an edge run is the way round, %s mm inside the edge, from any corner', (d, corner, way) => {
    expect(read(round(d, corner, way))).toEqual({ kinds: ['edge-run'], spacingMm: null });
  });

  it.each([
    [2, 90],
    [3, 90],
    [3, 45],
    [4, 0],
  ])('a light fill is rows %s mm apart, at %s°', (apart, degrees) => {
    const reading = read(lightRows(apart, degrees));
    expect(reading.kinds).toEqual(['fill']);
    expect(Math.abs((reading.spacingMm ?? 0) - apart)).toBeLessThan(0.1);
  });

  it('both are an edge run and a light fill, either first, in one part or two', () => {
    const edge = round(0.6);
    const light = lightRows(3, 90);
    for (const parts of [[edge, light], [light, edge], [[...edge, ...light]]]) {
      const reading = read(...parts);
      expect([...reading.kinds].sort()).toEqual(['edge-run', 'fill']);
      expect(Math.abs((reading.spacingMm ?? 0) - 3)).toBeLessThan(0.15);
    }
  });

  it('rows laid twice, the second time across, are still a light fill', () => {
    const reading = read([...lightRows(3, 45), ...lightRows(3, 135)]);
    expect(reading.kinds).toEqual(['fill']);
    expect(Math.abs((reading.spacingMm ?? 0) - 3)).toBeLessThan(0.2);
  });

  it('a zigzag is one', () => {
    const reading = read(zigzag(vec(2, 10), vec(28, 10), 16, 3));
    expect(reading.kinds).toEqual(['zigzag']);
    expect(Math.abs((reading.spacingMm ?? 0) - 3)).toBeLessThan(0.1);
  });

  it('travel along half of the edge is none', () => {
    const ring = inset(OUTLINE, 0.8);
    expect(read(walk(2.5, ring[0], ring[1], ring[2]))).toEqual({ kinds: [], spacingMm: null });
    expect(read(walk(2.5, vec(15, 10), ring[1], ring[2], vec(15, 10)))).toEqual({
      kinds: [],
      spacingMm: null,
    });
  });

  it('a way round all but one side is none, nor one that ends far from where it began', () => {
    const ring = inset(OUTLINE, 0.8);
    expect(read(walk(2.5, ring[0], ring[1], ring[2], ring[3], vec(0.8, 8))).kinds).toEqual([]);
    expect(read(walk(2.5, ring[0], ring[1], ring[2], ring[3], vec(0.8, 3))).kinds).toEqual(['edge-run']);
  });

  it('travel straight through is none, nor is nothing', () => {
    expect(read(walk(2.5, vec(2, 2), vec(28, 18)))).toEqual({ kinds: [], spacingMm: null });
    expect(read()).toEqual({ kinds: [], spacingMm: null });
    expect(read([vec(3, 3)])).toEqual({ kinds: [], spacingMm: null });
  });

  it('an edge run is found behind the way that leads to it, and may stray by a point', () => {
    const ring = round(0.8);
    const strayed = ring.map((p, i) => (i === 5 ? vec(p.x, p.y + 2.5) : p));
    expect(read([...walk(2.5, vec(15, 10), vec(3, 3)), ...strayed]).kinds).toEqual(['edge-run']);
  });

  it('a ring in the middle of the area follows no edge', () => {
    const circle = Array.from({ length: 40 }, (_, k) =>
      vec(15 + 6 * Math.cos((k * Math.PI) / 19.5), 10 + 6 * Math.sin((k * Math.PI) / 19.5)),
    );
    expect(read(circle).kinds).toEqual([]);
  });
});
