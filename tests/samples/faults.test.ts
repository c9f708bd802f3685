import { describe, expect, it } from 'vitest';
import { Break } from '../../lib/format/stitches.js';
import { fileBytes, sample } from './reading.js';

const met = sample('incoming.dst');
const { outcome, stitches, design, parts } = met;

function fault(name: string) {
  const found = outcome.faults.find((f) => f.fault === name);
  if (!found) throw new Error(`No fault is named ${name}.`);
  return { ...found, objects: outcome.objects.filter(({ id }) => found.objects.includes(id)) };
}

describe('the file from outside', () => {
  it('lies about its records and goes on after its end', () => {
    const bytes = fileBytes('incoming.dst');
    const header = bytes.subarray(0, 512).toString('latin1');
    const claimed = Number(/ST: *(\d+)/.exec(header)?.[1]);
    const tail = bytes.toString('latin1').indexOf('RAFT RACE');
    expect(tail).toBeGreaterThan(0);
    // The end record is the last thing before the tail; some writers leave one more byte behind it.
    const records = Math.floor((tail - 512) / 3) - 1;
    expect(records - claimed).toBeGreaterThan(400);
    expect(design.diagnostics.length).toBeGreaterThanOrEqual(2);
    expect(outcome.fileFaults).toHaveLength(2);
  });

  it('has columns far wider than 7 mm in unbroken swings on double zigzag', () => {
    const { objects } = fault('satin too wide, on double zigzag');
    expect(objects.length).toBeGreaterThan(4);
    for (const o of objects) {
      expect(o.widthMm?.max).toBeGreaterThan(7);
      expect(o.split).toBe(false);
      expect(o.underlay.kinds).toContain('double-zigzag');
    }
  });

  it('has a wide column with nothing under it and one too narrow to sew', () => {
    const [wide] = fault('wide satin without underlay').objects;
    expect(wide.widthMm?.median).toBeGreaterThan(6);
    expect(wide.underlay.kinds).toEqual([]);
    const [hair] = fault('satin too narrow').objects;
    expect(hair.widthMm?.max).toBeLessThan(1);
  });

  it('has a thread that is locked at neither end', () => {
    const { objects, stitches: range } = fault('thread start and end not locked');
    for (const o of objects) expect(o.locks).toEqual({ start: false, end: false });
    expect(parts.slice(range[0], range[1] + 1)).not.toContain('l');
    expect(stitches.breakBefore[range[0]]).toBe(Break.trim);
    expect(stitches.breakBefore[range[1] + 1]).toBe(Break.trim);
  });

  it('has lettering 4 mm high', () => {
    const {
      stitches: [first, last],
    } = fault('lettering too small');
    const ys = stitches.y.slice(first, last + 1);
    expect(Math.max(...ys) - Math.min(...ys)).toBeLessThan(4.6);
  });

  it('drags the thread over more than 12 mm without a trim, twice', () => {
    const {
      stitches: [first, last],
    } = fault('long jumps not trimmed');
    const drags: number[] = [];
    for (let i = first + 1; i <= last; i++)
      if (stitches.breakBefore[i] === Break.jump)
        drags.push(Math.hypot(stitches.x[i] - stitches.x[i - 1], stitches.y[i] - stitches.y[i - 1]));
    expect(drags).toHaveLength(2);
    for (const drag of drags) expect(drag).toBeGreaterThan(12);
  });

  it('has a fill with twice the rows it needs', () => {
    const [dense] = fault('fill too dense').objects;
    const normal = outcome.objects.find(({ label }) => label === 'dot 1');
    expect(dense.spacingMm?.median).toBe(0.2);
    expect(dense.stitches).toBeGreaterThan((normal?.stitches ?? Infinity) * 1.7);
  });

  it('has sixteen needle points within 0.3 mm of each other', () => {
    const {
      stitches: [first, last],
    } = fault('needle points piled on one spot');
    expect(last - first + 1).toBe(16);
    for (let i = first; i <= last; i++)
      for (let j = first; j < i; j++)
        expect(Math.hypot(stitches.x[i] - stitches.x[j], stitches.y[i] - stitches.y[j])).toBeLessThan(0.3);
  });
});
