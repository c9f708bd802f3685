import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { everyNth } from '../in-full.js';
import { READ_FAMILIES, READINGS, readings } from './readings.js';

it('designs of all families are read as they were, or what is read was written down anew on purpose', () => {
  const written: Record<string, string> = JSON.parse(readFileSync(READINGS, 'utf8'));
  const families = Object.entries(READ_FAMILIES);
  expect(Object.keys(written)).toEqual(families.map(([name]) => name));
  const looked = everyNth(2, families);
  expect(readings([...looked])).toEqual(looked.map(([name]) => [name, written[name]]));
});
