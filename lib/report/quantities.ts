import { mmToInch } from '../core/units.js';

export type Units = 'mm' | 'in';

/** A length for people: `4.20 mm`, or `0.165 in`. */
export function length(mm: number, units: Units): string {
  return `${bareLength(mm, units)} ${units}`;
}

/** The same without the unit, for table columns that name it in their heading. */
export function bareLength(mm: number, units: Units): string {
  return units === 'mm' ? fixed(mm, 2) : fixed(mmToInch(mm), 3);
}

/** A size in both systems: `86.2 x 41.0 mm (3.39 x 1.61 in)`, the asked-for system first. */
export function size(widthMm: number, heightMm: number, units: Units): string {
  const metric = `${fixed(widthMm, 1)} x ${fixed(heightMm, 1)} mm`;
  const imperial = `${fixed(mmToInch(widthMm), 2)} x ${fixed(mmToInch(heightMm), 2)} in`;
  return units === 'mm' ? `${metric} (${imperial})` : `${imperial} (${metric})`;
}

/** A place on the design, from its origin: `12.3, -4.0`. */
export function place(x: number, y: number, units: Units): string {
  const digits = units === 'mm' ? 1 : 2;
  const [a, b] = units === 'mm' ? [x, y] : [mmToInch(x), mmToInch(y)];
  return `${fixed(a, digits)}, ${fixed(b, digits)}`;
}

/** Thread length in both systems: `61.2 m (66.9 yd)`; a yard is 36 inches. */
export function threadLength(mm: number, units: Units): string {
  const metric = `${fixed(mm / 1000, 1)} m`;
  const yards = `${fixed(mmToInch(mm) / 36, 1)} yd`;
  return units === 'mm' ? `${metric} (${yards})` : `${yards} (${metric})`;
}

/** The same without its unit, `6.43`, for a column headed with {@link threadUnit}. */
export const bareThread = (mm: number, units: Units): string =>
  fixed(units === 'mm' ? mm / 1000 : mmToInch(mm) / 36, 2);

export const threadUnit = (units: Units): string => (units === 'mm' ? 'm' : 'yd');

/** A time to plan with: `40 s`, `18 min`, `1 h 05 min`. */
export function duration(seconds: number): string {
  if (seconds < 90) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} min`;
}

/** A count with thousands set apart: `12,345`. */
export function count(n: number): string {
  return String(Math.round(n)).replace(/\B(?=(\d{3})+$)/g, ',');
}

/** `1 trim`, `3 trims`. */
export function counted(n: number, one: string, many = `${one}s`): string {
  return `${count(n)} ${n === 1 ? one : many}`;
}

/** Fixed digits without a negative zero. */
export function fixed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** A text that begins a line or sentence. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
