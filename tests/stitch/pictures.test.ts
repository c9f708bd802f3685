import { describe, it } from 'vitest';
import { expectShown } from '../drawn-picture.js';
import { pictures } from './pictures.js';

describe('the pictures of how stitches are told', () => {
  it('are what the project draws, and are shown', () => {
    expectShown(pictures(), 'lib/stitch/README.md');
  });
});
