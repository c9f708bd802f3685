import { readFileSync } from 'node:fs';
import type { Design } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { penetrations, type Stitches } from '../../lib/format/stitches.js';
import { makeSamples, type Outcome } from '../../samples/scenario.js';

export const made = makeSamples();

export const fileBytes = (file: string): Buffer =>
  readFileSync(new URL(`../../samples/${file}`, import.meta.url));

/** A sample as a shop would meet it: read from its file, beside what is expected of it. */
export interface Met {
  readonly file: string;
  readonly design: Design;
  readonly stitches: Stitches;
  readonly outcome: Outcome;
  /** One letter a penetration. */
  readonly parts: string;
}

const outcomes = JSON.parse(fileBytes('expected.json').toString('utf8')) as Record<string, Outcome>;

export const met: readonly Met[] = Object.entries(outcomes).map(([file, outcome]) => {
  const design = decodeDst(fileBytes(file));
  const parts = outcome.parts.replace(/(\d+)([ltus])/g, (_, n: string, letter: string) =>
    letter.repeat(Number(n)),
  );
  return { file, design, stitches: penetrations(design), outcome, parts };
});

export const good = met.filter(({ file }) => file !== 'incoming.dst');

export function sample(file: string): Met {
  const found = met.find((m) => m.file === file);
  if (!found) throw new Error(`No sample is named ${file}.`);
  return found;
}

export const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1];
