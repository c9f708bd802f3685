import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { pictures, pictureUrl, thread } from './pictures.js';

const README = new URL('../../lib/segment/README.md', import.meta.url);

describe('the pictures of how objects are found', () => {
  it('are what the project draws, and are shown', () => {
    const shown = readFileSync(README, 'utf8');
    for (const { name, svg } of pictures()) {
      expect(readFileSync(pictureUrl(name), 'utf8')).toBe(svg);
      expect(shown).toContain(`../../samples/pictures/${name}.svg`);
    }
  });

  it('show a thread that is read as the text beside them says', () => {
    expect(findObjects(thread()).map(({ kind, underlay, locks }) => [kind, underlay.kinds, locks])).toEqual([
      ['satin', ['center-run', 'zigzag'], { start: true, end: false }],
      ['fill', [], { start: false, end: false }],
      ['run', [], { start: false, end: true }],
    ]);
  });
});
