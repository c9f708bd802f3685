import { type Design, Kind } from '../../lib/format/design.js';
import { penetrations, type Stitches } from '../../lib/format/stitches.js';
import type { ObjectMeasures } from '../../lib/measure/measures.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import type { Found } from './score.js';

type FindObjects = (stitches: Stitches) => StitchObject[];
type MeasureObject = (stitches: Stitches, object: StitchObject) => ObjectMeasures;

/** Loaded by name, so that the generators can be drawn and checked by themselves. */
const load = async (path: string): Promise<Record<string, unknown> | null> => {
  try {
    return (await import(new URL(path, import.meta.url).href)) as Record<string, unknown>;
  } catch (error) {
    if ((error as { code?: string }).code === 'ERR_MODULE_NOT_FOUND') return null;
    throw error;
  }
};

export type FindAndMeasure = (design: Design) => Found;

/** The project's own way from a design to measured objects; without measures, only what the finder itself says. */
export async function loadFindAndMeasure(): Promise<FindAndMeasure | null> {
  const finder = await load('../../lib/segment/find-objects.ts');
  if (!finder) return null;
  const measurer = await load('../../lib/measure/measure-object.ts');
  const findObjects = finder.findObjects as FindObjects;
  const measureObject = measurer?.measureObject as MeasureObject | undefined;
  return (design) => {
    const stitches = penetrations(design);
    const objects = findObjects(stitches).map((o) => {
      const m = measureObject?.(stitches, o);
      return {
        kind: o.kind,
        block: o.block,
        range: o.range,
        widthMm: m?.widthMm?.median ?? null,
        spacingMm: m?.spacingMm?.median ?? null,
        angleDeg: m?.angleDeg ?? null,
        underlay: { kinds: o.underlay.kinds, range: o.underlay.range },
        split: o.split,
        locks: o.locks,
      };
    });
    const count = (k: number) => design.kind.reduce((n, v) => n + (v === k ? 1 : 0), 0);
    return {
      objects,
      totals: {
        stitches: stitches.count,
        jumps: count(Kind.jump),
        trims: count(Kind.trim),
        colourChanges: count(Kind.colour),
        stops: count(Kind.stop),
      },
    };
  };
}
