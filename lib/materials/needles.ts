import { COMMON_PRACTICE, type Sourced } from '../core/sourced.js';
import { millimetre } from './quantity.js';

export interface Needle {
  readonly id: string;
  readonly name: string;
  /** Metric size, 100 × shaft in mm. */
  readonly nm: number;
  readonly point: 'sharp' | 'ball';
  /** Fabric it suits. */
  readonly use: string;
  readonly useBasis: string;
  readonly shaft: Sourced;
}

const needle = (nm: number, size: number, point: Needle['point'], use: string): Needle => ({
  id: `${nm}-${size}-${point}`,
  name: `${nm}/${size} ${point === 'ball' ? 'ball point' : 'sharp'}`,
  nm,
  point,
  use,
  useBasis: COMMON_PRACTICE,
  shaft: millimetre('metric needle size, NM = 100 × shaft in mm', nm / 100, nm / 100, nm / 100),
});

const list: readonly Needle[] = [
  needle(65, 9, 'ball', 'fine knits; small letters in 60-weight thread'),
  needle(65, 9, 'sharp', 'fine wovens; small letters in 60-weight thread'),
  needle(75, 11, 'ball', 'knits, most work'),
  needle(75, 11, 'sharp', 'wovens, most work'),
  needle(80, 12, 'sharp', 'caps and heavy wovens'),
  needle(90, 14, 'sharp', 'canvas and other heavy fabric'),
];

export const NEEDLES: Readonly<Record<string, Needle>> = Object.fromEntries(list.map((n) => [n.id, n]));
