import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { everyNth } from '../in-full.js';
import { SEWINGS, sewings, sewnDesigns } from './sewings.js';

it('designs are sewn as they were, or what is sewn was written down anew on purpose', () => {
  const written: Record<string, string> = JSON.parse(readFileSync(SEWINGS, 'utf8'));
  const designs = Object.entries(sewnDesigns());
  expect(Object.keys(written)).toEqual(designs.map(([name]) => name));
  const looked = everyNth(4, designs);
  expect(sewings([...looked])).toEqual(looked.map(([name]) => [name, written[name]]));
});
