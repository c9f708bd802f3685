/** Letters on a picture for what was found: a kind has one, at each place where it is. Objects have the numbers. */
import type { Severity } from '../../vetting/finding.js';

/** Findings of one kind. */
interface Kind {
  readonly severity: Severity;
  readonly all: readonly { readonly at: { readonly x: number; readonly y: number } | null }[];
}

/** A place that bears the number of its kind. */
export interface NumberedPlace {
  readonly number: number;
  readonly severity: Severity;
  /** Where the first of its findings is, mm. */
  readonly at: { readonly x: number; readonly y: number };
}

/** More places than this would cover the picture. */
const MOST_PLACES = 48;
/** No two needle points of a design that fits a machine lie farther apart, mm. */
const WIDEST_MM = 10_000;

/** What stands for the number of a kind on paper, as A for 1, Z for 26 and AA for 27: a number would be taken for an object's. */
export function letterOf(number: number): string {
  const last = (number - 1) % LETTERS;
  const first = (number - 1 - last) / LETTERS;
  return `${first > 0 ? letterOf(first) : ''}${String.fromCharCode(65 + last)}`;
}

const LETTERS = 26;

/** The number of each kind that has a place, from 1 in their order; null for one that has none. */
export function numbersOf(kinds: readonly Kind[]): (number | null)[] {
  let next = 1;
  return kinds.map(({ all }) => (all.some(({ at }) => at !== null) ? next++ : null));
}

/**
 * Where the numbers stand. Findings of one kind within `reachMm` of the first of them share a place; where that leaves
 * too many places, findings farther apart share one.
 *
 * @param reachMm more than 0
 */
export function numberedPlaces(kinds: readonly Kind[], reachMm: number): NumberedPlace[] {
  const numbers = numbersOf(kinds);
  // At some reach every kind has one place, and that is where it ends at the latest.
  for (let reach = reachMm; ; reach *= 1.5) {
    const most = reach > WIDEST_MM ? Number.POSITIVE_INFINITY : MOST_PLACES;
    const places = placesWithin(kinds, numbers, reach, most);
    if (places) return places;
  }
}

/** Null as soon as there are more places than `most`: looking through many for every finding takes too long. */
function placesWithin(
  kinds: readonly Kind[],
  numbers: readonly (number | null)[],
  reach: number,
  most: number,
): NumberedPlace[] | null {
  const places: NumberedPlace[] = [];
  for (const [i, { severity, all }] of kinds.entries()) {
    const number = numbers[i];
    const first = places.length;
    for (const { at } of all) {
      if (at === null || number === null) continue;
      const near = (place: NumberedPlace) => Math.hypot(place.at.x - at.x, place.at.y - at.y) <= reach;
      if (places.slice(first).some(near)) continue;
      places.push({ number, severity, at });
      if (places.length > most) return null;
    }
  }
  return places;
}

export interface Spot {
  x: number;
  y: number;
}

/** The paper that callouts may stand on, and the radius that each takes, in picture units. */
export interface Paper {
  width: number;
  height: number;
  radius: number;
}

/** Directions tried about a crowded place. */
const DIRECTIONS = 24;

/**
 * Where callouts stand so that they lie on the paper and not on each other: on their own anchor where there is room,
 * else as near as there is room, rather outward of the crowd and rather not on another's anchor. Greedy, in order.
 */
export function placeCallouts(anchors: readonly Spot[], paper: Paper): Spot[] {
  const placed: Spot[] = [];
  for (const [i, anchor] of anchors.entries()) {
    const others = anchors.filter((_, j) => j !== i);
    placed.push(spotFor(anchor, others, placed, paper));
  }
  return placed;
}

function spotFor(anchor: Spot, others: readonly Spot[], placed: readonly Spot[], paper: Paper): Spot {
  const { radius } = paper;
  let fair: Spot | null = null;
  for (const at of spotsAbout(anchor, outward(anchor, others, radius), paper)) {
    // A callout on another's anchor is better than one far off.
    if (fair && distance(at, anchor) > distance(fair, anchor) + 5 * radius) break;
    if (placed.some((p) => distance(p, at) < 2 * radius + 2)) continue;
    if (others.every((other) => distance(other, at) > radius)) return at;
    fair ??= at;
  }
  return fair ?? onPaper(anchor, paper);
}

/** Spots on the paper, nearest first; in each ring those toward `direction` first. */
function* spotsAbout(anchor: Spot, direction: number, paper: Paper): Generator<Spot> {
  yield onPaper(anchor, paper);
  const farthest = Math.hypot(paper.width, paper.height);
  for (let ring = paper.radius * 1.75; ring <= farthest; ring += paper.radius) {
    for (let k = 0; k < DIRECTIONS; k++) {
      const turn = ((k % 2 ? (k + 1) / 2 : -k / 2) * 2 * Math.PI) / DIRECTIONS;
      const at = {
        x: anchor.x + ring * Math.cos(direction + turn),
        y: anchor.y + ring * Math.sin(direction + turn),
      };
      if (isOnPaper(at, paper)) yield at;
    }
  }
}

/** Away from the anchors near by; straight up where there are none. */
function outward(anchor: Spot, others: readonly Spot[], radius: number): number {
  const near = others.filter((other) => distance(other, anchor) < radius * 6);
  const away = near.reduce(
    (sum, other) => ({ x: sum.x + anchor.x - other.x, y: sum.y + anchor.y - other.y }),
    { x: 0, y: 0 },
  );
  return away.x === 0 && away.y === 0 ? -Math.PI / 2 : Math.atan2(away.y, away.x);
}

const distance = (a: Spot, b: Spot): number => Math.hypot(a.x - b.x, a.y - b.y);

const isOnPaper = ({ x, y }: Spot, { width, height, radius }: Paper): boolean =>
  x >= radius && y >= radius && x <= width - radius && y <= height - radius;

const onPaper = ({ x, y }: Spot, { width, height, radius }: Paper): Spot => ({
  x: Math.min(Math.max(x, radius), width - radius),
  y: Math.min(Math.max(y, radius), height - radius),
});
