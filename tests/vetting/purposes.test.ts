import { describe, expect, it } from 'vitest';
import type { Purpose, StitchObject } from '../../lib/segment/objects.js';
import { Sketch } from '../measure/sketch.js';
import { said } from './said.js';
import { vetted } from './vetted.js';

type Told = Partial<Pick<StitchObject, 'purpose' | 'overPiece' | 'foam'>>;

const codes = (spacing: number, told: Told, width = 4) =>
  vetted(new Sketch(0).satin([0, 0], { width, length: 16, spacing }, told)).map(({ code }) => code);

const NOT_TOP: Purpose[] = ['placement', 'tack-down', 'edging', 'net', 'decorative'];

describe('a column that is not there to cover', () => {
  it.each(NOT_TOP)('is told neither to close its spacing nor to lie on underlay (%s)', (purpose) => {
    expect(codes(1.6, { purpose })).toEqual([]);
    expect(codes(0.4, { purpose }, 0.8)).toEqual([]);
  });

  it('is, where it is there to cover', () => {
    expect(codes(1.6, {})).toEqual(expect.arrayContaining(['satin-too-open', 'wide-satin-no-underlay']));
    expect(codes(0.4, {}, 0.8)).toEqual(expect.arrayContaining(['satin-too-narrow']));
  });
});

describe('an area that is not there to cover', () => {
  const rows = [0, 2, 4, 6, 8].map((y) => [y, 0, 20] as const);
  const said = (told: Told) => vetted(new Sketch(0.1).rows(rows, {}, told)).map(({ code }) => code);

  it('is not told to close its rows', () => {
    expect(said({})).toContain('fill-too-open');
    expect(said({ purpose: 'net' })).not.toContain('fill-too-open');
  });

  it('is not told so either where its rows grow steadily apart, by more than measuring does', () => {
    /** Thirty rows, the last ones this far apart. */
    const fading = (last: number) => {
      let y = 0;
      return Array.from({ length: 30 }, (_, k) => {
        const row = [y, 0, 12] as const;
        y += 0.8 + ((last - 0.8) * k) / 29;
        return row;
      });
    };
    const codesOf = (last: number) => vetted(new Sketch(0.1).rows(fading(last))).map(({ code }) => code);
    expect(codesOf(0.8)).toContain('fill-too-open');
    expect(codesOf(1.1)).toContain('fill-too-open');
    expect(codesOf(1.6)).not.toContain('fill-too-open');
  });
});

describe('a cover over an applied piece', () => {
  it('is held by what tacks the piece down', () => {
    expect(codes(0.4, { overPiece: true })).not.toContain('wide-satin-no-underlay');
    expect(codes(0.4, {})).toContain('wide-satin-no-underlay');
  });
});

describe('satin over foam', () => {
  it('is said once, as a note, and not as too dense or without underlay', () => {
    const [finding, ...more] = vetted(
      new Sketch(0).satin([0, 0], { width: 5, length: 16, spacing: 0.18 }, { foam: true }),
    ).filter(({ code }) => /^satin|underlay/.test(code));
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ code: 'satin-over-foam', severity: 'note', object: 1, unit: 'mm' });
    expect(finding.measured).toBeCloseTo(0.18, 3);
    expect(said(finding)).toContain('foam');
    expect(codes(0.18, {})).toContain('satin-too-dense');
  });
});
