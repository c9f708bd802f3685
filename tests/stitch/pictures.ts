/**
 * The pictures of lib/stitch/README.md: what a description holds, over the thread that it was read from.
 *   npx tsx tests/stitch/pictures.ts    writes them again
 */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Stitches } from '../../lib/format/stitches.js';
import { element } from '../../lib/report/svg.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import { type Curve, curveAt } from '../../lib/stitch/curve.js';
import type { Place } from '../../lib/stitch/edge.js';
import { placeOnEdge, type Side } from '../../lib/stitch/edge-curves.js';
import { type EditableObject, type EditableSection, numbersIn } from '../../lib/stitch/editable.js';
import { readEditable } from '../../lib/stitch/read-editable.js';
import type { RowLattice } from '../../lib/stitch/row-lattice.js';
import { sewEditable } from '../../lib/stitch/sew-editable.js';
import { Board, rows } from '../segment/board.js';
import { readObjects, sampleDesign } from './objects-read.js';

const THREAD = '#b9b2a6';
const EDGE = '#b3402a';
const LINE = '#1f5f8b';
const NEEDLE = '#2b2b2b';
/** Pixels a millimeter, and white around the picture, mm. */
const SCALE = 24;
const MARGIN_MM = 1.2;

interface Picture {
  readonly name: string;
  readonly svg: string;
}

const f = (v: number) => `${Math.round(v * 100) / 100}`;

const pathOf = (places: readonly Place[]): string =>
  `M${places.map(([x, y]) => `${f(x)} ${f(-y)}`).join('L')}`;

const stroke = (places: readonly Place[], color: string, width: number): string =>
  element('path', {
    d: pathOf(places),
    fill: 'none',
    stroke: color,
    'stroke-width': width,
    'stroke-linejoin': 'round',
  });

const dot = ([x, y]: Place, color: string, radius: number): string =>
  element('circle', { cx: f(x), cy: f(-y), r: radius, fill: color });

/** Where arcs of a curve meet, its ends taken in. */
const joints = ({ from, arcs }: Curve): number[] => [from, ...arcs.map(({ to }) => to)];

function drawing(
  name: string,
  { x, y }: Stitches,
  { range: [first, last] }: StitchObject,
  editable: EditableObject,
): Picture {
  const needles = Array.from({ length: last - first + 1 }, (_, k): Place => [x[first + k], y[first + k]]);
  const sewn = sewEditable(editable);
  const parts: string[] = [stroke(needles, THREAD, 0.1)];
  for (const part of editable.parts)
    if (part.kind === 'section') parts.push(...sectionLines(part, editable.lattice));
  parts.push(...sewn.x.map((px, k) => dot([px, sewn.y[k]], NEEDLE, 0.055)));
  const xs = needles.map(([px]) => px);
  const ys = needles.map(([, py]) => -py);
  const [left, top] = [Math.min(...xs) - MARGIN_MM, Math.min(...ys) - MARGIN_MM];
  const width = Math.max(...xs) + MARGIN_MM - left;
  const height = Math.max(...ys) + MARGIN_MM - top;
  const title = `${needles.length} needle points from ${numbersIn(editable)} numbers`;
  const svg = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `${f(left)} ${f(top)} ${f(width)} ${f(height)}`,
      width: Math.round(width * SCALE),
      height: Math.round(height * SCALE),
      role: 'img',
    },
    {
      inner: [
        element('title', {}, { text: title }),
        element('rect', { x: f(left), y: f(top), width: f(width), height: f(height), fill: '#fff' }),
        ...parts,
      ].join('\n'),
    },
  );
  return { name, svg: `${svg}\n` };
}

/** Both edges, the center line where there is one, and what ends off the edges. */
function sectionLines({ edges, joined, rows, off }: EditableSection, lattice: RowLattice | null): string[] {
  const span = joined ? rows : rows - 1;
  const along = (at: (t: number) => Place) => Array.from({ length: 2 * span + 1 }, (_, k) => at(k / 2));
  const out = (['a', 'b'] as Side[]).map((side) =>
    stroke(
      along((t) => placeOnEdge(edges, lattice, side, t)),
      EDGE,
      0.09,
    ),
  );
  if (edges.form === 'center') {
    const { center } = edges;
    out.push(
      stroke(
        along((t) => curveAt(center, t) as Place),
        LINE,
        0.09,
      ),
    );
    out.push(...joints(center).map((t) => dot(curveAt(center, t) as Place, LINE, 0.16)));
  } else if (edges.form === 'edges') {
    for (const side of ['a', 'b'] as const)
      out.push(...joints(edges[side]).map((t) => dot(curveAt(edges[side], t) as Place, EDGE, 0.16)));
  } else {
    for (const side of ['a', 'b'] as const)
      out.push(...joints(edges[side]).map((t) => dot(placeOnEdge(edges, lattice, side, t), EDGE, 0.16)));
  }
  for (const side of ['a', 'b'] as const)
    out.push(...off[side].placed.map(({ place }) => dot(place, EDGE, 0.12)));
  return out;
}

/** Of the columns of a sample the one whose description takes the most numbers. */
function column(): Picture {
  const told = readObjects(sampleDesign('cap-front.dst')).flatMap(({ stitches, object, editable }) =>
    editable && object.kind === 'satin' ? [{ stitches, object, editable }] : [],
  );
  told.sort((p, q) => numbersIn(q.editable) - numbersIn(p.editable));
  const [{ stitches, object, editable }] = told;
  return drawing('stitch-column', stitches, object, editable);
}

/** An area with a round side. */
function area(): Picture {
  const board = new Board().sew(
    rows(0.8, 14.4, (y) => [2 * Math.sin(y / 5), 15 + 4 * Math.sqrt(Math.max(0, 1 - ((y - 7.2) / 8) ** 2))]),
  );
  const { stitches } = board;
  const [object] = findObjects(stitches);
  const { editable } = readEditable(stitches, object);
  if (editable === null) throw new Error('the area is told by no description');
  return drawing('stitch-area', stitches, object, editable);
}

export const pictures = (): Picture[] => [column(), area()];

export const pictureUrl = (name: string): URL =>
  new URL(`../../samples/pictures/${name}.svg`, import.meta.url);

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const { name, svg } of pictures()) writeFileSync(pictureUrl(name), svg);
}
