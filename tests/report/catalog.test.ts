import { describe, expect, it } from 'vitest';
import { HOOP_FIELDS, PLACES } from '../../lib/materials/places.js';
import { placesCatalog, placesToText } from '../../lib/report/catalog.js';
import { displayWidth } from '../../lib/report/wrap.js';

describe('the catalogue of places', () => {
  it.each([
    ['mm', 80],
    ['in', 80],
    ['mm', 40],
  ] as const)('shows every place and hoop in %s at %i columns', (units, width) => {
    const text = placesToText(placesCatalog(PLACES, HOOP_FIELDS), { width, units });
    for (const line of text.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(width);
    for (const { id } of [...PLACES, ...HOOP_FIELDS]) expect(text).toContain(id);
    expect(text).not.toMatch(/NaN|undefined|…/);
  });

  it('gives sizes in the units asked for', () => {
    const text = placesToText(placesCatalog(PLACES, []), { width: 80, units: 'in' });
    // The usual left chest is about 100 mm, 3.9 in.
    expect(text).toMatch(/left-chest +3\.9 \(/);
  });
});
