/** Wrinkles over the cells of a design's map, and what a viewer sees of them. */
import { THREE } from './element-strain.js';
import { type PlacesOn, placesOn } from './mesh.js';
import type { MeshedDesign } from './meshed-design.js';
import { objectRegions } from './object-regions.js';
import { pressed, type Wrinkle, type WrinkleLaw } from './plate-wrinkle.js';
import { VIEWED_MM2 } from './score.js';
import { TRIM_MM } from './sheets-in-use.js';

export interface WrinkleFields {
  /** Of the cells of the design's map, row by row from the lower left. */
  readonly heightMm: Float64Array;
  readonly wavelengthMm: Float64Array;
  /** Direction across the crests, degrees. */
  readonly acrossDeg: Float64Array;
}

/** At the cells of a view. */
export interface CellWrinkles {
  readonly heightMm: Float64Array;
  /** Shortening as a part of that at which wrinkles begin. */
  readonly nearness: Float64Array;
}

/**
 * The cells of a design's map on which fabric can be seen to wrinkle: those that thread does not cover whole, within reach of the stitching.
 * The span is what is free between needle points, twice the distance to the nearest, and no more than the longest.
 *
 * A local span in its stead, from the length e/|∇e| on which compression falls off, was tried: percentages came nearer to what the trade says, but
 * heights then hang on the far border and the mesh (by 4 to 12 %), and performance knit comes out no better than thin one.
 */
export class WrinkleView {
  /** Numbers of these cells in the map. */
  readonly cells: Int32Array;
  /** Of each of them, area that no thread covers, mm². */
  readonly area: Float64Array;
  /** Of each of them, what stands free between needle points, mm. */
  readonly span: Float64Array;
  private regions: readonly Int32Array[] | null = null;
  private readonly along: { readonly x: PlacesOn; readonly y: PlacesOn };

  constructor(readonly design: MeshedDesign) {
    const { mesh, map, open, nearest } = design;
    this.cells = Int32Array.from(open.keys()).filter((cell) => {
      const free = nearest.distance[cell];
      return open[cell] > 0 && free > 0 && free <= TRIM_MM;
    });
    const { cells } = this;
    this.area = Float64Array.from(cells, (cell) => open[cell] * map.cellMm * map.cellMm);
    this.span = Float64Array.from(cells, (cell) => 2 * nearest.distance[cell]);
    this.along = {
      x: betweenMiddles(mesh.x, map.nx, map.x0, map.cellMm),
      y: betweenMiddles(mesh.y, map.ny, map.y0, map.cellMm),
    };
  }

  /** Of every object, which of {@link cells} belong to it and to the fabric about it. */
  get ofObjects(): readonly Int32Array[] {
    if (this.regions) return this.regions;
    const { map, stitches, objects } = this.design;
    const place = new Int32Array(map.nx * map.ny).fill(-1);
    this.cells.forEach((cell, k) => {
      place[cell] = k;
    });
    this.regions = objectRegions(map, stitches, objects).map((all) =>
      all.map((cell) => place[cell]).filter((k) => k >= 0),
    );
    return this.regions;
  }

  /** Strains in the middles of the cells, three numbers each, of those of elements. */
  strains(strain: Float64Array): Float64Array {
    const out = new Float64Array(this.cells.length * THREE);
    for (let m = 0; m < this.cells.length; m++) this.strainAt(m, strain, out, THREE * m);
    return out;
  }

  /** Between the middles of elements, where bilinear ones are most exact. */
  private strainAt(m: number, strain: Float64Array, out: Float64Array, k: number): void {
    const { cells, along, design } = this;
    const { map, mesh } = design;
    const up = THREE * (mesh.nx - 1);
    const i = cells[m] % map.nx;
    const j = (cells[m] - i) / map.nx;
    const from = THREE * (along.y.at[j] * (mesh.nx - 1) + along.x.at[i]);
    const u = along.x.part[i];
    const v = along.y.part[j];
    for (let c = 0; c < THREE; c++) {
      const at = from + c;
      out[k + c] =
        (1 - v) * ((1 - u) * strain[at] + u * strain[at + THREE]) +
        v * ((1 - u) * strain[at + up] + u * strain[at + up + THREE]);
    }
  }

  /**
   * Heights at all cells, mm, for strains there.
   * @param some cells, of which alone the strains are; all others lie flat
   */
  heights(strains: Float64Array, law: WrinkleLaw, longestSpanMm: number, some?: Int32Array): Float64Array {
    const { span } = this;
    const out = new Float64Array(span.length);
    for (let m = 0, k = 0; k < strains.length; m++, k += THREE) {
      if (pressed(strains[k], strains[k + 1], strains[k + 2]) === 0) continue;
      const cell = some ? some[m] : m;
      law.at(strains[k], strains[k + 1], strains[k + 2], Math.min(span[cell], longestSpanMm), ONE);
      out[cell] = ONE.heightMm;
    }
    return out;
  }

  /** Heights at all cells, and how near each is to a wrinkle, for strains of elements. */
  wrinkles(strain: Float64Array, law: WrinkleLaw, longestSpanMm: number): CellWrinkles {
    const heightMm = new Float64Array(this.cells.length);
    const nearness = new Float64Array(this.cells.length);
    this.eachPressed(strain, law, longestSpanMm, (m, e) => {
      heightMm[m] = ONE.heightMm;
      nearness[m] = e / ONE.threshold;
    });
    return { heightMm, nearness };
  }

  /** How fabric wrinkles, as fields over the whole map. */
  fields(strain: Float64Array, law: WrinkleLaw, longestSpanMm: number): WrinkleFields {
    const { cells, design } = this;
    const all = () => new Float64Array(design.map.nx * design.map.ny);
    const fields: WrinkleFields = { heightMm: all(), wavelengthMm: all(), acrossDeg: all() };
    this.eachPressed(strain, law, longestSpanMm, (m) => {
      const cell = cells[m];
      fields.heightMm[cell] = ONE.heightMm;
      fields.wavelengthMm[cell] = ONE.wavelengthMm;
      fields.acrossDeg[cell] = ONE.acrossDeg;
    });
    return fields;
  }

  /** Works out {@link ONE} of every cell that is pressed, by so much. */
  private eachPressed(
    strain: Float64Array,
    law: WrinkleLaw,
    longestSpanMm: number,
    tell: (cell: number, shortening: number) => void,
  ): void {
    const { span } = this;
    const at = new Float64Array(THREE);
    for (let m = 0; m < span.length; m++) {
      this.strainAt(m, strain, at, 0);
      const e = pressed(at[0], at[1], at[2]);
      if (e === 0) continue;
      law.at(at[0], at[1], at[2], Math.min(span[m], longestSpanMm), ONE);
      tell(m, e);
    }
  }

  /** What is seen of values at the cells: of the whole design, then of every object. */
  seen(values: Float64Array): number[] {
    return [
      worstPatch(values, this.area),
      ...this.ofObjects.map((region) => worstPatch(values, this.area, region)),
    ];
  }

  /** What is seen of the whole design. */
  seenWhole(values: Float64Array): number {
    return worstPatch(values, this.area);
  }
}

const ONE: Wrinkle = { heightMm: 0, wavelengthMm: 0, acrossDeg: 0, threshold: 0 };

/** Where the middles of map cells along one axis stand among the middles of elements. */
function betweenMiddles(lines: Float64Array, count: number, from: number, cellMm: number): PlacesOn {
  const middles = Float64Array.from({ length: lines.length - 1 }, (_, k) => (lines[k] + lines[k + 1]) / 2);
  return placesOn(
    middles,
    Float64Array.from({ length: count }, (_, i) => from + (i + 0.5) * cellMm),
  );
}

/** Steps of height by which cells are told apart before the last of them are put in order. */
const STEPS = 256;

/**
 * Mean of values over the highest cells that make up the patch a viewer takes in, each counted with the part of it that no thread covers. What
 * lacks to the patch counts as flat.
 * @param chosen cells that are looked at; all without it
 */
export function worstPatch(values: Float64Array, area: Float64Array, chosen?: Int32Array): number {
  const n = chosen ? chosen.length : values.length;
  const cellAt = (k: number) => (chosen ? chosen[k] : k);
  let highest = 0;
  for (let k = 0; k < n; k++) highest = Math.max(highest, values[cellAt(k)]);
  if (!(highest > 0)) return 0;
  const stepOf = (value: number) => Math.min(STEPS - 1, Math.floor((value / highest) * STEPS));
  const areas = new Float64Array(STEPS);
  for (let k = 0; k < n; k++) if (values[cellAt(k)] > 0) areas[stepOf(values[cellAt(k)])] += area[cellAt(k)];
  let left = VIEWED_MM2;
  let last = STEPS - 1;
  while (last > 0 && areas[last] < left) left -= areas[last--];
  let sum = 0;
  const rest: number[] = [];
  for (let k = 0; k < n; k++) {
    const cell = cellAt(k);
    if (!(values[cell] > 0)) continue;
    const step = stepOf(values[cell]);
    if (step > last) sum += area[cell] * values[cell];
    else if (step === last) rest.push(cell);
  }
  rest.sort((a, b) => values[b] - values[a]);
  for (const cell of rest) {
    const taken = Math.min(left, area[cell]);
    sum += taken * values[cell];
    left -= taken;
    if (left <= 0) break;
  }
  return sum / VIEWED_MM2;
}
