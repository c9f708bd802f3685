/** Predicted wrinkles as fabric that light from the side falls on. */
import type { RiskMaps } from '../../mechanics/risk.js';

/** Light and shade on a grid over the design. */
export interface Relief {
  readonly columns: number;
  readonly rows: number;
  readonly cellMm: number;
  /** Of the middle of the first cell, mm. */
  readonly x0: number;
  readonly y0: number;
  /** Row by row from the lower left; above zero lit, below in shade, 0 where the fabric lies flat. */
  readonly shade: Float32Array;
}

/** Finest grid, mm. */
const CELL_MM = 0.5;
/** A crest fades out over so many wavelengths to either side. */
const REACH = 1.1;
/** Crests that are laid over each square of one wavelength. */
const CRESTS = 3;
/** The light stands so high over the fabric, degrees, and comes from the left. */
const LIGHT_HIGH_DEG = 22;
/** Shade at its deepest. */
const MOST = 0.5;

/** A number in [0, 1) that hangs on a cell alone (the finalizer of MurmurHash3, public domain). */
function chance(cell: number, which: number): number {
  let h = (cell * 8 + which) | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 2 ** 32;
}

/**
 * A surface of short crests, each of the height, wavelength and direction that the model predicts where it stands, and how light from the side
 * falls on it. Where the crests lie is by chance, the same for the same maps: the model tells how high and how wide they are, not where each is.
 */
export function reliefOf({ grid, wrinkleMm, wavelengthMm, acrossDeg }: RiskMaps): Relief {
  const fine = Math.max(1, Math.round(grid.cellMm / CELL_MM));
  const cellMm = grid.cellMm / fine;
  const columns = grid.nx * fine;
  const rows = grid.ny * fine;
  const surface = new Float32Array(columns * rows);
  for (let cell = 0; cell < wrinkleMm.length; cell++) {
    const high = wrinkleMm[cell];
    const wave = wavelengthMm[cell];
    if (!(high > 0 && wave > 0)) continue;
    const expected = CRESTS * (grid.cellMm / wave) ** 2;
    const crests = Math.floor(expected + chance(cell, 0));
    for (let k = 0; k < crests; k++)
      addCrest(surface, columns, rows, cellMm, {
        x: ((cell % grid.nx) + chance(cell, 2 + 3 * k)) * grid.cellMm,
        y: (Math.floor(cell / grid.nx) + chance(cell, 3 + 3 * k)) * grid.cellMm,
        high,
        wave,
        across: (acrossDeg[cell] * Math.PI) / 180,
        phase: 2 * Math.PI * chance(cell, 4 + 3 * k),
      });
  }
  const shade = new Float32Array(columns * rows);
  const flat = Math.sin((LIGHT_HIGH_DEG * Math.PI) / 180);
  const level = Math.cos((LIGHT_HIGH_DEG * Math.PI) / 180);
  for (let row = 1; row + 1 < rows; row++)
    for (let column = 1; column + 1 < columns; column++) {
      const at = row * columns + column;
      const slopeX = (surface[at + 1] - surface[at - 1]) / (2 * cellMm);
      const slopeY = (surface[at + columns] - surface[at - columns]) / (2 * cellMm);
      const lit = (flat + level * slopeX) / Math.sqrt(1 + slopeX * slopeX + slopeY * slopeY);
      shade[at] = MOST * Math.tanh((lit / flat - 1) / MOST);
    }
  return { columns, rows, cellMm, x0: grid.x0 + cellMm / 2, y0: grid.y0 + cellMm / 2, shade };
}

interface Crest {
  readonly x: number;
  readonly y: number;
  /** Peak to valley, mm. */
  readonly high: number;
  readonly wave: number;
  readonly across: number;
  readonly phase: number;
}

/** Adds a wave that fades out about its middle; crests of chance phases add up to about their own height where {@link CRESTS} overlap. */
function addCrest(
  surface: Float32Array,
  columns: number,
  rows: number,
  cellMm: number,
  { x, y, high, wave, across, phase }: Crest,
): void {
  const reach = REACH * wave;
  const from = Math.max(0, Math.floor((x - reach) / cellMm));
  const to = Math.min(columns - 1, Math.ceil((x + reach) / cellMm));
  const last = Math.min(rows - 1, Math.ceil((y + reach) / cellMm));
  const amplitude = high / 2 / Math.sqrt(CRESTS / 2);
  for (let row = Math.max(0, Math.floor((y - reach) / cellMm)); row <= last; row++)
    for (let column = from; column <= to; column++) {
      const dx = (column + 0.5) * cellMm - x;
      const dy = (row + 0.5) * cellMm - y;
      const off = (dx * dx + dy * dy) / (reach * reach);
      if (off >= 1) continue;
      const along = (dx * Math.cos(across) + dy * Math.sin(across)) / wave;
      surface[row * columns + column] += amplitude * (1 - off) ** 2 * Math.cos(2 * Math.PI * along + phase);
    }
}

/** Shade at a place of the design, mm, between the middles of cells; 0 outside. */
export function shadeAt({ columns, rows, cellMm, x0, y0, shade }: Relief, x: number, y: number): number {
  const i = (x - x0) / cellMm;
  const j = (y - y0) / cellMm;
  const column = Math.floor(i);
  const row = Math.floor(j);
  if (column < 0 || row < 0 || column + 1 >= columns || row + 1 >= rows) return 0;
  const at = row * columns + column;
  const u = i - column;
  const v = j - row;
  return (
    (1 - v) * ((1 - u) * shade[at] + u * shade[at + 1]) +
    v * ((1 - u) * shade[at + columns] + u * shade[at + columns + 1])
  );
}
