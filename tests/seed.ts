/**
 * Random tests draw the same cases on every run, so that the same code gets the same answer; `LIEFLAT_SEED=7 npm test` draws others.
 * A case that another seed finds is mended and kept as an example in its test.
 */
import fc from 'fast-check';
import { someOf } from './in-full.js';
import './nothing-kept.js';

const seed = Number(process.env.LIEFLAT_SEED ?? 1);
if (!Number.isInteger(seed))
  throw new Error(`LIEFLAT_SEED is "${process.env.LIEFLAT_SEED}"; give a whole number, as in LIEFLAT_SEED=7`);
// A property that names no number of its own.
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed, numRuns: someOf(100) });
