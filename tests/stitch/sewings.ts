/**
 * What is sewn in one design of each plain family and in the samples, as a digest: every change of a decision of the synthesiser shows here, be it for the better or not.
 *   npx tsx tests/stitch/sewings.ts    writes them down anew, after what rewriting does (tests/rework/measure-rewrites.ts) has been compared
 */
import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Design } from '../../lib/format/design.js';
import { penetrations, type Stitches } from '../../lib/format/stitches.js';
import { regenerated } from '../../lib/rework/regenerate.js';
import { widened } from '../../lib/rework/widen.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import { LAID_UNDERLAYS } from '../../lib/stitch/laid-underlay.js';
import { readEditable } from '../../lib/stitch/read-editable.js';
import { relaid } from '../../lib/stitch/relaid.js';
import { FAMILIES } from '../generators/families/index.js';
import { sampleDesign } from './objects-read.js';

export const SEWINGS = fileURLToPath(new URL('./sewings.json', import.meta.url));
const SEED = 78;
const SAMPLES = ['cap-front.dst', 'crest.dst', 'incoming.dst', 'name-drop.dst', 'towel-monogram.dst'];
/** Reading a long object takes long. */
const READ_STITCHES = 170;
const MOST_READ = 4;

export const sewnDesigns = (): Record<string, Design> => ({
  ...Object.fromEntries(Object.entries(FAMILIES).map(([name, family]) => [name, family(SEED).design])),
  ...Object.fromEntries(SAMPLES.map((name) => [name, sampleDesign(name)])),
});

/** Figures to a thousandth: the last digits are not those of the decisions. */
const rounded = (_: string, value: unknown): unknown => {
  if (ArrayBuffer.isView(value)) return [...(value as Float64Array)];
  return typeof value === 'number' ? Math.round(value * 1000) / 1000 : value;
};

const asSewn = ({ x, y }: Stitches, objects: readonly StitchObject[]) => [
  x,
  y,
  objects.map(({ range, from, to, sections, underlay }) => [
    range,
    from,
    to,
    sections,
    underlay.kinds,
    underlay.range,
    underlay.spacingMm,
  ]),
];

export function digestOf(design: Design): string {
  const stitches = penetrations(design);
  const objects = findObjects(stitches);
  const larger = [regenerated, widened].flatMap((enlarge) => {
    const growing = enlarge(design, stitches, objects);
    return [
      { x: 0.07, y: 0.07, dx: 0, dy: 0 },
      { x: 0.02, y: 0.11, dx: 0.3, dy: -0.2 },
    ].map((by) => {
      const whole = growing(by).whole();
      return [...asSewn(whole.stitches, whole.objects), whole.left];
    });
  });
  const under = [0, 1, 2].map((turn) => {
    const kinds = objects.map(({ id }) => [id, LAID_UNDERLAYS[(id + turn) % LAID_UNDERLAYS.length]] as const);
    const made = relaid({ stitches, objects }, new Map(kinds));
    return asSewn(made.stitches, made.objects);
  });
  const read = objects
    .filter(({ kind, range: [first, last] }) => kind !== 'run' && last - first < READ_STITCHES)
    .slice(0, MOST_READ)
    .map((object) => readEditable(stitches, object));
  const told = read.map((reading) => (reading.editable === null ? reading.why : reading.editable));
  return createHash('sha256')
    .update(JSON.stringify([larger, under, told], rounded))
    .digest('hex')
    .slice(0, 10);
}

/** Design by design, in the order in which they are written down. */
export const sewings = (of = Object.entries(sewnDesigns())): [name: string, digest: string][] =>
  of.map(([name, design]) => [name, digestOf(design)]);

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(SEWINGS, `${JSON.stringify(Object.fromEntries(sewings()), null, 2)}\n`);
