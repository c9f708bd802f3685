/**
 * What the finder reads of one design of each family, as a digest: every change of a decision shows here, be it for the better or not.
 *   npx tsx tests/segment/readings.ts    writes them down anew, after the scores (run-score.ts) of before and after have been compared
 */
import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { penetrations } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import { FAMILIES } from '../generators/families/index.js';
import type { Case } from '../generators/pen.js';
import { PRODUCTION } from '../generators/production/index.js';

export const READINGS = fileURLToPath(new URL('./readings.json', import.meta.url));
export const SEED = 77;

/** Figures to a thousandth: the last digits are not those of the decisions. */
const rounded = (_: string, value: unknown): unknown => {
  if (ArrayBuffer.isView(value)) return [...(value as Int32Array)];
  return typeof value === 'number' ? Math.round(value * 1000) / 1000 : value;
};

/** What the finder decides of an object, whatever else is noted of it. */
const decided = (o: StitchObject) => [
  [o.kind, o.range, o.block, o.group, o.from, o.to, o.sections, o.split, o.locks.start, o.locks.end],
  [
    o.underlay.kinds,
    o.underlay.range,
    o.underlay.stitches,
    o.underlay.spacingMm,
    o.underlay.also.map(({ kinds, range }) => [kinds, range]),
  ],
  [o.purpose, o.overPiece, o.foam, o.pattern, o.passes, o.timesDense, o.confidence, o.doubt?.could ?? null],
];

export function digestOf({ design }: Case): string {
  const text = JSON.stringify(findObjects(penetrations(design)).map(decided), rounded);
  return createHash('sha256').update(text).digest('hex').slice(0, 10);
}

/** Family by family, in the order in which they are written down. */
export const readings = (): [family: string, digest: string][] =>
  Object.entries({ ...FAMILIES, ...PRODUCTION }).map(([name, family]) => [name, digestOf(family(SEED))]);

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(READINGS, `${JSON.stringify(Object.fromEntries(readings()), null, 2)}\n`);
