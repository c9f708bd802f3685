/** Writes what a profile may say beside the compiled library, for editors. */
import { writeFileSync } from 'node:fs';
import { profileJsonSchema } from '../.build/lib/profile/schema.js';

const file = new URL('../.build/lib/profile.schema.json', import.meta.url);
writeFileSync(file, `${JSON.stringify(await profileJsonSchema(), null, 2)}\n`);
