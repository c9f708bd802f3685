/** Pictures that the project draws of its own work, for its papers. */
import { readFileSync, writeFileSync } from 'node:fs';
import { expect } from 'vitest';
import { element } from '../lib/report/svg.js';

export interface Picture {
  readonly name: string;
  readonly svg: string;
}

/** A place, mm, y upward. */
type Place = readonly [x: number, y: number];

/** A figure with two decimals at most. */
export const f = (v: number): string => `${Math.round(v * 100) / 100}`;

/** @param more attributes beside the usual ones */
export const line = (
  places: readonly Place[],
  color: string,
  width: number,
  more: Readonly<Record<string, string>> = {},
): string =>
  element('path', {
    d: `M${places.map(([x, y]) => `${f(x)} ${f(-y)}`).join('L')}`,
    fill: 'none',
    stroke: color,
    'stroke-width': width,
    'stroke-linejoin': 'round',
    ...more,
  });

export const dot = ([x, y]: Place, color: string, radius: number): string =>
  element('circle', { cx: f(x), cy: f(-y), r: radius, fill: color });

/**
 * A picture with some places in it, on white.
 *
 * @param scale pixels a millimeter
 * @param marginMm white around the places
 */
export function framed(
  name: string,
  title: string,
  places: readonly Place[],
  { scale, marginMm }: { scale: number; marginMm: number },
  marks: readonly string[],
): Picture {
  const xs = places.map(([x]) => x);
  const ys = places.map(([, y]) => -y);
  const [left, top] = [Math.min(...xs) - marginMm, Math.min(...ys) - marginMm];
  const width = Math.max(...xs) + marginMm - left;
  const height = Math.max(...ys) + marginMm - top;
  const box = { x: f(left), y: f(top), width: f(width), height: f(height), fill: '#fff' };
  const svg = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `${box.x} ${box.y} ${box.width} ${box.height}`,
      width: Math.round(width * scale),
      height: Math.round(height * scale),
      role: 'img',
    },
    { inner: [element('title', {}, { text: title }), element('rect', box), ...marks].join('\n') },
  );
  return { name, svg: `${svg}\n` };
}

const pictureUrl = (name: string): URL => new URL(`../samples/pictures/${name}.svg`, import.meta.url);

export function writePictures(pictures: readonly Picture[]): void {
  for (const { name, svg } of pictures) writeFileSync(pictureUrl(name), svg);
}

/** Holds pictures against what is kept of them, and a paper to showing them all. @param paper its way from the project's folder */
export function expectShown(pictures: readonly Picture[], paper: string): void {
  const shown = readFileSync(new URL(`../${paper}`, import.meta.url), 'utf8');
  for (const { name, svg } of pictures) {
    expect(readFileSync(pictureUrl(name), 'utf8')).toBe(svg);
    expect(shown).toContain(`../../samples/pictures/${name}.svg`);
  }
}
