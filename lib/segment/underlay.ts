/** Which underlay a top has: what its own thread laid beneath it, and what it shares with others. */
import { Break, type Stitches, threadMm } from '../format/stitches.js';
import { readColumnUnderlay, type UnderlayReading } from './column-underlay.js';
import { readFillUnderlay } from './fill-underlay.js';
import type { StitchRange, Underlay, UnderlayPiece } from './objects.js';
import { NO_UNDERLAY } from './objects.js';
import { FINDER } from './parameters.js';
import { ColumnRegion, type FillRegion } from './region.js';
import type { Top, UnderPart } from './tops.js';

type SharedPiece = Omit<UnderlayPiece, 'id'> & {
  stitches: number;
  spacingMm: number | null;
  shared: boolean;
};

/** The underlay of one top; numbers of pieces are still to be given. */
export function readUnderlay(stitches: Stitches, top: Top): Underlay {
  const under = partsUnder(stitches, top);
  if (under.length === 0) return NO_UNDERLAY;
  const pieces = readPieces(stitches, top, under);
  if (pieces.length === 0) return NO_UNDERLAY;
  const own = pieces.filter(({ shared }) => !shared);
  const main = own.length > 0 ? own : [pieces[pieces.length - 1]];
  const range = [Math.min(...main.map((p) => p.range[0])), Math.max(...main.map((p) => p.range[1]))] as const;
  return {
    id: null,
    kinds: [...new Set(main.flatMap((p) => p.kinds))],
    range,
    stitches: main.reduce((n, p) => n + p.stitches, 0),
    spacingMm: main.find((p) => p.spacingMm !== null)?.spacingMm ?? null,
    also: pieces.filter((p) => !main.includes(p)).map(({ kinds, range }) => ({ id: 0, kinds, range })),
  };
}

/** What lies beneath a top; over foam the way from the cap of one end to that of the other is none of it. */
function partsUnder(stitches: Stitches, { under, region, capped }: Top): readonly UnderPart[] {
  if (capped === 0 || !(region instanceof ColumnRegion)) return under;
  return under.filter((part) => !goesOnce(stitches, region, [part]));
}

/** Reads the stretches that follow each other closely as one piece each; those that show nothing by themselves together. */
function readPieces(stitches: Stitches, top: Top, under: readonly UnderPart[]): SharedPiece[] {
  const clusters = cluster(under);
  const pieces: SharedPiece[] = [];
  const rest: UnderPart[] = [];
  for (const parts of clusters) {
    const piece = parts[0].shared ? readShared(parts) : readPiece(stitches, top, parts);
    if (piece) {
      // two that both took in the thread around them are one
      if (!pieces.some((p) => p.shared === piece.shared && meet(p.range, piece.range))) pieces.push(piece);
    } else if (!parts[0].shared) rest.push(...parts);
  }
  const shared = pieces.filter((p) => p.shared);
  const beside = rest.filter(
    (part) => !shared.some(({ range }) => part.first >= range[0] && part.last <= range[1]),
  );
  const joint = beside.length > 0 ? asPiece(readOwn(stitches, top, beside), beside) : null;
  const told = joint ?? (pieces.length === 0 ? readUnknown(stitches, top, beside) : null);
  return (told ? [...pieces, told] : pieces).sort((a, b) => a.range[0] - b.range[0]);
}

/** Much thread beneath a column that shows no kind lies there to hold the fabric all the same: a light fill of few rows, most likely. */
function readUnknown(stitches: Stitches, { region }: Top, parts: readonly UnderPart[]): SharedPiece | null {
  if (parts.length === 0 || !(region instanceof ColumnRegion) || goesOnce(stitches, region, parts))
    return null;
  return asPiece({ kinds: ['fill'], spacingMm: null }, parts);
}

/** Whether thread goes along a column no more than once, as it does on its way to the other end. */
function goesOnce(stitches: Stitches, { frame }: ColumnRegion, parts: readonly UnderPart[]): boolean {
  const mm = parts.reduce((sum, { first, last }) => sum + threadMm(stitches, first, last), 0);
  return mm < FINDER.unknownThread.value * frame.lengthMm;
}

const meet = (a: StitchRange, b: StitchRange): boolean => a[0] <= b[1] && b[0] <= a[1];

function cluster(parts: readonly UnderPart[]): UnderPart[][] {
  const clusters: UnderPart[][] = [];
  let last: UnderPart | null = null;
  for (const part of [...parts].sort((a, b) => a.first - b.first)) {
    const joins =
      last !== null && part.first - last.last <= FINDER.pieceGap.value && part.shared === last.shared;
    if (joins) clusters[clusters.length - 1].push(part);
    else clusters.push([part]);
    last = part;
  }
  return clusters;
}

/** What many objects lie on is read by itself: whose it is does not change it. */
function readShared(parts: readonly UnderPart[]): SharedPiece | null {
  const patches = parts.flatMap(({ patch }) => patch ?? []);
  if (patches.length === 0) return null;
  const patch = patches.reduce((a, b) => (b.from.length > a.from.length ? b : a));
  const rows = patch.kind === 'rows';
  return asPiece(
    { kinds: [rows ? 'fill' : 'zigzag'], spacingMm: rows ? patch.pitchMm : 2 * patch.pitchMm },
    parts,
  );
}

/** A piece by itself or, where that shows nothing, with the thread around it that lies beneath a neighbor as well. */
function readPiece(stitches: Stitches, top: Top, parts: readonly UnderPart[]): SharedPiece | null {
  const alone = asPiece(readOwn(stitches, top, parts), parts);
  if (alone) return alone;
  const { x, y, breakBefore } = stitches;
  const inside = (i: number) => i >= 0 && top.region.contains(x[i], y[i]);
  let { first } = parts[0];
  let { last } = parts[parts.length - 1];
  while (breakBefore[first] === Break.none && inside(first - 1)) first--;
  while (last + 1 < top.first && breakBefore[last + 1] === Break.none && inside(last + 1)) last++;
  const wider = [{ first, last, patch: null, shared: false }];
  return asPiece(readOwn(stitches, top, wider), wider);
}

function readOwn(stitches: Stitches, top: Top, parts: readonly UnderPart[]): UnderlayReading {
  const { region } = top;
  return region instanceof ColumnRegion
    ? readColumnUnderlay(region.frame, stitches.x, stitches.y, indexesOf(stitches, region, parts))
    : readFillUnderlay(stitches, region as FillRegion, parts);
}

function asPiece({ kinds, spacingMm }: UnderlayReading, parts: readonly UnderPart[]): SharedPiece | null {
  if (kinds.length === 0) return null;
  return {
    kinds,
    spacingMm,
    range: [parts[0].first, parts[parts.length - 1].last],
    stitches: parts.reduce((n, p) => n + p.last - p.first + 1, 0),
    shared: parts[0].shared,
  };
}

/**
 * All stitch indexes of the parts in order, with -1 where one part does not follow the other. The stitches that lead
 * into a part and out of it belong to the underlay as far as they lie under the column.
 */
function indexesOf(
  { x, y, breakBefore }: Stitches,
  region: ColumnRegion,
  parts: readonly { first: number; last: number }[],
): number[] {
  const out: number[] = [];
  const inside = (i: number) => i >= 0 && i < x.length && region.contains(x[i], y[i]);
  for (const part of parts) {
    const before = out[out.length - 1] ?? -1;
    const leadsIn = breakBefore[part.first] === Break.none && inside(part.first - 1);
    const leadsOut = breakBefore[part.last + 1] === Break.none && inside(part.last + 1);
    const first = Math.max(before + 1, leadsIn ? part.first - 1 : part.first);
    const last = leadsOut ? part.last + 1 : part.last;
    if (out.length > 0 && first > before + 1) out.push(-1);
    for (let i = first; i <= last; i++) out.push(i);
  }
  return out;
}
