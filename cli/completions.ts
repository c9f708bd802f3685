import { HOOP_FIELDS, PLACES } from '../lib/index.js';

/** What an option takes that is called by an id; null for another word. Shops with materials of their own know their names. */
export async function idsFor(option: string | undefined): Promise<readonly string[] | null> {
  switch (option) {
    case '--fabric':
      return Object.keys((await builtIn()).fabrics);
    case '--thread':
      return Object.keys((await builtIn()).threads);
    case '--stack':
      return [...Object.keys((await builtIn()).sheets), 'none'];
    case '--place':
      return PLACES.map(({ id }) => id);
    case '--hoop':
      return HOOP_FIELDS.map(({ id }) => id);
    default:
      return null;
  }
}

const builtIn = async () => (await import('../lib/materials/index.js')).CATALOGUE;
