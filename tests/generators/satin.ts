import type { UnderlayKind } from '../../lib/segment/objects.js';
import { type Column, columnTop, type SplitStyle, type TopStyle } from './column.js';
import { centreRun, edgeRun, lightFill, type Pass, type RowsLie, zigzag } from './column-underlay.js';
import { type Draft, needles } from './draft.js';
import type { Random } from './random.js';

/** How a satin column is sewn, top and underlay. */
export interface SatinStyle {
  top: TopStyle;
  underlay: readonly UnderlayKind[];
  inset: number;
  /** Same-rail spacing of a zigzag underlay. */
  zigzagSpacing: number;
  rowsLie: RowsLie;
  rowsApart: number;
  rowsStitch: number;
  /** A center run goes out only, or there and back. */
  thereAndBack: boolean;
  /** The top begins where the underlay began, even if the needle stands at the other end: one long move back. */
  restart: boolean;
}

export const NO_UNDERLAY: readonly UnderlayKind[] = [];

/** Underlays that a digitizer would lay under a column of this width, and that can be told apart there. */
export function underlaysFor(width: number, straight: boolean): (readonly UnderlayKind[])[] {
  const out: (readonly UnderlayKind[])[] = [NO_UNDERLAY, ['center-run']];
  if (width >= 2.4)
    out.push(
      ['zigzag'],
      ['edge-run'],
      ['double-zigzag'],
      ['center-run', 'zigzag'],
      ['edge-run', 'zigzag'],
      ['edge-run', 'double-zigzag'],
      ['center-run', 'edge-run'],
    );
  if (width >= 5.2 && straight) out.push(['fill'], ['fill'], ['edge-run', 'fill']);
  return out;
}

export function randomTop(width: number, random: Random): TopStyle {
  return {
    spacing: random.range(0.3, 0.6),
    zag: random.chance(0.6) ? 'symmetric' : 'square',
    comp: random.chance(0.6) ? random.range(0, Math.min(0.3, width * 0.1)) : 0,
    split: null,
    short: 0,
    overlap: random.chance(0.5) ? random.range(0.3, 1.2) : 0,
  };
}

export function randomSatin(width: number, underlay: readonly UnderlayKind[], random: Random): SatinStyle {
  const top = randomTop(width, random);
  const inset = Math.min(random.range(0.3, 1), width * 0.26);
  // Rows along the column need company: with an edge run on the outer two, three others must be left to be seen as rows.
  const alongShows = width - 2 * inset >= (underlay.includes('edge-run') ? 8.4 : 6.2);
  return {
    top,
    underlay,
    inset: underlay.includes('fill') ? Math.min(inset, 0.7) : inset,
    zigzagSpacing: random.range(Math.max(1.5, top.spacing * 3), 4),
    rowsLie: random.pick(alongShows ? ['across', 'along', 'diagonal'] : ['across', 'diagonal']),
    rowsApart: random.range(2, Math.min(4, Math.max(2.2, (width - 1.2) / 1.5))),
    rowsStitch: random.range(1.8, Math.min(3, Math.max(1.9, (width - 1.4) / 2))),
    thereAndBack: random.chance(0.4),
    restart: random.chance(0.12),
  };
}

/** Swings broken at halves or thirds, at the same places or staggered, so that no piece is shorter than 3 mm. */
export function randomSplit(width: number, random: Random): SplitStyle {
  const thirds = width > 10.5 && random.chance(0.6);
  const staggered = random.chance(0.5);
  const over = Math.min(5.5, width * 0.75);
  const loose = random.chance(0.4) ? 0.04 : 0;
  if (thirds)
    return staggered
      ? { even: [0.28, 0.6], odd: [0.4, 0.72], over, loose }
      : { even: [1 / 3, 2 / 3], odd: [1 / 3, 2 / 3], over, loose };
  return staggered ? { even: [0.43], odd: [0.57], over, loose } : { even: [0.5], odd: [0.5], over, loose };
}

/** Lays the passes of an underlay from one end, each from where the one before left the needle. */
export function layUnderlay(column: Column, style: SatinStyle, from: 0 | 1, random: Random): Pass[] {
  const passes: Pass[] = [];
  let end = from;
  for (const kind of style.underlay) {
    const pass =
      kind === 'center-run'
        ? centreRun(column, end, style.thereAndBack ? 'there-and-back' : 'out', random)
        : kind === 'edge-run'
          ? edgeRun(column, end, style.inset, random)
          : kind === 'fill'
            ? lightFill(column, end, style.inset, style.rowsLie, style.rowsApart, style.rowsStitch, random)
            : zigzag(column, end, style.inset, kind === 'double-zigzag', style.zigzagSpacing, random);
    passes.push(pass);
    end = pass.end;
  }
  return passes;
}

export interface Sewn {
  draft: Draft;
  /** The end of the column where the needle stands after it. */
  exit: 0 | 1;
}

/** A column with its underlay, entered at one end; `before`: passes already sewn there, such as travel along the middle. */
export function sewColumn(
  column: Column,
  style: SatinStyle,
  from: 0 | 1,
  random: Random,
  note: string,
  before: readonly Pass[] = [],
): Sewn {
  const start = before.length > 0 ? before[before.length - 1].end : from;
  const passes = [...before, ...layUnderlay(column, style, start, random)];
  const last = passes.length > 0 ? passes[passes.length - 1].end : from;
  const enter = style.restart && before.length === 0 ? from : last;
  const t = style.top;
  const draft = columnTop(
    column,
    t,
    enter === 1,
    random.sign(),
    random,
    `${note}${enter === last ? '' : ' restarted'}; spacing ${t.spacing.toFixed(2)} ${t.zag}${t.comp ? ` comp ${t.comp.toFixed(2)}` : ''}${t.split ? ` split ${t.split.even.map((f) => f.toFixed(2))}/${t.split.odd.map((f) => f.toFixed(2))}` : ''}${t.short ? ' short stitches' : ''}; underlay ${passes.map((p) => p.kind).join('+') || 'none'}${style.underlay.includes('fill') ? ` rows ${style.rowsLie} ${style.rowsApart.toFixed(1)}` : ''}${passes.some((p) => p.kind.endsWith('zigzag')) ? ` zz ${style.zigzagSpacing.toFixed(1)}` : ''} inset ${style.inset.toFixed(2)}`,
  );
  draft.underlay = passes.map((p) => p.kind);
  draft.needles.unshift(...passes.flatMap((p) => needles(p.points, 'underlay')));
  return { draft, exit: column.centre.closed ? enter : ((1 - enter) as 0 | 1) };
}
