import type { ObjectKind, StitchRange, UnderlayKind } from '../../lib/segment/objects.js';
import { ties } from './grouping.js';
import type { Case, Totals, TruthObject } from './pen.js';

/** What an object finder says of one object, as far as it is judged. */
export interface FoundObject {
  kind: ObjectKind;
  block: number;
  group: number;
  range: StitchRange;
  widthMm: number | null;
  spacingMm: number | null;
  angleDeg: number | null;
  underlay: { kinds: readonly UnderlayKind[]; range: StitchRange | null };
  split: boolean;
  locks: { start: boolean; end: boolean };
}

export interface Found {
  objects: FoundObject[];
  totals: Totals;
}

export const LIMITS = { iou: 0.8, widthMm: 0.1, spacingMm: 0.03, angleDeg: 3 } as const;

/** Hits and tries of each mark. */
export class Tally {
  truth = 0;
  found = 0;
  matched = 0;
  designs = 0;
  totals = 0;
  readonly hits: Record<Mark, number> = {
    kind: 0,
    block: 0,
    width: 0,
    spacing: 0,
    angle: 0,
    underlay: 0,
    split: 0,
    locks: 0,
    underRange: 0,
    group: 0,
  };
  readonly tries: Record<Mark, number> = {
    kind: 0,
    block: 0,
    width: 0,
    spacing: 0,
    angle: 0,
    underlay: 0,
    split: 0,
    locks: 0,
    underRange: 0,
    group: 0,
  };

  add(other: Tally): void {
    this.truth += other.truth;
    this.found += other.found;
    this.matched += other.matched;
    this.designs += other.designs;
    this.totals += other.totals;
    for (const m of MARKS) {
      this.hits[m] += other.hits[m];
      this.tries[m] += other.tries[m];
    }
  }

  get recall(): number {
    return this.truth ? this.matched / this.truth : 1;
  }

  get precision(): number {
    return this.found ? this.matched / this.found : 1;
  }

  share(mark: Mark): number {
    return this.tries[mark] ? this.hits[mark] / this.tries[mark] : 1;
  }
}

export const MARKS = [
  'kind',
  'block',
  'width',
  'spacing',
  'angle',
  'underlay',
  'split',
  'locks',
  'underRange',
  'group',
] as const;
export type Mark = (typeof MARKS)[number];

export interface Scored {
  tally: Tally;
  failures: string[];
}

/** Overlap of two stitch ranges by the stitches that are judged: locks and hidden travel between parts belong to either or none. */
function overlap(a: StitchRange, b: StitchRange, judged: Int32Array): number {
  const size = (first: number, last: number) => (last < first ? 0 : judged[last + 1] - judged[first]);
  const both = size(Math.max(a[0], b[0]), Math.min(a[1], b[1]));
  const union = size(a[0], a[1]) + size(b[0], b[1]) - both;
  return union > 0 ? both / union : 0;
}

const text = (o: { kind: string; range: StitchRange }) => `${o.kind} ${o.range[0]}-${o.range[1]}`;
const number = (v: number | null) => (v === null ? 'null' : v.toFixed(3));

/** Judges what was found in a generated design. Every failure is one line that says what was true and what was found. */
export function score(c: Case, found: Found): Scored {
  const tally = new Tally();
  const failures: string[] = [];
  const fail = (line: string) => failures.push(`${c.family} #${c.seed}: ${line}`);
  const judged = new Int32Array(c.role.length + 1);
  for (let i = 0; i < c.role.length; i++)
    judged[i + 1] = judged[i] + (c.role[i] === 'lock' || c.role[i] === 'travel' ? 0 : 1);
  tally.designs = 1;
  tally.truth = c.objects.length;
  tally.found = found.objects.length;
  const pairs: { t: number; f: number; iou: number }[] = [];
  c.objects.forEach((t, i) => {
    found.objects.forEach((f, j) => {
      const iou = overlap(t.range, f.range, judged);
      if (iou >= LIMITS.iou) pairs.push({ t: i, f: j, iou });
    });
  });
  pairs.sort((a, b) => b.iou - a.iou);
  const ofTruth = new Map<number, number>();
  const taken = new Set<number>();
  for (const p of pairs)
    if (!ofTruth.has(p.t) && !taken.has(p.f)) {
      ofTruth.set(p.t, p.f);
      taken.add(p.f);
    }
  tally.matched = ofTruth.size;
  c.objects.forEach((t, i) => {
    const j = ofTruth.get(i);
    if (j === undefined) {
      const near = found.objects
        .filter((f) => f.range[0] <= t.range[1] && f.range[1] >= t.range[0])
        .map(text);
      fail(`MISSED ${text(t)} [${t.note}]; found there: ${near.join(', ') || 'nothing'}`);
      return;
    }
    judge(t, found.objects[j], judged, tally, fail);
  });
  ties(c).forEach((tie, i) => {
    const [a, b] = [ofTruth.get(i), ofTruth.get(i + 1)];
    if (tie === 'open' || a === undefined || b === undefined) return;
    const together = found.objects[a].group === found.objects[b].group;
    tally.tries.group++;
    if (together === (tie === 'same')) tally.hits.group++;
    else
      fail(
        `GROUP of ${text(c.objects[i])} and ${text(c.objects[i + 1])}: ${tie} found ${together ? 'same' : 'apart'}`,
      );
  });
  found.objects.forEach((f, j) => {
    if (!taken.has(j)) fail(`EXTRA ${text(f)}`);
  });
  if (JSON.stringify(c.totals) === JSON.stringify(found.totals)) tally.totals = 1;
  else fail(`TOTALS ${JSON.stringify(c.totals)} found ${JSON.stringify(found.totals)}`);
  return { tally, failures };
}

function judge(
  t: TruthObject,
  f: FoundObject,
  judged: Int32Array,
  tally: Tally,
  fail: (line: string) => void,
): void {
  const mark = (m: Mark, ok: boolean, says: string) => {
    tally.tries[m]++;
    if (ok) tally.hits[m]++;
    else fail(`${m.toUpperCase()} of ${text(t)}: ${says} [${t.note}]`);
  };
  const close = (a: number | null, b: number | null, limit: number) =>
    a === null || b === null ? a === b : Math.abs(a - b) <= limit;
  mark('kind', t.kind === f.kind, `found ${f.kind}`);
  mark('block', t.block === f.block, `${t.block} found ${f.block}`);
  if (t.kind !== f.kind) return;
  if (t.kind === 'satin')
    mark(
      'width',
      close(t.widthMm, f.widthMm, LIMITS.widthMm),
      `${number(t.widthMm)} found ${number(f.widthMm)}`,
    );
  if (t.kind !== 'run') {
    mark(
      'spacing',
      close(t.spacingMm, f.spacingMm, LIMITS.spacingMm),
      `${number(t.spacingMm)} found ${number(f.spacingMm)}`,
    );
    if (!t.angleOpen) {
      const d = t.angleDeg === null || f.angleDeg === null ? null : Math.abs(t.angleDeg - f.angleDeg) % 180;
      const ok = d === null ? t.angleDeg === f.angleDeg : Math.min(d, 180 - d) <= LIMITS.angleDeg;
      mark('angle', ok, `${number(t.angleDeg)} found ${number(f.angleDeg)}`);
    }
  }
  const set = (kinds: readonly UnderlayKind[]) => [...new Set(kinds)].sort().join('+') || 'none';
  mark(
    'underlay',
    set(t.underlay.kinds) === set(f.underlay.kinds),
    `${set(t.underlay.kinds)} found ${set(f.underlay.kinds)}`,
  );
  const tr = t.underlay.range;
  const fr = f.underlay.range;
  const near = tr === null || fr === null ? tr === fr : overlap(tr, fr, judged) >= LIMITS.iou;
  mark('underRange', near, `${tr ?? 'none'} found ${fr ?? 'none'}`);
  mark('split', t.split === f.split, `${t.split} found ${f.split}`);
  mark(
    'locks',
    t.locks.start === f.locks.start && t.locks.end === f.locks.end,
    `${t.locks.start}/${t.locks.end} found ${f.locks.start}/${f.locks.end}`,
  );
}
