import { Break, penetrations } from '../../lib/format/stitches.js';
import type { Case } from './pen.js';

const COLOURS = [
  '#c0392b',
  '#2471a3',
  '#1e8449',
  '#b7950b',
  '#7d3c98',
  '#d35400',
  '#117a65',
  '#34495e',
  '#c71585',
  '#556b2f',
];

/** A plain picture of a generated design: each object's top stitching in its own colour, underlay and travel grey, locks black. */
export function drawCase(c: Case, pixelsPerMm = 14): string {
  const s = penetrations(c.design);
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < s.count; i++) {
    minX = Math.min(minX, s.x[i]);
    maxX = Math.max(maxX, s.x[i]);
    minY = Math.min(minY, s.y[i]);
    maxY = Math.max(maxY, s.y[i]);
  }
  const w = maxX - minX + 4;
  const h = maxY - minY + 4;
  const scale = Math.min(pixelsPerMm, 1600 / Math.max(w, h));
  const at = (i: number) => `${(s.x[i] - minX + 2).toFixed(2)} ${(maxY - s.y[i] + 2).toFixed(2)}`;
  const parts: string[] = [];
  for (let i = 1; i < s.count; i++) {
    const role = c.role[i];
    const joined = s.breakBefore[i] <= Break.jump;
    const tone =
      role === 'top'
        ? COLOURS[c.owner[i] % COLOURS.length]
        : role === 'underlay'
          ? '#888'
          : role === 'travel'
            ? '#00a0c0'
            : '#000';
    const own = c.owner[i] === c.owner[i - 1];
    if (joined)
      parts.push(
        `<path d="M${at(i - 1)}L${at(i)}" stroke="${own ? tone : '#f0f'}" stroke-width="${role === 'top' ? 0.1 : 0.16}" fill="none"/>`,
      );
  }
  for (let i = 0; i < s.count; i++) {
    const [x, y] = at(i).split(' ');
    parts.push(
      `<circle cx="${x}" cy="${y}" r="0.09" fill="${c.role[i] === 'lock' ? '#000' : c.role[i] === 'underlay' ? '#555' : '#333'}"/>`,
    );
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w.toFixed(1)} ${h.toFixed(1)}" width="${Math.round(w * scale)}" height="${Math.round(h * scale)}"><rect width="100%" height="100%" fill="#fff"/>${parts.join('')}</svg>`;
}
