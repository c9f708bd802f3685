import { sewLetter, straightLetters } from '../stitching/lettering.js';
import { SATIN } from '../stitching/sew-column.js';
import { Sewing } from '../stitching/sewing.js';

/** The coxswain's name on a performance shirt: bold satin 19 mm high over double zigzag, a trim between letters. */
export function nameDrop(): Sewing {
  const sewing = new Sewing();
  const weight = { height: 19, stem: 4.9, bar: 4.3 };
  // The weight is the sewn one: widening single strokes of a letter would step its base line.
  const style = { ...SATIN, pullMm: 0, underlay: ['double-zigzag'] as const, insetMm: 0.6, zigzagMm: 3.2 };
  for (const letter of straightLetters('TILLO', weight, 2.4, 6, { x: 0, y: -9.5 }))
    sewLetter(sewing, letter, style);
  return sewing;
}
