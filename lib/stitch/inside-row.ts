/** Needle points inside rows: where a pattern puts them. */
import { degToRad } from '../core/units.js';
import type { EdgePoint } from './edge.js';
import type { Inside, OddRow } from './editable.js';

/** A row between its two edges, with its number in its section and the number by which patterns go (see `turnOf`). */
export interface RowSpan {
  readonly k: number;
  readonly turn: number;
  readonly a: EdgePoint;
  readonly b: EdgePoint;
}

/** mm. */
export const lengthOf = ({ a, b }: RowSpan): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/**
 * Where a pattern puts the needle inside a row, mm from edge A, ascending; an odd row as it is told.
 *
 * @param phasesMm of the section, where the pattern has none
 */
export function insideOf(
  inside: Inside,
  row: RowSpan,
  phasesMm: readonly (number | null)[] | null,
  odd?: OddRow,
): readonly number[] {
  if (odd && 'atMm' in odd) return odd.atMm;
  const length = lengthOf(row);
  switch (inside.kind) {
    case 'whole':
      return [];
    case 'even': {
      const parts = Math.max(1, Math.ceil(length / inside.stitchMm - 1e-6));
      return Array.from({ length: parts - 1 }, (_, n) => (length * (n + 1)) / parts);
    }
    case 'shares': {
      const turn = byTurns(inside.turns, row.turn);
      const broken = Math.ceil(length / inside.overMm - 1e-6) - 1;
      return (turn[broken - 1] ?? []).map((share) => share * length);
    }
    case 'staggered': {
      const { stitchMm, clearMm, driftMm } = inside;
      const { zero, per } = scaleOf(inside, row);
      const usual = phasesMm ? phasesMm[row.k] : byTurns(inside.phasesMm, row.turn) + driftMm * row.turn;
      const phase = odd?.phaseMm ?? usual;
      if (phase === null) return [];
      const [atA, atB] = odd?.clearMm ?? [clearMm, clearMm];
      const ends = [zero + per * atA, zero + per * (length - atB)].sort((p, q) => p - q);
      const out: number[] = [];
      for (let n = Math.ceil((ends[0] - phase) / stitchMm); phase + n * stitchMm <= ends[1]; n++) {
        out.push((phase + n * stitchMm - zero) / per);
      }
      return out.sort((p, q) => p - q);
    }
  }
}

export const turnIn = (turn: number, turns: number): number => ((turn % turns) + turns) % turns;
const byTurns = <T>(list: readonly T[], turn: number): T => list[turnIn(turn, list.length)];

/** The scale on which places in a row are told: where edge A is on it, and how far it goes for each mm along the row. */
export function scaleOf(
  { from, angleDeg }: Pick<Inside & { kind: 'staggered' }, 'from' | 'angleDeg'>,
  row: RowSpan,
): { zero: number; per: number } {
  const length = lengthOf(row) || 1;
  if (from === 'edge') return { zero: 0, per: 1 };
  if (from === 'begin') return row.k % 2 === 0 ? { zero: 0, per: 1 } : { zero: length, per: -1 };
  const [ux, uy] = [Math.cos(degToRad(angleDeg)), Math.sin(degToRad(angleDeg))];
  const { a, b } = row;
  const along = (b[0] - a[0]) * ux + (b[1] - a[1]) * uy;
  // a row that lies across the axis has no place on it
  return { zero: a[0] * ux + a[1] * uy, per: Math.abs(along) < 1e-3 * length ? 1 : along / length };
}
