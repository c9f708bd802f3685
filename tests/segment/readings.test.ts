import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { READINGS, readings } from './readings.js';

it('designs of all families are read as they were, or what is read was written down anew on purpose', () => {
  expect(readings()).toEqual(Object.entries(JSON.parse(readFileSync(READINGS, 'utf8'))));
});
