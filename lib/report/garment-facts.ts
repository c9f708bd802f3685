/** Why a garment that was named led to its fabric. */
import type { NamedGarment } from '../mechanics/conditions.js';
import type { Fact } from './document.js';
import type { Words } from './phrases/words.js';

/** A fact where the fabric was asked for by the everyday name of a garment; nothing else. */
export const garmentFacts = (garment: NamedGarment | null, { setup }: Words<'setup'>): Fact[] =>
  garment === null
    ? []
    : [{ label: setup.garmentLabel, text: `${setup.garment(garment)}. ${setup.anotherGarment({})}` }];
