/** The facts that the fit rests on, on the two sample designs it used (common practice, no source): within the ranges that are accepted. */
import { beforeAll, describe, expect, it } from 'vitest';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { type FactFigures, factFigures, prepareReferences } from '../fit/facts.js';
import { sampleDesign } from './sample-designs.js';

let figures: FactFigures;
beforeAll(async () => {
  const references = { name: await sampleDesign('name-drop.dst'), filled: await sampleDesign('crest.dst') };
  expect(references.name.stitches.count).toBeGreaterThan(800);
  expect(references.name.stitches.count).toBeLessThan(1000);
  expect(references.filled.stitches.count).toBeGreaterThan(11500);
  figures = factFigures(prepareReferences(references, PARAMETERS), PARAMETERS);
});

describe('on the sample name and the sample crest, thin performance knit', () => {
  it('one woven sheet cuts puckering by 40 to 50 % against one bonded sheet (35 to 55 % accepted)', () => {
    expect(figures.F7).toBeGreaterThanOrEqual(0.35);
    expect(figures.F7).toBeLessThanOrEqual(0.55);
  });

  it('a second woven sheet turned by 45° cuts it further', () => {
    expect(figures.F7crossed).toBeGreaterThan(figures.F7 + 0.05);
  });

  it('a name of some 900 stitches puckers more than a filled design of 12,000', () => {
    expect(figures.F13).toBeLessThan(1);
  });

  it('a light fill instead of double zigzag cuts it by 40 to 50 % (35 to 55 % accepted)', () => {
    expect(figures.F15).toBeGreaterThanOrEqual(0.35);
    expect(figures.F15).toBeLessThanOrEqual(0.55);
  });

  it('both together cut it by as much as 90 % (75 to 95 % accepted)', () => {
    expect(figures.F16).toBeGreaterThanOrEqual(0.75);
    expect(figures.F16).toBeLessThanOrEqual(0.95);
  });

  it('the column edges move in by tenths of a millimetre, as pull compensation in the trade does', () => {
    // 0.1 to 0.4 mm an edge on knits: common practice, no source.
    expect(figures.pullInMm).toBeGreaterThan(0.1);
    expect(figures.pullInMm).toBeLessThan(0.4);
  });
});
