/**
 * Sections: what is sewn to and fro, row beside row, and can be laid anew with another count. The swings of a column, the rows of one
 * section of a fill, a zigzag or a light fill of the underlay.
 */
import { distance } from '../core/distance.js';
import { Break, type Stitches } from '../format/stitches.js';
import { measureRows } from '../geometry/rows.js';
import { LegFinder } from '../segment/legs.js';
import type { StitchObject } from '../segment/objects.js';
import { findPatches } from '../segment/patches.js';
import { type RowEnds, type StepsTold, withoutSteps } from './steps-over.js';

/** Fewer rows are sewn as they are. */
const FEWEST_ROWS = 4;
/** Needle points inside a row lie this near to the line between its ends, mm; a row on which one lies farther off is left out. */
const STRAIGHT_MM = 0.6;
const CROOKED_MM = 1;
/** Most rows that may be less than straight. */
const BENT_SHARE = 0.25;
/** Swings of one direction lean to it by no more than 12°, sine. */
const STRAIGHT_SINE = Math.sin((12 * Math.PI) / 180);
/** Swings that share their ends may lie this far apart where some do not, mm: a stray needle point on the line. */
const STRAY_MM = 0.75;

export interface Section {
  readonly object: StitchObject;
  /** A pass is top stitching too, besides the rows that are told: an earlier pass over the same column or area. */
  readonly role: 'top' | 'pass' | 'underlay';
  /** Swings of a column, or rows of a filled area. */
  readonly swings: boolean;
  /** Each row begins with the needle point that ends the one before; else there is a step over between the two. */
  readonly joined: boolean;
  /** Stitch indexes of the two ends of each row in sewing order, steps over left out. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Top stitching but for passes: number of the first row in its object. */
  readonly row: number;
}

/** Whether a section is top stitching. */
export const isTop = ({ role }: Section): boolean => role !== 'underlay';

/** The sections of a design in sewing order; no needle point is in two of them. */
export function findSections(
  stitches: Stitches,
  objects: readonly StitchObject[],
  steps: StepsTold = 'short',
): Section[] {
  const taken = new Uint8Array(stitches.count);
  const tops = objects.flatMap((object) =>
    object.kind === 'run' ? [] : topSections(stitches, object, steps),
  );
  for (const { range } of objects) taken.fill(1, range[0], range[1] + 1);
  const finder = new LegFinder(stitches, stitches.count);
  const sections = [
    ...tops,
    ...passSections(stitches, objects, finder, steps),
    ...undersewSections(stitches, objects, taken, finder),
  ];
  sections.sort((a, b) => a.from[0] - b.from[0]);
  let free = 0;
  return sections.flatMap((section) => {
    // a needle point that ends one section begins no other
    let row = 0;
    while (row < section.from.length && section.from[row] < free) row++;
    const from = section.from.slice(row);
    const to = section.to.slice(row);
    if (from.length < FEWEST_ROWS) return [];
    free = to[to.length - 1] + 1;
    return [{ ...section, from, to, row: section.row + row }];
  });
}

function topSections(stitches: Stitches, object: StitchObject, steps: StepsTold): Section[] {
  const { x, y } = stitches;
  // close rows that lie straight beside each other may have been taken for the swings of a split column
  const stepped = object.kind === 'fill' || (object.split && isStraight(x, y, object));
  const ends = stepped ? withoutSteps(x, y, object, object.sections, steps) : object;
  const firsts = object.sections.length > 0 ? [...object.sections] : [0];
  return firsts.flatMap((first, section) =>
    cut(
      stitches,
      { object, role: 'top', swings: object.kind === 'satin' },
      ends,
      first,
      firsts[section + 1] ?? ends.from.length,
    ),
  );
}

/** What of columns and areas is sewn to and fro before their rows and after them: earlier passes, the other layer of a net. */
function passSections(
  stitches: Stitches,
  objects: readonly StitchObject[],
  finder: LegFinder,
  steps: StepsTold,
): Section[] {
  return objects.flatMap((object) => {
    const { kind, range, from, to } = object;
    if (kind === 'run' || from.length === 0) return [];
    const what = { object, role: 'pass' } as const;
    return [
      ...sectionsWithin(stitches, what, range[0], from[0], finder, steps),
      ...sectionsWithin(stitches, what, to[to.length - 1], range[1], finder, steps),
    ];
  });
}

function sectionsWithin(
  stitches: Stitches,
  what: Pick<Section, 'object' | 'role'>,
  first: number,
  last: number,
  finder: LegFinder,
  steps: StepsTold,
): Section[] {
  if (last - first < FEWEST_ROWS) return [];
  return findPatches(stitches, finder.find(first, last)).flatMap((patch) => {
    const swings = patch.kind === 'swings';
    const ends = swings ? patch : withoutSteps(stitches.x, stitches.y, patch, new Int32Array(0), steps);
    return cut(stitches, { ...what, swings }, ends, 0, ends.from.length);
  });
}

/** Looks for rows and swings in what lies under the tops, stretch by stretch. */
function undersewSections(
  stitches: Stitches,
  objects: readonly StitchObject[],
  taken: Uint8Array,
  finder: LegFinder,
): Section[] {
  const { breakBefore, count } = stitches;
  const owner = new Map<number, StitchObject>();
  const length = ({ underlay: { range } }: StitchObject) => range![1] - range![0];
  // the range of one underlay may reach over others that are sewn in between
  const laid = objects
    .filter(({ underlay }) => underlay.range !== null)
    .sort((a, b) => length(b) - length(a));
  for (const object of laid) {
    const [first, last] = object.underlay.range!;
    for (let i = first; i <= last; i++) if (taken[i] === 0) owner.set(i, object);
  }
  const sections: Section[] = [];
  for (let first = 0; first < count; first++) {
    const object = owner.get(first);
    if (object === undefined) continue;
    let last = first;
    while (last + 1 < count && owner.get(last + 1) === object && breakBefore[last + 1] < Break.stop) last++;
    sections.push(...sectionsWithin(stitches, { object, role: 'underlay' }, first, last, finder, 'short'));
    first = last;
  }
  return sections;
}

/** Whether all swings have one direction, whichever way they go. */
function isStraight(x: Float64Array, y: Float64Array, { from, to }: RowEnds): boolean {
  const { ux, uy } = measureRows(x, y, from, to, new Int32Array(0));
  return from.every((a, k) => {
    const [dx, dy] = [x[to[k]] - x[a], y[to[k]] - y[a]];
    return Math.abs(dx * uy - dy * ux) <= STRAIGHT_SINE * Math.hypot(dx, dy);
  });
}

/** Rows `first` to `end` − 1 as sections: cut where the machine stops, and where the rows do not go on from each other. */
function cut(
  stitches: Stitches,
  kind: Pick<Section, 'object' | 'role' | 'swings'>,
  { from, to }: RowEnds,
  first: number,
  end: number,
): Section[] {
  const { x, y, breakBefore } = stitches;
  let shared = 0;
  for (let k = first + 1; k < end; k++) if (from[k] === to[k - 1]) shared++;
  const joined = shared >= (end - first - 1) / 2;
  const paused = (a: number, b: number) => {
    for (let i = a + 1; i <= b; i++) if (breakBefore[i] >= Break.stop) return true;
    return false;
  };
  const bend = (k: number) => bendOf(x, y, from[k], to[k]);
  const out: Section[] = [];
  let start = first;
  const close = (last: number) => {
    const rows = last - start + 1;
    let bent = 0;
    for (let k = start; k <= last; k++) if (bend(k) > STRAIGHT_MM) bent++;
    if (rows >= FEWEST_ROWS && bent <= BENT_SHARE * rows) {
      out.push({
        ...kind,
        joined,
        from: from.slice(start, last + 1),
        to: to.slice(start, last + 1),
        row: start,
      });
    }
  };
  for (let k = first; k < end; k++) {
    if (paused(from[k], to[k]) || bend(k) > CROOKED_MM) {
      close(k - 1);
      start = k + 1;
      continue;
    }
    if (k === start) continue;
    const apart = distance(x[to[k - 1]], y[to[k - 1]], x[from[k]], y[from[k]]);
    if (from[k] >= to[k - 1] && !paused(to[k - 1], from[k]) && !(joined && apart > STRAY_MM)) continue;
    close(k - 1);
    start = k;
  }
  close(end - 1);
  return out;
}

/** How far needle points inside a row lie off the line between its ends, mm. */
function bendOf(x: Float64Array, y: Float64Array, from: number, to: number): number {
  const [ux, uy] = [x[to] - x[from], y[to] - y[from]];
  const length = Math.hypot(ux, uy) || 1;
  let most = 0;
  for (let i = from + 1; i < to; i++) {
    most = Math.max(most, Math.abs(ux * (y[i] - y[from]) - uy * (x[i] - x[from])) / length);
  }
  return most;
}
