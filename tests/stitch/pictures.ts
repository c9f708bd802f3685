/**
 * The pictures of lib/stitch/README.md: what a description holds, over the thread that it was read from.
 *   npx tsx tests/stitch/pictures.ts    writes them again
 */
import { fileURLToPath } from 'node:url';
import type { Stitches } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import { type Curve, curveAt } from '../../lib/stitch/curve.js';
import type { EdgePoint } from '../../lib/stitch/edge.js';
import { placeOnEdge, type Side } from '../../lib/stitch/edge-curves.js';
import { type EditableObject, type EditableSection, numbersIn } from '../../lib/stitch/editable.js';
import { readEditable } from '../../lib/stitch/read-editable.js';
import type { RowLattice } from '../../lib/stitch/row-lattice.js';
import { sewEditable } from '../../lib/stitch/sew-editable.js';
import { dot, framed, line, type Picture, writePictures } from '../drawn-picture.js';
import { Board, rows } from '../segment/board.js';
import { readObjects, sampleDesign } from './objects-read.js';

const THREAD = '#b9b2a6';
const EDGE = '#b3402a';
const LINE = '#1f5f8b';
const NEEDLE = '#2b2b2b';
const FRAME = { scale: 24, marginMm: 1.2 };

/** Where arcs of a curve meet, its ends taken in. */
const joints = ({ from, arcs }: Curve): number[] => [from, ...arcs.map(({ to }) => to)];

function drawing(
  name: string,
  { x, y }: Stitches,
  { range: [first, last] }: StitchObject,
  editable: EditableObject,
): Picture {
  const needles = Array.from({ length: last - first + 1 }, (_, k): EdgePoint => [x[first + k], y[first + k]]);
  const sewn = sewEditable(editable);
  const parts: string[] = [line(needles, THREAD, 0.1)];
  for (const part of editable.parts)
    if (part.kind === 'section') parts.push(...sectionLines(part, editable.lattice));
  parts.push(...sewn.x.map((px, k) => dot([px, sewn.y[k]], NEEDLE, 0.055)));
  const title = `${needles.length} needle points from ${numbersIn(editable)} numbers`;
  return framed(name, title, needles, FRAME, parts);
}

/** Both edges, the center line where there is one, and what ends off the edges. */
function sectionLines({ edges, joined, rows, off }: EditableSection, lattice: RowLattice | null): string[] {
  const span = joined ? rows : rows - 1;
  const along = (at: (t: number) => EdgePoint) => Array.from({ length: 2 * span + 1 }, (_, k) => at(k / 2));
  const out = (['a', 'b'] as Side[]).map((side) =>
    line(
      along((t) => placeOnEdge(edges, lattice, side, t)),
      EDGE,
      0.09,
    ),
  );
  if (edges.form === 'center') {
    const { center } = edges;
    out.push(
      line(
        along((t) => curveAt(center, t) as EdgePoint),
        LINE,
        0.09,
      ),
    );
    out.push(...joints(center).map((t) => dot(curveAt(center, t) as EdgePoint, LINE, 0.16)));
  } else if (edges.form === 'edges') {
    for (const side of ['a', 'b'] as const)
      out.push(...joints(edges[side]).map((t) => dot(curveAt(edges[side], t) as EdgePoint, EDGE, 0.16)));
  } else {
    for (const side of ['a', 'b'] as const)
      out.push(...joints(edges[side]).map((t) => dot(placeOnEdge(edges, lattice, side, t), EDGE, 0.16)));
  }
  for (const side of ['a', 'b'] as const)
    out.push(...off[side].placed.map(({ place }) => dot(place, EDGE, 0.12)));
  return out;
}

/** Of the columns of a sample that are told by their center line the one whose description takes the most numbers. */
function column(): Picture {
  const told = readObjects(sampleDesign('cap-front.dst')).flatMap(({ stitches, object, editable }) =>
    editable?.parts.some((part) => part.kind === 'section' && part.edges.form === 'center')
      ? [{ stitches, object, editable }]
      : [],
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

if (process.argv[1] === fileURLToPath(import.meta.url)) writePictures(pictures());
