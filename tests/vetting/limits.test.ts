import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import { figuresWith, type Profile } from '../../lib/profile.js';
import { judge, LIMITS, type Limit, mildestEdge } from '../../lib/vetting/limits.js';
import { Sketch } from '../measure/sketch.js';
import { found } from './vetted.js';

const above: Limit = { ...LIMITS['satin-too-wide'], note: 5, warn: 7, fail: 12, resolution: 0.1 };
const below: Limit = { ...LIMITS['satin-too-dense'], note: null, warn: 0.3, fail: 0.2, resolution: 0.01 };

describe('the built-in limits', () => {
  it.each(Object.entries(LIMITS as Record<string, Limit>))('%s is complete and in order', (_, limit) => {
    const steps = [limit.note, limit.warn, limit.fail].filter((v) => v !== null);
    expect(steps.length).toBeGreaterThan(0);
    const sorted = [...steps].sort((a, b) => (limit.side === 'above' ? a - b : b - a));
    expect(steps).toEqual(sorted);
    expect(new Set(steps).size).toBe(steps.length);
    expect(limit.basis).not.toBe('');
    expect(limit.meaning.length).toBeGreaterThan(20);
    expect(limit.unit).not.toBe('');
    expect(limit.resolution).toBeGreaterThan(0);
  });

  it('are the figures of the trade where it has any (common practice, no source)', () => {
    expect(LIMITS['satin-too-narrow'].warn).toBe(1);
    expect(LIMITS['satin-too-wide']).toMatchObject({ warn: 7, fail: 12.1 });
    expect(LIMITS['stitch-too-short'].note).toBe(0.5);
    expect(LIMITS['lettering-too-small'].warn).toBe(5);
  });
});

describe('judge', () => {
  it('gives the severest step passed', () => {
    expect(judge(above, 4)).toBeNull();
    expect(judge(above, 6)).toEqual({ severity: 'note', limit: 5 });
    expect(judge(above, 8)).toEqual({ severity: 'warn', limit: 7 });
    expect(judge(above, 13)).toEqual({ severity: 'fail', limit: 12 });
    expect(judge(below, 0.4)).toBeNull();
    expect(judge(below, 0.25)).toEqual({ severity: 'warn', limit: 0.3 });
    expect(judge(below, 0.1)).toEqual({ severity: 'fail', limit: 0.2 });
  });

  it('says nothing of a figure at the limit, or past it by less than a file can tell', () => {
    expect(judge(above, 5)).toBeNull();
    expect(judge(above, 5.04)).toBeNull();
    expect(judge(above, 5.06)).not.toBeNull();
    expect(judge(below, 0.3)).toBeNull();
    expect(judge(below, 0.296)).toBeNull();
    expect(judge(below, 0.294)).not.toBeNull();
  });

  it('says nothing of no figure', () => {
    expect(judge(above, Number.NaN)).toBeNull();
    expect(judge(below, Number.NaN)).toBeNull();
  });

  it('changes its mind at the mildest edge', () => {
    for (const limit of [above, below]) {
      const edge = mildestEdge(limit);
      const step = limit.side === 'above' ? 1e-6 : -1e-6;
      expect(judge(limit, edge + step)).not.toBeNull();
      expect(judge(limit, edge - step)).toBeNull();
    }
    const off = { note: null, warn: null, fail: null };
    expect(mildestEdge({ ...above, ...off })).toBe(Number.POSITIVE_INFINITY);
    expect(mildestEdge({ ...below, ...off })).toBe(Number.NEGATIVE_INFINITY);
  });
});

const withLimits = async (limits: Profile['limits']) => (await figuresWith({ limits })).limits;

describe('a shop that has its own figures', () => {
  const wide = new Sketch().satin([0, 0], { width: 9, length: 12 });

  it('is held to them, and told so', async () => {
    expect(found('satin-too-wide', wide)).toMatchObject([{ severity: 'warn', limit: 7 }]);
    expect(found('satin-too-wide', wide, { limits: await withLimits({ 'satin-too-wide': 10 }) })).toEqual([]);
    const strict = await withLimits({ 'satin-too-wide': { warn: 5, fail: 8 } });
    expect(found('satin-too-wide', wide, { limits: strict })).toMatchObject([
      { severity: 'fail', limit: 8, basis: 'shop profile' },
    ]);
  });

  it('moves the mildest step with a bare number, and a severer one along when it is overtaken', async () => {
    expect((await withLimits({ 'satin-too-wide': 9 }))['satin-too-wide']).toMatchObject({
      note: null,
      warn: 9,
      fail: 12.1,
    });
    expect((await withLimits({ 'satin-too-wide': 14 }))['satin-too-wide']).toMatchObject({
      warn: 14,
      fail: 14,
    });
    expect((await withLimits({ 'satin-too-open': 0.6 }))['satin-too-open']).toMatchObject({
      note: 0.6,
      warn: 0.7,
    });
    expect((await withLimits({ 'satin-too-dense': 0.1 }))['satin-too-dense']).toMatchObject({
      warn: 0.1,
      fail: 0.1,
    });
  });

  it('can switch a step off', async () => {
    const off = await withLimits({ 'satin-too-wide': { warn: null, fail: null } });
    expect(found('satin-too-wide', wide, { limits: off })).toEqual([]);
  });

  it('leaves the built-in figures and those it does not name alone', async () => {
    const before = structuredClone(LIMITS);
    const mine = await withLimits({ 'satin-too-wide': 9 });
    expect(LIMITS).toEqual(before);
    expect(mine['fill-too-open']).toBe(LIMITS['fill-too-open']);
  });

  it.each([
    ['satin-too-whide', 7, 'unknown key limits.satin-too-whide'],
    ['toString', 7, 'unknown key limits.toString'],
    ['satin-too-wide', Number.NaN, 'limits.satin-too-wide is wrong: it is neither a number'],
    ['satin-too-wide', { fail: Number.POSITIVE_INFINITY }, 'limits.satin-too-wide.fail is wrong'],
    ['satin-too-wide', { warn: 13 }, '"fail" is milder'],
    ['satin-too-wide', { note: 8 }, '"warn" is milder'],
    ['satin-too-dense', { warn: 0.1 }, '"fail" is milder'],
  ])('is told what is wrong with %s: %s', async (id, given, message) => {
    const error = await withLimits({ [id]: given }).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(LieflatError);
    expect(error).toMatchObject({ code: 'bad-profile', what: expect.stringContaining(message) as string });
  });
});
