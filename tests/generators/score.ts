import type { ObjectKind, StitchRange, UnderlayKind } from '../../lib/segment/objects.js';
import type { Pattern, Purpose } from './draft.js';
import { judgeFindings, type SaidFinding } from './findings.js';
import { ties } from './grouping.js';
import type { Case, Totals, TruthObject } from './pen.js';
import { type Mark, Tally } from './tally.js';

export { MARKS, type Mark, Tally } from './tally.js';

/** What an object finder says of one object, as far as it is judged; what it does not say yet is not judged. */
export interface FoundObject {
  id?: number;
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
  purpose?: Purpose;
  pattern?: Pattern | null;
  passes?: number;
  confidence?: number;
}

/** One piece of underlay and the ids of the objects that it serves. */
export interface FoundUnderlay {
  kinds: readonly UnderlayKind[];
  range: StitchRange;
  serves: readonly number[];
}

export interface Found {
  objects: FoundObject[];
  underlays?: FoundUnderlay[];
  findings?: SaidFinding[];
  totals: Totals;
}

export const LIMITS = { iou: 0.8, widthMm: 0.1, spacingMm: 0.03, angleDeg: 3 } as const;

export interface Scored {
  tally: Tally;
  failures: string[];
}

/** Overlap of two stitch ranges by the stitches that are judged: locks and hidden travel between parts belong to either or none. */
function overlap(a: StitchRange, b: StitchRange, judged: Int32Array): number {
  const both = size([Math.max(a[0], b[0]), Math.min(a[1], b[1])], judged);
  const union = size(a, judged) + size(b, judged) - both;
  return union > 0 ? both / union : 0;
}

const size = ([first, last]: StitchRange, judged: Int32Array): number =>
  last < first ? 0 : judged[last + 1] - judged[first];

const text = (o: { kind: string; range: StitchRange }) => `${o.kind} ${o.range[0]}-${o.range[1]}`;
const number = (v: number | null) => (v === null ? 'null' : v.toFixed(3));

/** One to one, the greatest overlaps first: the object found for each that is true. */
function match(
  truth: readonly TruthObject[],
  found: readonly FoundObject[],
  judged: Int32Array,
): Map<number, number> {
  const pairs: { t: number; f: number; iou: number }[] = [];
  truth.forEach((t, i) => {
    found.forEach((f, j) => {
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
  return ofTruth;
}

/** Stitches that are judged up to each one. */
function judgedStitches(c: Case): Int32Array {
  const judged = new Int32Array(c.role.length + 1);
  for (let i = 0; i < c.role.length; i++) {
    const counts = c.role[i] === 'top' || c.role[i] === 'underlay';
    judged[i + 1] = judged[i] + (counts ? 1 : 0);
  }
  return judged;
}

/** Whether most of the stitches of a found object may be told in more than one way. */
function isOpen(c: Case, f: FoundObject): boolean {
  let open = 0;
  for (let i = f.range[0]; i <= f.range[1]; i++)
    if (c.role[i] === 'either' || (c.owner[i] >= 0 && c.objects[c.owner[i]].open.object)) open++;
  return open > (f.range[1] - f.range[0] + 1) / 2;
}

/** Judges what was found in a generated design. Every failure is one line that says what was true and what was found. */
export function score(c: Case, found: Found): Scored {
  const tally = new Tally();
  const failures: string[] = [];
  const fail = (line: string) => failures.push(`${c.family} #${c.seed}: ${line}`);
  const judged = judgedStitches(c);
  const ofTruth = match(c.objects, found.objects, judged);
  const taken = new Map([...ofTruth].map(([t, f]) => [f, t]));
  tally.designs = 1;
  tally.found = found.objects.length;
  tally.matched = ofTruth.size;
  const judge = new Judge(c, found, ofTruth, judged, tally, fail);
  c.objects.forEach((t, i) => {
    const j = ofTruth.get(i);
    if (j !== undefined || !t.open.object) tally.truth++;
    if (j !== undefined) judge.object(i, found.objects[j]);
    else if (!t.open.object) {
      const near = found.objects
        .filter((f) => f.range[0] <= t.range[1] && f.range[1] >= t.range[0])
        .map(text);
      fail(`MISSED ${text(t)} [${t.note}]; found there: ${near.join(', ') || 'nothing'}`);
    }
  });
  judge.groups();
  found.objects.forEach((f, j) => {
    const t = taken.get(j);
    const open = t === undefined && isOpen(c, f);
    if (open) tally.neutral++;
    else if (t === undefined) fail(`EXTRA ${text(f)}`);
    if (f.confidence !== undefined && !open)
      tally.sure.push({ confidence: f.confidence, right: t !== undefined && isRight(c.objects[t], f) });
  });
  if (found.findings) judgeFindings(c, found.objects, taken, found.findings, tally, fail);
  if (JSON.stringify(c.totals) === JSON.stringify(found.totals)) tally.totals = 1;
  else fail(`TOTALS ${JSON.stringify(c.totals)} found ${JSON.stringify(found.totals)}`);
  return { tally, failures };
}

const kindFits = (t: TruthObject, f: FoundObject) => t.kind === f.kind || t.alsoKinds.includes(f.kind);

/** An object is right where its stitches, its kind, its purpose and whether it lies on underlay are. */
function isRight(t: TruthObject, f: FoundObject): boolean {
  const purpose = f.purpose === undefined || t.purposes.includes(f.purpose);
  const bare = (t.pieces.length === 0) === (f.underlay.kinds.length === 0);
  return kindFits(t, f) && purpose && (bare || t.open.underlay === true);
}

const setOf = (kinds: readonly UnderlayKind[]) => [...new Set(kinds)].sort().join('+') || 'none';

const close = (a: number | null, b: number | null, limit: number) =>
  a === null || b === null ? a === b : Math.abs(a - b) <= limit;

class Judge {
  constructor(
    private readonly c: Case,
    private readonly found: Found,
    private readonly ofTruth: ReadonlyMap<number, number>,
    private readonly judged: Int32Array,
    private readonly tally: Tally,
    private readonly fail: (line: string) => void,
  ) {}

  private mark(m: Mark, t: TruthObject, ok: boolean, says: string): boolean {
    this.tally.mark(m, ok);
    if (!ok) this.fail(`${m.toUpperCase()} of ${text(t)}: ${says} [${t.note}]`);
    return ok;
  }

  object(i: number, f: FoundObject): void {
    const t = this.c.objects[i];
    this.mark('kind', t, kindFits(t, f), `found ${f.kind}`);
    this.mark('block', t, t.block === f.block, `${t.block} found ${f.block}`);
    if (f.purpose !== undefined)
      this.mark(
        'purpose',
        t,
        t.purposes.includes(f.purpose),
        `${t.purposes.join(' or ')} found ${f.purpose}`,
      );
    if (f.passes !== undefined)
      this.mark('passes', t, t.passes.includes(f.passes), `${t.passes.join(' or ')} found ${f.passes}`);
    if (t.kind !== f.kind) return;
    if (f.pattern !== undefined)
      this.mark(
        'pattern',
        t,
        t.patterns.includes(f.pattern),
        `${t.patterns.join(' or ')} found ${f.pattern}`,
      );
    this.measures(t, f);
    if (!t.open.underlay) this.underlay(t, f);
    if (!t.open.split) this.mark('split', t, t.split === f.split, `${t.split} found ${f.split}`);
    this.mark(
      'locks',
      t,
      (t.open.lockStart || t.locks.start === f.locks.start) &&
        (t.open.lockEnd || t.locks.end === f.locks.end),
      `${t.locks.start}/${t.locks.end} found ${f.locks.start}/${f.locks.end}`,
    );
  }

  private measures(t: TruthObject, f: FoundObject): void {
    if (t.kind === 'satin' && !t.open.width) {
      const says = `${number(t.widthMm)} found ${number(f.widthMm)}`;
      this.mark('width', t, close(t.widthMm, f.widthMm, LIMITS.widthMm), says);
      if (t.widthMm !== null && f.widthMm !== null)
        this.tally.widthErrors.push(Math.abs(t.widthMm - f.widthMm));
    }
    if (t.kind === 'run') return;
    if (!t.open.spacing) {
      const says = `${number(t.spacingMm)} found ${number(f.spacingMm)}`;
      this.mark('spacing', t, close(t.spacingMm, f.spacingMm, LIMITS.spacingMm), says);
      if (t.spacingMm !== null && f.spacingMm !== null)
        this.tally.spacingErrors.push(Math.abs(t.spacingMm - f.spacingMm));
    }
    if (t.angleOpen || t.open.angle) return;
    const d = t.angleDeg === null || f.angleDeg === null ? null : Math.abs(t.angleDeg - f.angleDeg) % 180;
    const ok = d === null ? t.angleDeg === f.angleDeg : Math.min(d, 180 - d) <= LIMITS.angleDeg;
    this.mark('angle', t, ok, `${number(t.angleDeg)} found ${number(f.angleDeg)}`);
  }

  /**
   * Kinds, range and what is served. Where several pieces lie under one object, its own kinds or all of them are right, and
   * the range of any.
   */
  private underlay(t: TruthObject, f: FoundObject): void {
    const pieces = t.pieces.map((p) => this.c.underlays[p]);
    const kinds = [
      setOf(t.underlay.kinds),
      setOf(pieces.flatMap((p) => p.kinds)),
      ...pieces.map((p) => setOf(p.kinds)),
    ];
    const said = setOf(f.underlay.kinds);
    const kindsOk = this.mark('underlay', t, kinds.includes(said), `${kinds[0]} found ${said}`);
    const fr = f.underlay.range;
    const near =
      fr === null ? pieces.length === 0 : pieces.some((p) => overlap(p.range, fr, this.judged) >= LIMITS.iou);
    const rangeOk = this.mark('underRange', t, near, `${t.underlay.range ?? 'none'} found ${fr ?? 'none'}`);
    const served = this.serves(t, f);
    if (served === null) {
      this.tally.mark('exact', kindsOk && rangeOk);
      return;
    }
    const servesOk = this.mark('serves', t, served.ok, served.says);
    this.tally.mark('exact', kindsOk && rangeOk && servesOk);
  }

  /** Whether the object is among those served by the pieces that lie under it, and by no other; null where none are told. */
  private serves(t: TruthObject, f: FoundObject): { ok: boolean; says: string } | null {
    const { underlays } = this.found;
    if (!underlays || f.id === undefined) return null;
    const told = underlays.filter((u) => u.serves.includes(f.id as number));
    const pieces = t.pieces.map((p) => this.c.underlays[p]);
    const fits = (p: { range: StitchRange }, u: FoundUnderlay) =>
      overlap(p.range, u.range, this.judged) >= LIMITS.iou;
    const right =
      told.every((u) => pieces.some((p) => fits(p, u))) && (pieces.length === 0 || told.length > 0);
    const shared = pieces.every((p) => {
      const u = told.find((v) => fits(p, v));
      if (!u) return pieces.length > 1;
      const ids = p.serves
        .map((k) => this.ofTruth.get(k))
        .map((j) => (j === undefined ? -1 : this.found.objects[j].id));
      // What was not found as an object cannot be served.
      const known = ids.filter((id) => id !== -1);
      return known.every((id) => u.serves.includes(id as number));
    });
    const list = (of: readonly { range: StitchRange }[]) =>
      of.map((p) => p.range.join('-')).join(', ') || 'none';
    return { ok: right && shared, says: `lies on ${list(pieces)} found ${list(told)}` };
  }

  groups(): void {
    ties(this.c).forEach((tie, i) => {
      const [a, b] = [this.ofTruth.get(i), this.ofTruth.get(i + 1)];
      if (tie === 'open' || a === undefined || b === undefined) return;
      const together = this.found.objects[a].group === this.found.objects[b].group;
      this.tally.mark('group', together === (tie === 'same'));
      if (together !== (tie === 'same'))
        this.fail(
          `GROUP of ${text(this.c.objects[i])} and ${text(this.c.objects[i + 1])}: ${tie} found ${together ? 'same' : 'apart'}`,
        );
    });
  }
}
