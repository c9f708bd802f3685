import { describe } from 'vitest';
import { expectShown } from '../drawn-picture.js';
import { itInFull } from '../in-full.js';
import { pictures } from './pictures.js';

describe('the pictures of how stitches are told', () => {
  itInFull('are what the project draws, and are shown', () => {
    expectShown(pictures(), 'lib/stitch/README.md');
  });
});
