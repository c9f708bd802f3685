/** Numbers on a picture for what was found: which findings share one, and where it stands. */
import type { Finding, Severity } from '../../vetting/finding.js';
import { SEVERITIES } from '../summary.js';

/** One numbered place, and the findings there. */
export interface NumberedPlace {
  /** From 1, the severest first. */
  number: number;
  severity: Severity;
  /** Where the first of its findings is, mm. */
  at: { x: number; y: number };
}

/** Findings in the order of the list, each with its number; null for one without a place. */
export interface NumberedFindings {
  list: readonly { finding: Finding; number: number | null }[];
  places: readonly NumberedPlace[];
}

/** More numbers than this would cover the picture. */
const MOST_NUMBERS = 48;

/**
 * Numbers findings, the severest first. Findings of one code and severity within `reachMm` of the first of them share
 * its number; where that leaves too many numbers, findings farther apart share one.
 *
 * @param reachMm more than 0
 */
export function numberFindings(findings: readonly Finding[], reachMm: number): NumberedFindings {
  const ordered = findings.toSorted(
    (a, b) => SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity),
  );
  // Codes are few, so at some reach every code has one number, and that is where it ends at the latest.
  for (let reach = reachMm; ; reach *= 1.5) {
    const numbered = share(ordered, reach, reach > WIDEST_MM ? Number.POSITIVE_INFINITY : MOST_NUMBERS);
    if (numbered) return numbered;
  }
}

/** No two needle points of a design that fits a machine lie farther apart. */
const WIDEST_MM = 10_000;

/** Null as soon as there are more places than `most`: looking through many for every finding takes too long. */
function share(ordered: readonly Finding[], reach: number, most: number): NumberedFindings | null {
  const places: NumberedPlace[] = [];
  const alike = new Map<string, NumberedPlace[]>();
  const list: { finding: Finding; number: number | null }[] = [];
  for (const finding of ordered) {
    const { at, code, severity } = finding;
    if (at === null) {
      list.push({ finding, number: null });
      continue;
    }
    const kind = `${severity} ${code}`;
    const same = alike.get(kind) ?? [];
    alike.set(kind, same);
    let place = same.find((p) => Math.hypot(p.at.x - at.x, p.at.y - at.y) <= reach);
    if (!place) {
      place = { number: places.length + 1, severity, at };
      places.push(place);
      same.push(place);
    }
    if (places.length > most) return null;
    list.push({ finding, number: place.number });
  }
  return { list, places };
}

export interface Point {
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
export function placeCallouts(anchors: readonly Point[], paper: Paper): Point[] {
  const placed: Point[] = [];
  for (const [i, anchor] of anchors.entries()) {
    const others = anchors.filter((_, j) => j !== i);
    placed.push(spotFor(anchor, others, placed, paper));
  }
  return placed;
}

function spotFor(anchor: Point, others: readonly Point[], placed: readonly Point[], paper: Paper): Point {
  const { radius } = paper;
  let fair: Point | null = null;
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
function* spotsAbout(anchor: Point, direction: number, paper: Paper): Generator<Point> {
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
function outward(anchor: Point, others: readonly Point[], radius: number): number {
  const near = others.filter((other) => distance(other, anchor) < radius * 6);
  const away = near.reduce(
    (sum, other) => ({ x: sum.x + anchor.x - other.x, y: sum.y + anchor.y - other.y }),
    { x: 0, y: 0 },
  );
  return away.x === 0 && away.y === 0 ? -Math.PI / 2 : Math.atan2(away.y, away.x);
}

const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

const isOnPaper = ({ x, y }: Point, { width, height, radius }: Paper): boolean =>
  x >= radius && y >= radius && x <= width - radius && y <= height - radius;

const onPaper = ({ x, y }: Point, { width, height, radius }: Paper): Point => ({
  x: Math.min(Math.max(x, radius), width - radius),
  y: Math.min(Math.max(y, radius), height - radius),
});
