/** All of a design that hangs on neither fabric nor backing: made once for an underlay as sewn, then used for every setup. */
import { acrossMiddle, boundsOf } from '../format/extent.js';
import type { Stitches } from '../format/stitches.js';
import { type HoopField, smallestHoop } from '../materials/places.js';
import type { Thread } from '../materials/threads.js';
import type { StitchObject } from '../segment/objects.js';
import { type HoopShape, MESH_OPTIONS, type Mesh, type MeshOptions, meshAbout } from './mesh.js';
import { meshDesign } from './meshed-design.js';
import { WrinkleView } from './wrinkle-field.js';

export interface PreparedDesign {
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
  readonly thread: Thread;
  /** What heights and pull-in are told from. */
  readonly fine: WrinkleView;
  /** What tells only by how much one thing differs from another: ranges, causes, which of many setups to look at. */
  readonly rough: WrinkleView;
  /** The cell that columns call for, mm; that of `fine` is larger only where the design is too large for it. */
  readonly wantedCellMm: number;
}

/** Cells of the rough mesh, by what they grow outward, and those of the map on it, mm. */
export const ROUGH: Pick<MeshOptions, 'cellMm' | 'growth' | 'mapMm'> = {
  cellMm: 1.5,
  growth: 1.3,
  mapMm: 0.8,
};
/** Nodes of a mesh: a design that would have more gets larger cells. */
const MOST_NODES = 60_000;
const MOST_ROUGH_NODES = 12_000;
/** A mesh hardly coarser than another is not worth its own. */
const AS_COARSE = 1.3;
/** Between the field that the needle may reach and the hoop that holds the fabric, mm on each side (from memory). */
const CLEARANCE_MM = 10;

/** The hoop that holds the fabric about a field. */
const hoopAbout = ({ shape, widthMm, heightMm }: HoopField): HoopShape => ({
  shape,
  widthMm: widthMm.value + 2 * CLEARANCE_MM,
  heightMm: heightMm.value + 2 * CLEARANCE_MM,
});

/** The smallest usual hoop that holds a design; one made for it where none does. */
function usualHoop(stitches: Stitches, onCap: boolean): HoopShape {
  const bounds = boundsOf(stitches);
  const size = {
    widthMm: bounds.maxX - bounds.minX,
    heightMm: bounds.maxY - bounds.minY,
    acrossMm: acrossMiddle(stitches, bounds),
  };
  const smallest = smallestHoop(size, onCap);
  if (smallest) return hoopAbout(smallest);
  return {
    shape: 'rectangle',
    widthMm: size.widthMm + 4 * CLEARANCE_MM,
    heightMm: size.heightMm + 4 * CLEARANCE_MM,
  };
}

/** Options with cells as large as a mesh of so many nodes needs. */
export function optionsFor(
  stitches: Stitches,
  hoop: HoopShape,
  options: MeshOptions,
  mostNodes: number,
): { options: MeshOptions; mesh: Mesh } {
  const bounds = boundsOf(stitches);
  let fitting = options;
  for (;;) {
    const mesh = meshAbout(bounds, hoop, fitting);
    if (mesh.nx * mesh.ny <= mostNodes) return { options: fitting, mesh };
    const larger = 1.1 * fitting.cellMm;
    fitting = {
      ...fitting,
      cellMm: larger,
      mapMm: Math.max(fitting.mapMm, larger / 2),
    };
  }
}

const meshesFor = (stitches: Stitches, hoop: HoopShape) => {
  const fine = optionsFor(stitches, hoop, MESH_OPTIONS, MOST_NODES);
  const rough = optionsFor(stitches, hoop, { ...MESH_OPTIONS, ...ROUGH }, MOST_ROUGH_NODES);
  const same = rough.options.cellMm < AS_COARSE * fine.options.cellMm;
  return { fine, rough: same ? fine : rough };
};

/** The meshes of a design in the smallest hoop that holds it: what memory they fill is known from them. */
export const meshesOf = (stitches: Stitches): { fine: Mesh; rough: Mesh } => {
  const { fine, rough } = meshesFor(stitches, usualHoop(stitches, false));
  return { fine: fine.mesh, rough: rough.mesh };
};

/**
 * @param hoop it is sewn in; the smallest usual one that holds it without it
 * @param onCap that one is a cap frame
 */
export function prepareDesign(
  stitches: Stitches,
  objects: readonly StitchObject[],
  thread: Thread,
  hoop?: HoopField,
  onCap = false,
): PreparedDesign {
  const inHoop = hoop ? hoopAbout(hoop) : usualHoop(stitches, onCap);
  const meshes = meshesFor(stitches, inHoop);
  const on = (options: MeshOptions): WrinkleView =>
    new WrinkleView(meshDesign(stitches, objects, thread, inHoop, options));
  const rough = on(meshes.rough.options);
  let fine = meshes.fine === meshes.rough ? rough : null;
  return {
    stitches,
    objects,
    thread,
    // Ranking many setups never needs it.
    get fine() {
      fine ??= on(meshes.fine.options);
      return fine;
    },
    rough,
    wantedCellMm: MESH_OPTIONS.cellMm,
  };
}
