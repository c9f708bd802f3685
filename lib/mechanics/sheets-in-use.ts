/** How much of each sheet of backing is left where: needle points weaken it, and what is not wanted is cut or torn off after sewing. */
import { THREE } from './element-strain.js';
import { forcesOf, type Strain } from './laminate.js';
import { addStiffness, elementsOf, SIX } from './layer-matrix.js';
import type { Layer, Layup } from './layup.js';
import { CROWD_MM, type MeshedDesign } from './meshed-design.js';

/** How far from the stitching backing is trimmed, mm (common practice, no source). */
export const TRIM_MM = 10;
/** What tears away goes up to the stitching: within this of a needle point it stays, mm. Our own assumption. */
const TORN_MM = 2.5;

export interface SheetWear {
  /** mm²: stiffness of a bonded sheet falls by 1/(1 + this · points per mm²). */
  readonly cutFibers: number;
  /** Points per mm of a line that halve the stiffness of a sheet that perforates. */
  readonly perforation: number;
}

/**
 * Stiffness of all sheets together, six numbers an element. Needle points of the whole design count from the start: when the last of them come
 * down most have.
 */
export function backingStiffness(
  design: MeshedDesign,
  { sheets }: Layup,
  wear: SheetWear,
  trimmed: boolean,
): Float64Array {
  const six = new Float64Array(elementsOf(design.mesh) * SIX);
  for (const sheet of sheets) {
    const left = partLeft(design, sheet, wear, trimmed);
    addStiffness(six, sheet.membrane, (element) => left[element]);
  }
  return six;
}

/** Membrane forces, three numbers an element, of trimmed sheets that are too large for the fabric by a free strain each. */
export function backingPrestress(
  design: MeshedDesign,
  { sheets }: Layup,
  wear: SheetWear,
  freeStrain: (sheet: Layer) => Strain,
): Float64Array {
  const three = new Float64Array(elementsOf(design.mesh) * THREE);
  for (const sheet of sheets) {
    const [xx, yy, xy] = forcesOf(sheet.membrane, freeStrain(sheet));
    const part = partLeft(design, sheet, wear, true);
    for (let e = 0, k = 0; k < three.length; e++, k += THREE) {
      const f = part[e];
      three[k] -= f * xx;
      three[k + 1] -= f * yy;
      three[k + 2] -= f * xy;
    }
  }
  return three;
}

/** Places one way in an element at which it is looked up what is left there. */
const LOOKS = 3;

/** What was found for a design: it hangs on nothing of a sheet but how it gives way to the needle. */
const known = new WeakMap<MeshedDesign, Map<string, Float64Array>>();

/** Part of one of a sheet's stiffness that is left in every element. */
function partLeft(design: MeshedDesign, sheet: Layer, wear: SheetWear, trimmed: boolean): Float64Array {
  const { perforates, bonded } = sheet;
  const key = [trimmed, perforates, bonded, wear.cutFibers, wear.perforation].join(' ');
  const before = known.get(design) ?? new Map<string, Float64Array>();
  known.set(design, before);
  const left = before.get(key) ?? findLeft(design, sheet, wear, trimmed);
  before.set(key, left);
  return left;
}

function findLeft(
  { mesh, map, nearest, points }: MeshedDesign,
  sheet: Layer,
  wear: SheetWear,
  trimmed: boolean,
): Float64Array {
  const kept = sheet.perforates ? TORN_MM : TRIM_MM;
  const leftAt = (x: number, y: number): number => {
    const u = Math.floor((x - map.x0) / map.cellMm);
    const v = Math.floor((y - map.y0) / map.cellMm);
    if (u < 0 || v < 0 || u >= map.nx || v >= map.ny) return trimmed ? 0 : 1;
    const cell = v * map.nx + u;
    return trimmed && nearest.distance[cell] > kept ? 0 : left(sheet, points[cell], wear);
  };
  return Float64Array.from({ length: elementsOf(mesh) }, (_, element) => {
    const i = element % (mesh.nx - 1);
    const j = (element - i) / (mesh.nx - 1);
    const width = mesh.x[i + 1] - mesh.x[i];
    const height = mesh.y[j + 1] - mesh.y[j];
    let sum = 0;
    for (let a = 0; a < LOOKS; a++)
      for (let b = 0; b < LOOKS; b++)
        sum += leftAt(mesh.x[i] + ((a + 0.5) / LOOKS) * width, mesh.y[j] + ((b + 0.5) / LOOKS) * height);
    return sum / LOOKS / LOOKS;
  });
}

function left({ perforates, bonded }: Layer, perArea: number, { cutFibers, perforation }: SheetWear): number {
  // A line of points at p per mm has 2r·p of them in a disc of radius r about it.
  if (perforates) return 1 / (1 + (perArea * Math.PI * CROWD_MM) / 2 / perforation);
  return bonded ? 1 / (1 + cutFibers * perArea) : 1;
}
