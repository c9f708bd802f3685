import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { expectShown } from '../drawn-picture.js';
import { pictures, thread } from './pictures.js';

describe('the pictures of how objects are found', () => {
  it('are what the project draws, and are shown', () => {
    expectShown(pictures(), 'lib/segment/README.md');
  });

  it('show a thread that is read as the text beside them says', () => {
    expect(findObjects(thread()).map(({ kind, underlay, locks }) => [kind, underlay.kinds, locks])).toEqual([
      ['satin', ['center-run', 'zigzag'], { start: true, end: false }],
      ['fill', [], { start: false, end: false }],
      ['run', [], { start: false, end: true }],
    ]);
  });
});
