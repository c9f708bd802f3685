/** Writes JSON Schemas beside the compiled library: of the profile, for editors, and of every report, for whoever reads them. */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createGenerator } from 'ts-json-schema-generator';
import { profileJsonSchema } from '../.build/lib/profile/schema.js';

const from = (path) => fileURLToPath(new URL(path, import.meta.url));

/** From the types themselves, so that neither can change without the other; a field that is not in the type is not in the schema. */
const { definitions, properties } = createGenerator({
  path: from('../lib/json-reports.ts'),
  tsconfig: from('../tsconfig.json'),
  type: 'JsonReports',
  additionalProperties: false,
  skipTypeCheck: true,
  encodeRefs: false,
  topRef: false,
}).createSchema('JsonReports');

const DEFINITION = '#/definitions/';

/** Names of the definitions that a schema refers to, and that those refer to. */
function referredTo(schema, found = new Set()) {
  for (const [key, inner] of Object.entries(schema)) {
    if (key === '$ref') {
      const name = inner.slice(DEFINITION.length);
      if (found.has(name)) continue;
      found.add(name);
      referredTo(definitions[name], found);
    } else if (typeof inner === 'object' && inner !== null) referredTo(inner, found);
  }
  return found;
}

/** Without indents: they were a third of all that the schemas weigh. */
function write(name, schema) {
  writeFileSync(from(`../.build/lib/${name}.schema.json`), `${JSON.stringify(schema)}\n`);
}

write('profile', await profileJsonSchema());
for (const [name, { $ref, ...inline }] of Object.entries(properties)) {
  const root = $ref === undefined ? inline : definitions[$ref.slice(DEFINITION.length)];
  const needed = [...referredTo(root)].sort();
  write(name, {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: `lieflat ${name}`,
    ...root,
    ...(needed.length > 0 && { definitions: Object.fromEntries(needed.map((one) => [one, definitions[one]])) }),
  });
}
