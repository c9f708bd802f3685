import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { SEWINGS, sewings } from './sewings.js';

it('designs are sewn as they were, or what is sewn was written down anew on purpose', () => {
  expect(sewings()).toEqual(Object.entries(JSON.parse(readFileSync(SEWINGS, 'utf8'))));
});
