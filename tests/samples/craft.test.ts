/** What a good digitizer keeps to; limits are common practice, no source, unless said otherwise. */
import { describe, expect, it } from 'vitest';
import { inchToMm } from '../../lib/core/units.js';
import { Break } from '../../lib/format/stitches.js';
import { good, type Met, sample } from './reading.js';

/** Longest move of one three-byte record along an axis. */
const REACH_MM = 12.1;
const SHORTEST_MM = 0.5;
const WIDEST_SWING_MM = 7;

describe.each(good)('$file', (met) => {
  const { stitches, parts, outcome, design } = met;

  it('reads without an oddity and drags no thread from one place to another', () => {
    expect(design.diagnostics).toEqual([]);
    expect(stitches.breakBefore.includes(Break.jump)).toBe(false);
  });

  it('keeps every stitch within reach, no swing too wide and none too short', () => {
    const { x, y } = stitches;
    let [farthest, shortest, widest] = [0, Infinity, 0];
    for (let i = 1; i < stitches.count; i++) {
      if (stitches.breakBefore[i] !== Break.none) continue;
      farthest = Math.max(farthest, Math.abs(x[i] - x[i - 1]), Math.abs(y[i] - y[i - 1]));
      const step = Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
      if (parts[i] !== 'l') shortest = Math.min(shortest, step);
      if (parts[i] === 's') widest = Math.max(widest, step);
    }
    expect(farthest).toBeLessThanOrEqual(REACH_MM + 1e-9);
    expect(shortest).toBeGreaterThanOrEqual(SHORTEST_MM - 1e-9);
    // Positions are rounded to 0.1 mm.
    expect(widest).toBeLessThanOrEqual(WIDEST_SWING_MM + 0.15);
  });

  it('locks every thread at its start and its end', () => {
    for (let i = 0; i < stitches.count; i++) {
      if (stitches.breakBefore[i] !== Break.none)
        expect(parts.slice(i, i + 4), `thread start ${i}`).toBe('llll');
      const ends = i === stitches.count - 1 || stitches.breakBefore[i + 1] !== Break.none;
      if (ends) expect(parts.slice(i - 2, i + 1), `thread end ${i}`).toBe('lll');
    }
    for (const o of outcome.objects) {
      const alone = outcome.objects.filter(({ group }) => group === o.group).length === 1;
      if (alone) expect(o.locks, o.label).toEqual({ start: true, end: true });
    }
  });

  it('sews no satin and no fill without something under it', () => {
    for (const o of outcome.objects)
      if (o.kind !== 'run') expect(o.underlay.kinds.length, o.label).toBeGreaterThan(0);
  });
});

const topOf = ({ outcome }: Met, kind: string): number =>
  outcome.objects.filter((o) => o.kind === kind).reduce((sum, o) => sum + o.stitches, 0);

describe('the crest', () => {
  const crest = sample('crest.dst');

  it('has about 12,000 stitches, mostly fill, on a left chest', () => {
    const { stitches, widthMm, heightMm, colourChanges } = crest.outcome;
    expect(stitches).toBeGreaterThanOrEqual(11_500);
    expect(stitches).toBeLessThanOrEqual(12_500);
    expect(heightMm).toBeGreaterThan(88);
    expect(Math.max(widthMm, heightMm)).toBeLessThanOrEqual(100);
    expect(colourChanges).toBeGreaterThanOrEqual(3);
    expect(topOf(crest, 'fill')).toBeGreaterThan(topOf(crest, 'satin'));
    expect(topOf(crest, 'run')).toBeGreaterThan(0);
  });
});

describe('the name drop', () => {
  const { outcome, parts } = sample('name-drop.dst');

  it('has about 900 stitches in letters three quarters of an inch high', () => {
    expect(outcome.stitches).toBeGreaterThanOrEqual(850);
    expect(outcome.stitches).toBeLessThanOrEqual(950);
    expect(Math.abs(outcome.heightMm - inchToMm(0.75))).toBeLessThan(0.2);
  });

  it('is bold satin at 0.4 mm over double zigzag, nothing else', () => {
    for (const o of outcome.objects) {
      expect(o.kind).toBe('satin');
      expect(o.underlay.kinds).toContain('double-zigzag');
      expect(o.widthMm?.min).toBeGreaterThanOrEqual(4);
      expect(o.widthMm?.max).toBeLessThanOrEqual(6);
      expect(o.spacingMm?.max).toBeCloseTo(0.4, 6);
    }
  });

  it('trims between letters alone and joins the strokes of a letter', () => {
    const letters = new Set(outcome.objects.map(({ group }) => group)).size;
    expect(letters).toBe(5);
    expect(outcome.trims).toBe(letters - 1);
    expect(outcome.objects.length).toBeGreaterThan(letters);
    expect(parts.split('llll')).toHaveLength(letters + 1);
  });
});

describe('the cap front', () => {
  const { outcome, stitches } = sample('cap-front.dst');
  const middle = (label: string): { x: number; y: number } => {
    const o = outcome.objects.filter((object) => object.label.startsWith(label));
    let [x, y, n] = [0, 0, 0];
    for (const {
      stitchRange: [first, last],
    } of o)
      for (let i = first; i <= last; i++, n++) [x, y] = [x + stitches.x[i], y + stitches.y[i]];
    return { x: x / n, y: y / n };
  };

  it('is no higher than 57 mm', () => {
    expect(outcome.heightMm).toBeLessThanOrEqual(57);
  });

  it('is sewn tier by tier from the bottom up', () => {
    const tiers = ['wave 1', 'wave 2', 'S', 'lifebuoy'];
    const heights = tiers.map((tier) => middle(tier).y);
    expect(heights).toEqual([...heights].sort((a, b) => a - b));
    const starts = tiers.map((tier) => outcome.objects.findIndex(({ label }) => label.startsWith(tier)));
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
  });

  it('sews its letters from the middle out', () => {
    const letters = outcome.objects.filter(({ block }) => block === 2);
    const reach = [...new Set(letters.map(({ group }) => group))].map((group) => {
      const xs = letters.filter((o) => o.group === group).map((o) => stitches.x[o.stitchRange[0]]);
      return Math.min(...xs.map(Math.abs));
    });
    expect(reach).toHaveLength(6);
    // By turns to the two sides: every second letter is farther out on its own side.
    for (let i = 2; i < reach.length; i++) expect(reach[i]).toBeGreaterThan(reach[i - 2]);
  });
});

describe('the towel monogram', () => {
  it('has wide satin with split swings on a fill', () => {
    const met = sample('towel-monogram.dst');
    const split = met.outcome.objects.filter((o) => o.split);
    expect(split.some((o) => (o.widthMm?.max ?? 0) > 9)).toBe(true);
    expect(met.outcome.objects[0].kind).toBe('fill');
    for (const o of met.outcome.objects)
      expect(o.split, o.label).toBe((o.widthMm?.max ?? 0) > WIDEST_SWING_MM);
  });
});

describe('the jacket back', () => {
  it('has more than 60,000 stitches in 250 to 300 mm', () => {
    const met = sample('jacket-back.dst');
    expect(met.outcome.stitches).toBeGreaterThan(60_000);
    for (const mm of [met.outcome.widthMm, met.outcome.heightMm]) {
      expect(mm).toBeGreaterThan(250);
      expect(mm).toBeLessThan(300);
    }
    expect(topOf(met, 'fill')).toBeGreaterThan(40_000);
    expect(topOf(met, 'run')).toBeGreaterThan(1_000);
  });
});
