import type { ColumnUnderlay } from './underlay.js';

/** What a penetration was sewn for. */
export const Part = { lock: 0, travel: 1, underlay: 2, top: 3 } as const;
export type PartCode = (typeof Part)[keyof typeof Part];

export interface Spread {
  readonly min: number;
  readonly median: number;
  readonly max: number;
}

/** What the generator knows of one piece of top stitching while it sews it. */
export interface Plan {
  readonly label: string;
  readonly kind: 'satin' | 'fill' | 'run';
  readonly underlay: readonly (ColumnUnderlay | 'fill')[];
  /** Spacing of a zigzag's points on one rail, or of the rows of a light fill; null for runs alone. */
  readonly underlaySpacingMm: number | null;
  readonly widthMm: (Spread & { readonly p95: number }) | null;
  readonly spacingMm: Spread | null;
  readonly angleDeg: number | null;
  readonly split: boolean;
  /** Fill: sections and rows; run: how often it is sewn; satin: swings and those that stop short of a crowded inner rail. */
  readonly sections?: number;
  readonly rows?: number;
  readonly passes?: 'single' | 'double' | 'triple';
  readonly swings?: number;
  readonly shortened?: number;
}

/** The true outcome for one object: what a perfect reading of the file would say. Ranges hold both ends. */
export interface TrueObject extends Omit<Plan, 'underlay' | 'underlaySpacingMm'> {
  readonly id: number;
  readonly block: number;
  readonly group: number;
  readonly stitchRange: readonly [number, number];
  readonly stitches: number;
  readonly underlay: {
    readonly kinds: readonly string[];
    readonly stitchRange: readonly [number, number] | null;
    readonly stitches: number;
    readonly spacingMm: number | null;
  };
  readonly locks: { readonly start: boolean; readonly end: boolean };
}

const rounded = (n: number): number => Math.round(n * 1000) / 1000;

/** Quantile by the nearest rank of the sorted values (Hyndman & Fan's type 1). */
export function spreadOf(values: readonly number[]): Spread & { p95: number } {
  const sorted = [...values].sort((a, b) => a - b);
  const rank = (q: number): number => rounded(sorted[Math.max(0, Math.ceil(sorted.length * q) - 1)]);
  return { min: rank(0), median: rank(0.5), p95: rank(0.95), max: rank(1) };
}

/** Mean of axes (directions without a sense) by doubled angles, in [0, 180); null where they point every way alike. */
export function meanAxisDeg(dx: readonly number[], dy: readonly number[]): number | null {
  let c = 0;
  let s = 0;
  for (let i = 0; i < dx.length; i++) {
    const a = 2 * Math.atan2(dy[i], dx[i]);
    c += Math.cos(a);
    s += Math.sin(a);
  }
  if (Math.hypot(c, s) < dx.length * 0.1) return null;
  const deg = rounded(((Math.atan2(s, c) * 180) / Math.PI / 2 + 180) % 180);
  return deg >= 180 ? 0 : deg;
}
