/** Which findings the truth bears out. Where people set limits, those of the finding are taken; what is judged is what it says of the design. */
import { Break, penetrations, type Stitches } from '../../lib/format/stitches.js';
import type { StitchRange } from '../../lib/segment/objects.js';
import type { Case, TruthObject } from './pen.js';
import type { Tally } from './tally.js';

/** A finding as the vet report has it, as far as it is judged. */
export interface SaidFinding {
  code: string;
  severity: string;
  object: number | null;
  stitch: number | null;
  at: { x: number; y: number } | null;
  measured: number | string | null;
}

interface Place {
  c: Case;
  s: Stitches;
  /** The true object that it is about; null where it is about none or about what is none. */
  t: TruthObject | null;
  said: SaidFinding;
}

/** What a limit leaves to measuring: a figure this far on the right side of it is no falsehood. */
const SLACK = { widthMm: 0.1, spacingMm: 0.03, points: 1, perMm2: 0.5 } as const;

const isSatin = (t: TruthObject | null): t is TruthObject & { widthMm: number; spacingMm: number } =>
  t?.kind === 'satin' && t.widthMm !== null && t.spacingMm !== null;
const isFill = (t: TruthObject | null): t is TruthObject & { spacingMm: number } =>
  t?.kind === 'fill' && t.spacingMm !== null;
const isTop = (t: TruthObject) => t.purposes.includes('top');
/** Whether `purpose` is but one of several that are right. */
const has = (t: TruthObject, ...kinds: readonly string[]) =>
  t.pieces.length > 0 && t.underlay.kinds.some((k) => kinds.includes(k));

/** How wide a column is at its widest; by its longest stitches where a ruler finds no one edge. */
function widest(c: Case, s: Stitches, t: TruthObject & { widthMm: number }): number {
  if (!t.open.width) return t.wideMm ?? t.widthMm;
  const of = c.objects.indexOf(t);
  const long: number[] = [];
  for (let i = t.range[0] + 1; i <= t.range[1]; i++)
    if (c.owner[i] === of && c.role[i] === 'top') long.push(length(s, i));
  return long.sort((a, b) => a - b)[Math.ceil(0.95 * long.length) - 1] ?? 0;
}

/** Most points of those that are no lock stitches within a circle 0.3 mm across, near a place. */
function piled(c: Case, s: Stitches, at: { x: number; y: number }): number {
  const near: number[] = [];
  for (let i = 0; i < s.count; i++)
    if (c.role[i] !== 'lock' && Math.hypot(s.x[i] - at.x, s.y[i] - at.y) < 0.61) near.push(i);
  let most = 0;
  // A circle that holds most can be moved until two of its points lie on its rim, or one in its middle.
  const count = (x: number, y: number) =>
    near.filter((k) => Math.hypot(s.x[k] - x, s.y[k] - y) <= 0.15 + 1e-9).length;
  for (const i of near) {
    most = Math.max(most, count(s.x[i], s.y[i]));
    for (const j of near) {
      const d = Math.hypot(s.x[i] - s.x[j], s.y[i] - s.y[j]);
      if (j === i || d === 0 || d > 0.3) continue;
      const h = Math.sqrt(0.0225 - (d * d) / 4) / d;
      const [mx, my] = [(s.x[i] + s.x[j]) / 2, (s.y[i] + s.y[j]) / 2];
      most = Math.max(most, count(mx - (s.y[j] - s.y[i]) * h, my + (s.x[j] - s.x[i]) * h));
    }
  }
  return most;
}

/** True objects whose top stitching passes within 0.6 mm of a place. */
function layersAt(c: Case, s: Stitches, at: { x: number; y: number }): number {
  const over = new Set<number>();
  for (let i = 1; i < s.count; i++) {
    if (c.owner[i] < 0 || c.owner[i] !== c.owner[i - 1] || c.role[i] !== 'top' || c.role[i - 1] !== 'top')
      continue;
    const [dx, dy] = [s.x[i] - s.x[i - 1], s.y[i] - s.y[i - 1]];
    const l2 = dx * dx + dy * dy || 1;
    const f = Math.max(0, Math.min(1, ((at.x - s.x[i - 1]) * dx + (at.y - s.y[i - 1]) * dy) / l2));
    if (Math.hypot(s.x[i - 1] + dx * f - at.x, s.y[i - 1] + dy * f - at.y) < 0.6) over.add(c.owner[i]);
  }
  return over.size;
}

/** Needle points a square millimetre of the densest square 2 mm wide about a place. */
function densest(s: Stitches, at: { x: number; y: number }): number {
  let most = 0;
  for (let ox = -1; ox <= 1; ox += 0.25)
    for (let oy = -1; oy <= 1; oy += 0.25) {
      let n = 0;
      for (let i = 0; i < s.count; i++)
        if (Math.abs(s.x[i] - at.x - ox) <= 1 && Math.abs(s.y[i] - at.y - oy) <= 1) n++;
      most = Math.max(most, n / 4);
    }
  return most;
}

const length = (s: Stitches, i: number) => (i > 0 ? Math.hypot(s.x[i] - s.x[i - 1], s.y[i] - s.y[i - 1]) : 0);

/** The stitches of a true object's own thread, its underlay where that leads straight up to it. */
function threadOf(c: Case, s: Stitches, t: TruthObject): StitchRange {
  const of = c.objects.indexOf(t);
  let [first, last] = t.range;
  const pieces = t.pieces.map((p) => c.underlays[p]).filter(({ serves }) => serves.length === 1);
  const beneath = (i: number) => pieces.some(({ range }) => i >= range[0] && i <= range[1]);
  // Locks and ways of what has no owner belong to what is sewn next.
  const leadsOn = (i: number) => c.owner[i] < 0 && (c.role[i] === 'lock' || c.role[i] === 'travel');
  const own = (i: number) => c.owner[i] === of || beneath(i) || leadsOn(i);
  const goesOn = (i: number) => i === 0 || s.breakBefore[i] < Break.trim;
  while (first > 0 && goesOn(first) && own(first - 1)) first--;
  while (last + 1 < c.owner.length && goesOn(last + 1) && c.owner[last + 1] === of) last++;
  return [first, last];
}

/** Ends of an object's thread that are cut and not locked. */
function openEnds(c: Case, s: Stitches, t: TruthObject): number {
  const [first, last] = threadOf(c, s, t);
  const cut = (i: number) => i >= s.count || s.breakBefore[i] >= Break.trim;
  // what is underlaid ahead may be locked there
  const tied = c.role[first] === 'lock';
  const start = !tied && (first === 0 || cut(first)) && (!t.locks.start || t.open.lockStart);
  const end = cut(last + 1) && (!t.locks.end || t.open.lockEnd);
  return (start ? 1 : 0) + (end ? 1 : 0);
}

/** Needle points a square millimetre of a fill, its area taken as thread times spacing. */
function perMm2(c: Case, s: Stitches, t: TruthObject & { spacingMm: number }): number {
  const of = c.objects.indexOf(t);
  let n = 0;
  let mm = 0;
  for (let i = t.range[0] + 1; i <= t.range[1]; i++)
    if (c.owner[i] === of && c.role[i] === 'top') {
      n++;
      mm += length(s, i);
    }
  return n / Math.max(1e-6, mm * t.spacingMm);
}

const RULES: Record<string, (p: Place) => boolean> = {
  'wide-satin-no-underlay': ({ t }) =>
    isSatin(t) &&
    isTop(t) &&
    !t.foam &&
    t.pieces.length === 0 &&
    !t.open.underlay &&
    t.widthMm > 2.5 - SLACK.widthMm,
  'wide-satin-heavy-underlay': ({ t }) =>
    isSatin(t) &&
    t.widthMm > 3 - SLACK.widthMm &&
    (t.open.zigzag === true || has(t, 'zigzag', 'double-zigzag')),
  'satin-too-wide': ({ c, s, t }) => isSatin(t) && !t.split && widest(c, s, t) > 7 - 2 * SLACK.widthMm,
  'satin-too-narrow': ({ t }) => isSatin(t) && isTop(t) && t.widthMm < 1 + SLACK.widthMm,
  'satin-too-dense': ({ t }) => isSatin(t) && !t.foam && t.spacingMm < 0.3 + SLACK.spacingMm,
  'satin-too-open': ({ t }) =>
    isSatin(t) && isTop(t) && t.purposes[0] === 'top' && t.spacingMm > 0.55 - SLACK.spacingMm,
  'fill-too-dense': ({ t }) => isFill(t) && t.spacingMm < 0.3 + SLACK.spacingMm,
  'fill-too-open': ({ t }) => isFill(t) && t.purposes[0] === 'top' && t.spacingMm > 0.6 - SLACK.spacingMm,
  'fill-too-many-points': ({ c, s, t }) => isFill(t) && perMm2(c, s, t) > 4 - SLACK.perMm2,
  'missing-lock': ({ c, s, t }) => t !== null && openEnds(c, s, t) > 0,
  'needle-points-piled': ({ c, s, said }) => said.at !== null && piled(c, s, said.at) > 5 - SLACK.points,
  'layers-stacked': ({ c, s, said }) => said.at !== null && layersAt(c, s, said.at) > 3,
  'dense-place': ({ s, said }) => said.at !== null && densest(s, said.at) > 10 - SLACK.perMm2,
  'stitch-too-short': ({ c, s, said }) =>
    said.stitch !== null && length(s, said.stitch) < 0.5 && c.role[said.stitch] !== 'lock',
  'stitch-too-long': ({ s, said }) => said.stitch !== null && length(s, said.stitch) > 7 - SLACK.widthMm,
  'jump-not-trimmed': ({ s, said }) =>
    said.stitch !== null &&
    (s.breakBefore[said.stitch] === Break.jump || s.breakBefore[said.stitch] === Break.stop) &&
    length(s, said.stitch) > 5 - SLACK.widthMm,
  'no-trims': ({ c }) => c.totals.trims === 0,
  'lettering-too-small': ({ c }) => c.capMm !== null && c.capMm < 5.1,
};

/** Foam has a finding of its own, whatever it is called. */
const ruleOf = (code: string) =>
  RULES[code] ?? (code.includes('foam') ? ({ t }: Place) => t?.foam === true : undefined);

/** What is true of an object and ought to be said: what the shop would miss. */
const OUGHT: Record<string, (c: Case, s: Stitches, t: TruthObject) => boolean> = {
  'wide-satin-no-underlay': (_, __, t) =>
    isSatin(t) &&
    t.purposes[0] === 'top' &&
    !t.foam &&
    t.pieces.length === 0 &&
    !t.open.underlay &&
    t.widthMm > 2.5 + SLACK.widthMm,
  'wide-satin-heavy-underlay': (_, __, t) =>
    isSatin(t) &&
    t.purposes[0] === 'top' &&
    !t.open.underlay &&
    t.widthMm > 3 + SLACK.widthMm &&
    has(t, 'zigzag', 'double-zigzag') &&
    t.pieces.length === 1,
  'missing-lock': (c, s, t) => openEnds(c, s, t) > 0 && !t.open.lockStart && !t.open.lockEnd,
};

/** The true object that most of a found one's stitches belong to; null where most belong to none. */
function ownerOf(c: Case, range: StitchRange): TruthObject | null {
  const votes = new Map<number, number>();
  for (let i = range[0]; i <= range[1]; i++) {
    const of = c.role[i] === 'top' ? c.owner[i] : -1;
    votes.set(of, (votes.get(of) ?? 0) + 1);
  }
  const [of] = [...votes].sort((a, b) => b[1] - a[1])[0] ?? [-1];
  return of >= 0 ? c.objects[of] : null;
}

/** Judges every finding of a design, and counts those that ought to have been said of an object. */
export function judgeFindings(
  c: Case,
  found: readonly { id?: number; range: StitchRange }[],
  taken: ReadonlyMap<number, number>,
  findings: readonly SaidFinding[],
  tally: Tally,
  fail: (line: string) => void,
): void {
  const s = penetrations(c.design);
  const about = new Map<string, Set<TruthObject>>();
  for (const said of findings) {
    const count = tally.code(said.code);
    count.said++;
    const rule = ruleOf(said.code);
    if (!rule) {
      count.unjudged++;
      continue;
    }
    const j = found.findIndex((f) => f.id !== undefined && f.id === said.object);
    const matched = taken.get(j);
    const t = matched !== undefined ? c.objects[matched] : j >= 0 ? ownerOf(c, found[j].range) : null;
    if (t) about.set(said.code, (about.get(said.code) ?? new Set()).add(t));
    if (rule({ c, s, t, said })) continue;
    count.false++;
    fail(
      `FALSE ${said.code} (${said.measured}) of ${t ? `${t.kind} ${t.range.join('-')} [${t.note}]` : 'what is no object'}`,
    );
  }
  for (const [code, ought] of Object.entries(OUGHT))
    for (const t of c.objects)
      if (!about.get(code)?.has(t) && ought(c, s, t)) {
        tally.code(code).missed++;
        fail(`UNSAID ${code} of ${t.kind} ${t.range.join('-')} [${t.note}]`);
      }
}
