import { describe, expect, it } from 'vitest';
import type { Finding } from '../../lib/vetting/finding.js';
import { withOneCure } from '../../lib/vetting/one-cure.js';
import { said } from './said.js';

const base = { severity: 'warn', object: 1, stitch: 5, limit: 1, unit: 'mm', basis: 'a test' } as const;
const heavy = (more: object = {}): Finding => ({
  ...{ ...base, code: 'wide-satin-heavy-underlay', at: { x: 0, y: 0 }, measured: 9 },
  params: {
    ...{ widthMm: 9, underlay: 'zigzag', to: 'fill', onlyIfNamed: false, kept: null, decided: false },
    ...more,
  },
  fix: { do: 'relay', objects: [1], to: 'fill' },
});
const wide = (object = 1): Finding => ({
  ...{ ...base, object, code: 'satin-too-wide', at: { x: 0, y: 0 }, measured: 9 },
  params: { widthMm: 9, past: 'snag', over: null },
  fix: { do: 'split', objects: [object] },
});
const pile = (points = 17): Finding => ({
  ...{ ...base, severity: 'fail', code: 'needle-points-piled', at: { x: 10, y: 5 }, measured: points },
  params: { points, ofShort: false },
  fix: { do: 'ask-digitizer', objects: [1], to: 'spread-points' },
});
const short = (count: number, x = 10.1, severity: Finding['severity'] = 'warn'): Finding => ({
  ...{ ...base, severity, code: 'stitch-too-short', at: { x, y: 5 }, measured: 0 },
  params: { count, limitMm: 0.5, shortestMm: 0 },
  fix: { do: 'ask-digitizer', objects: [1], to: 'remove-short-stitches' },
});
const curedBy = (findings: Finding[]) => withOneCure(findings).map((finding) => finding.curedBy ?? null);

describe('a column that is too wide and calls for other underlay', () => {
  it('is split over that underlay by its digitizer, and relaid until then', () => {
    const [underlay, column] = withOneCure([heavy(), wide()]);
    expect(underlay).toMatchObject({ curedBy: 'satin-too-wide', fix: { do: 'relay', objects: [1] } });
    expect(said(underlay)).toContain('lieflat relay');
    expect(said(column)).toContain('or fill the shape instead, over a light fill of short stitches.');
  });

  it('is another than one of two that have one fault each', () => {
    const findings = [heavy(), wide(2)];
    expect(withOneCure(findings)).toEqual(findings);
  });

  it('is only split where its underlay stays on the fabric, also if that is known later', () => {
    const [underlay, column] = withOneCure([heavy(), wide()]);
    const kept = {
      ...underlay,
      severity: 'note',
      params: { ...underlay.params, kept: 'lies-flat' },
    } as Finding;
    const [stays, split] = withOneCure([kept, column]);
    expect(stays.curedBy).toBeUndefined();
    expect(said(stays)).toContain('Leave it');
    expect(said(split)).not.toContain('over a light fill');
  });
});

describe('needle points piled by stitches that are too short', () => {
  it('are gone with those', () => {
    const [piled, few] = withOneCure([pile(), short(16)]);
    expect(said(piled)).toMatch(/Take the short stitches out there\.$/);
    expect(piled.fix).toMatchObject({ to: 'remove-short-stitches' });
    expect(few.curedBy).toBe('needle-points-piled');
  });

  it('are told where the worse is', () => {
    expect(curedBy([{ ...pile(), severity: 'warn' } as Finding, short(16, 10, 'fail')])).toEqual([
      'stitch-too-short',
      null,
    ]);
  });

  it('are not those of too few short stitches, nor of some elsewhere', () => {
    for (const other of [short(15), short(16, 11)]) {
      expect(curedBy([pile(), other])).toEqual([null, null]);
      expect(said(withOneCure([pile(), other])[0])).toContain('shorten every second stitch');
    }
  });
});

describe('heavy underlay where no fabric was named', () => {
  it('is called for on soft fabric only, and on a fabric that wants it without an if', () => {
    expect(said(heavy())).toMatch(
      /On soft or stretchy fabric put a light fill .*name the garment with --fabric/,
    );
    expect(said(heavy({ decided: true }))).toMatch(/pulls too\. Put a light fill of short stitches/);
  });
});
