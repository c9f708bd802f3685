import { describe, expect, it } from 'vitest';
import { CATALOGUE, CATALOGUE_SHELVES } from '../../lib/materials/catalogue.js';
import { HOOP_FIELDS, PLACES } from '../../lib/materials/places.js';
import { catalogToText } from '../../lib/report/catalog/document.js';
import { materialsCatalog, placesCatalog } from '../../lib/report/catalog/report.js';
import { displayWidth } from '../../lib/report/render/wrap.js';

describe('the catalogue of places', () => {
  it.each([
    ['mm', 80],
    ['in', 80],
    ['mm', 40],
  ] as const)('shows every place and hoop in %s at %i columns', (units, width) => {
    const text = catalogToText(placesCatalog(PLACES, HOOP_FIELDS), { width, units });
    for (const line of text.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(width);
    for (const { id } of [...PLACES, ...HOOP_FIELDS]) expect(text).toContain(id);
    expect(text).not.toMatch(/NaN|undefined|…/);
  });

  it('gives sizes in the units asked for', () => {
    const text = catalogToText(placesCatalog(PLACES, []), { width: 80, units: 'in' });
    // The usual left chest is about 100 mm, 3.9 in.
    expect(text).toMatch(/left-chest +3\.9 \(/);
  });
});

describe('the catalogue of materials', () => {
  const values = CATALOGUE_SHELVES.flatMap((shelf) =>
    Object.values(CATALOGUE[shelf] as Record<string, object>).flatMap((material) =>
      Object.values(material).filter((field) => typeof field === 'object'),
    ),
  ) as { value: number; basis: string }[];

  it.each([
    ['mm', 80],
    ['in', 80],
    ['mm', 40],
  ] as const)('shows every material and every basis in %s at %i columns', (units, width) => {
    const text = catalogToText(materialsCatalog(CATALOGUE), { width, units }, true);
    for (const line of text.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(width);
    const flowing = text.replace(/\s+/g, ' ');
    for (const shelf of CATALOGUE_SHELVES)
      for (const id of Object.keys(CATALOGUE[shelf])) expect(text).toContain(`  ${id}:`);
    for (const { basis } of values) expect(flowing).toContain(basis);
    expect(text).not.toMatch(/NaN|undefined|membraneA/);
  });

  it('gives each value on a line of its own with its range, unit and source', () => {
    const text = catalogToText(materialsCatalog(CATALOGUE, ['sheets']), { width: 80, units: 'in' }, true);
    // The label says 2.5 oz a square yard; the basis of a label weight is told below.
    const [, number] = /weight +2\.5 +2\.38 - 2\.63 +oz\/yd² +\[(\d+)\]/.exec(text)!;
    expect(text).toMatch(new RegExp(`\\[${number}\\] +label weight`));
    expect(text).not.toContain('pique-knit');
    expect(text.match(/\[\d+\]$/gm)!.length).toBe(
      Object.values(CATALOGUE.sheets).reduce(
        (n, sheet) => n + Object.values(sheet).filter((field) => typeof field === 'object').length,
        0,
      ),
    );
  });

  it.each([80, 40])('lists every material once at %i columns, and says how to see its values', (width) => {
    const text = catalogToText(materialsCatalog(CATALOGUE), { width, units: 'mm' });
    for (const line of text.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(width);
    const flowing = text.replace(/\s+/g, ' ');
    for (const shelf of CATALOGUE_SHELVES) {
      for (const { id, name } of Object.values(CATALOGUE[shelf])) {
        expect(flowing).toContain(id);
        expect(flowing).toContain(name);
      }
    }
    expect(flowing).toContain('lieflat catalog fabrics pique-knit shows every value');
    expect(text).not.toMatch(/µN·m|no source|undefined/);
  });

  it('holds one material where its id is named', () => {
    const { fabrics } = materialsCatalog(CATALOGUE, ['fabrics'], 'denim');
    expect(fabrics).toEqual({ denim: CATALOGUE.fabrics.denim });
    expect(() => materialsCatalog(CATALOGUE, ['fabrics'], 'cutaway-3oz')).toThrow(/no fabric of that name/);
  });
});
