/** What the parts of the sheet share: the engine, the words, the file that is looked at. */
import type { Engine } from '../protocol.js';
import type { LengthUnits, PageWords } from './words.js';
import type { WorkBar } from './work.js';

export interface Desk {
  readonly engine: Engine;
  readonly work: WorkBar;
  words: PageWords;
  units: LengthUnits;
  /** The file that is looked at. */
  file: string | null;
  /** The file that relaying made of it. */
  relaid: string | null;
}

/** `logo` of `orders/logo.dst`. */
export const stemOf = (file: string): string => bare(file).replace(/\.\w+$/, '');

/** A name without its folders. */
export const bare = (file: string): string => file.slice(file.lastIndexOf('/') + 1);
