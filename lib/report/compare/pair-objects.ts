import { axisDifferenceDeg } from '../../core/axis.js';
import { middleOf } from '../../core/bounds.js';
import { indexBoxes } from '../../core/index2d.js';
import type { Bounds } from '../../measure/measures.js';
import { assign, type Candidate } from '../assign.js';
import type { ObjectReport } from '../vet/report.js';

/** Leaving two objects unpaired costs as much as a pair this unlike. */
const ALONE_COST = 2;
/** Objects this near, mm, may be the same however small they are. */
const LEAST_REACH_MM = 3;
/** As many neighbours are looked at; more of them on one place are beyond telling apart. */
const MOST_NEIGHBOURS = 24;
const KIND_COST = 0.6;
/** A pair less unlike than this is plainly the same thing: less than a neighbour of the same kind is. */
const ALIKE_COST = 0.75;

/** The objects of two designs that are the same thing, as indexes; what is in no pair was added or removed. */
export interface Pairing {
  pairs: { before: number; after: number }[];
  removed: number[];
  added: number[];
  /** How many pairs are plainly the same thing; the rest are the nearest there is. */
  alike: number;
}

/**
 * Pairs the objects of two versions of a design by place and shape, never by number: sewing order does not count.
 * A design that was moved or scaled as a whole is laid over the other first, where that fits better.
 */
export function pairObjects(
  before: readonly ObjectReport[],
  after: readonly ObjectReport[],
  beforeBounds: Bounds,
  afterBounds: Bounds,
): Pairing {
  const asIs = pairUnder(before, after, (x, y) => [x, y]);
  const overlaid = pairUnder(before, after, overlay(beforeBounds, afterBounds));
  return (overlaid.cost < asIs.cost ? overlaid : asIs).pairing;
}

type Map2d = (x: number, y: number) => [number, number];

/** The map that lays one box over the other; a side without extent is only moved. */
function overlay(from: Bounds, to: Bounds): Map2d {
  const scale = (a: number, b: number): number => (a > 0 && b > 0 ? b / a : 1);
  const sx = scale(from.maxX - from.minX, to.maxX - to.minX);
  const sy = scale(from.maxY - from.minY, to.maxY - to.minY);
  return (x, y) => [to.minX + (x - from.minX) * sx, to.minY + (y - from.minY) * sy];
}

function pairUnder(
  before: readonly ObjectReport[],
  after: readonly ObjectReport[],
  map: Map2d,
): { pairing: Pairing; cost: number } {
  const rows = canonical(before);
  const columns = canonical(after);
  const index = indexBoxes(columns.flatMap((o) => [...centre(after[o].bounds), ...centre(after[o].bounds)]));
  const candidates: Candidate[] = [];
  const costs = new Map<number, number>();
  rows.forEach((b, row) => {
    const mapped = mapBounds(before[b].bounds, map);
    const reach = Math.max(LEAST_REACH_MM, diagonal(mapped));
    const [x, y] = centre(mapped);
    for (const column of index.nearest(x, y, MOST_NEIGHBOURS, reach)) {
      const cost = unlikeness(before[b], mapped, after[columns[column]], reach);
      if (cost < ALONE_COST) {
        candidates.push({ row, column, cost });
        costs.set(row * columns.length + column, cost);
      }
    }
  });
  const columnOf = assign(rows.length, columns.length, candidates, ALONE_COST);
  const pairing: Pairing = { pairs: [], removed: [], added: [], alike: 0 };
  const taken = new Uint8Array(columns.length);
  let cost = 0;
  rows.forEach((b, row) => {
    const column = columnOf[row];
    if (column < 0) {
      pairing.removed.push(b);
      cost += ALONE_COST;
    } else {
      pairing.pairs.push({ before: b, after: columns[column] });
      taken[column] = 1;
      const unlike = costs.get(row * columns.length + column)!;
      if (unlike < ALIKE_COST) pairing.alike++;
      cost += unlike;
    }
  });
  columns.forEach((a, column) => {
    if (!taken[column]) pairing.added.push(a);
  });
  pairing.pairs.sort((a, b) => a.before - b.before);
  pairing.removed.sort((a, b) => a - b);
  pairing.added.sort((a, b) => a - b);
  return { pairing, cost };
}

/** Indexes in an order that depends on the shapes alone, so that equal costs are broken the same way. */
function canonical(objects: readonly ObjectReport[]): number[] {
  const key = (o: ObjectReport): (number | string)[] => [
    o.bounds.minX,
    o.bounds.minY,
    o.bounds.maxX,
    o.bounds.maxY,
    o.kind,
    o.areaMm2,
    o.stitches,
  ];
  const keys = objects.map(key);
  return objects
    .map((_, i) => i)
    .sort((a, b) => {
      for (let k = 0; k < keys[a].length; k++) {
        if (keys[a][k] < keys[b][k]) return -1;
        if (keys[a][k] > keys[b][k]) return 1;
      }
      return 0;
    });
}

/** 0 for the same place and shape; about 1 for a neighbour of the same kind. */
function unlikeness(before: ObjectReport, mapped: Bounds, after: ObjectReport, reach: number): number {
  const [ax, ay] = centre(mapped);
  const [bx, by] = centre(after.bounds);
  const away = Math.hypot(bx - ax, by - ay) / reach;
  const turned =
    before.angleDeg === null || after.angleDeg === null
      ? 0
      : axisDifferenceDeg(before.angleDeg, after.angleDeg) / 90;
  return (
    2 * away +
    unequal(mapped.maxX - mapped.minX, after.bounds.maxX - after.bounds.minX) +
    unequal(mapped.maxY - mapped.minY, after.bounds.maxY - after.bounds.minY) +
    0.3 * turned +
    (before.kind === after.kind ? 0 : KIND_COST)
  );
}

/** How far two lengths differ as a ratio; 1 mm is added so that thin things are not endlessly unlike. */
function unequal(a: number, b: number): number {
  return Math.abs(Math.log((a + 1) / (b + 1)));
}

function mapBounds(bounds: Bounds, map: Map2d): Bounds {
  const [minX, minY] = map(bounds.minX, bounds.minY);
  const [maxX, maxY] = map(bounds.maxX, bounds.maxY);
  return { minX, minY, maxX, maxY };
}

function centre(b: Bounds): [number, number] {
  const { x, y } = middleOf(b);
  return [x, y];
}

function diagonal(b: Bounds): number {
  return Math.hypot(b.maxX - b.minX, b.maxY - b.minY);
}
