import { readFileSync } from 'node:fs';
import { decodeDesign } from '../../lib/format/decode.js';
import { penetrations } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { TestDesign } from './designs.js';

/** A design of the sample scenario, with its objects as the finder sees them. */
export async function sampleDesign(name: string): Promise<TestDesign> {
  const bytes = readFileSync(new URL(`../../samples/${name}`, import.meta.url));
  const stitches = penetrations(await decodeDesign(bytes, 'dst'));
  return { stitches, objects: findObjects(stitches) };
}
