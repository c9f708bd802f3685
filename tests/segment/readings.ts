/**
 * What the finder reads of two designs of each family, as a digest: every change of a decision shows here, be it for the better or not.
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
const SEEDS = [77, 78];
export const READ_FAMILIES = { ...FAMILIES, ...PRODUCTION };

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

/** The designs of a family that are looked at. */
export const designsOf = (family: (seed: number) => Case): Case[] => SEEDS.map(family);

export function digestOf(designs: readonly Case[]): string {
  const text = JSON.stringify(
    designs.map(({ design }) => findObjects(penetrations(design)).map(decided)),
    rounded,
  );
  return createHash('sha256').update(text).digest('hex').slice(0, 10);
}

/** Family by family, in the order in which they are written down. */
export const readings = (of = Object.entries(READ_FAMILIES)): [family: string, digest: string][] =>
  of.map(([name, family]) => [name, digestOf(designsOf(family))]);

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(READINGS, `${JSON.stringify(Object.fromEntries(readings()), null, 2)}\n`);
