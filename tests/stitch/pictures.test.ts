import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { pictures, pictureUrl } from './pictures.js';

const README = new URL('../../lib/stitch/README.md', import.meta.url);

describe('the pictures of how stitches are told', () => {
  it('are what the project draws, and are shown', () => {
    const shown = readFileSync(README, 'utf8');
    for (const { name, svg } of pictures()) {
      expect(readFileSync(pictureUrl(name), 'utf8')).toBe(svg);
      expect(shown).toContain(`../../samples/pictures/${name}.svg`);
    }
  });
});
