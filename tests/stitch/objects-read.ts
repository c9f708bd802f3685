/** Columns and areas of generated designs and of the samples, each read into a description and sewn again. */
import { readdirSync, readFileSync } from 'node:fs';
import type { Design } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { penetrations, type Stitches } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import type { EditableObject } from '../../lib/stitch/editable.js';
import { type NotEditable, readEditable } from '../../lib/stitch/read-editable.js';

export interface ObjectRead {
  readonly stitches: Stitches;
  readonly object: StitchObject;
  /** Needle points of its top stitching. */
  readonly count: number;
  readonly editable: EditableObject | null;
  readonly why: NotEditable | null;
}

export function readObjects(design: Design): ObjectRead[] {
  const stitches = penetrations(design);
  return findObjects(stitches).flatMap((object): ObjectRead[] => {
    if (object.kind === 'run') return [];
    const read = readEditable(stitches, object);
    const count = object.range[1] - object.range[0] + 1;
    return [
      { stitches, object, count, editable: read.editable, why: read.editable === null ? read.why : null },
    ];
  });
}

const SAMPLES = new URL('../../samples/', import.meta.url);

export const sampleNames = (): string[] => readdirSync(SAMPLES).filter((name) => name.endsWith('.dst'));

export const sampleDesign = (name: string): Design => decodeDst(readFileSync(new URL(name, SAMPLES)));
