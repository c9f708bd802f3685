import type { Sourced } from '../../lib/core/sourced.js';
import { CATALOGUE, type Catalogue } from '../../lib/materials/catalogue.js';

type Values = Readonly<Record<string, Readonly<Record<string, number>>>>;

/** The built-in catalogue with other values, each known to the last digit. */
export function catalogueWith(own: { fabrics?: Values; sheets?: Values }): Catalogue {
  const put = <M extends object>(shelf: Readonly<Record<string, M>>, values: Values = {}) => ({
    ...shelf,
    ...Object.fromEntries(
      Object.entries(values).map(([id, fields]) => [
        id,
        {
          ...shelf[id],
          ...Object.fromEntries(
            Object.entries(fields).map(([key, value]) => [
              key,
              { ...(shelf[id][key as keyof M] as Sourced), value, low: value, high: value, basis: 'a test' },
            ]),
          ),
        },
      ]),
    ),
  });
  return {
    ...CATALOGUE,
    fabrics: put(CATALOGUE.fabrics, own.fabrics),
    sheets: put(CATALOGUE.sheets, own.sheets),
  };
}
