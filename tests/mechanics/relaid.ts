import { Break, type Stitches } from '../../lib/format/stitches.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import type { Point, TestDesign } from './designs.js';

/** Row distance, longest stitch and distance from the rails of the light fill of the trade, mm. */
const ROWS_MM = 3;
const STITCH_MM = 1.5;
const INSET_MM = 0.5;

/** The design with the underlay of every satin column replaced by a light fill: rows of short stitches across the column. */
export function onLightFill({ stitches, objects }: TestDesign): TestDesign {
  const x: number[] = [];
  const y: number[] = [];
  const breaks: number[] = [];
  const out: StitchObject[] = [];
  let next = 0;
  const keep = (until: number) => {
    for (; next < until; next++) {
      x.push(stitches.x[next]);
      y.push(stitches.y[next]);
      breaks.push(stitches.breakBefore[next]);
    }
  };
  for (const object of objects) {
    const start = object.underlay.range?.[0] ?? object.range[0];
    const satin = object.kind === 'satin';
    keep(satin ? start : object.range[0]);
    let range: [number, number] | null = null;
    const broken = stitches.breakBefore[start];
    if (satin) {
      const points = rowsAcross(stitches, object);
      range = [x.length, x.length + points.length - 1];
      points.forEach(([px, py], i) => {
        x.push(px);
        y.push(py);
        breaks.push(i === 0 ? broken : Break.none);
      });
      next = object.range[0];
    }
    const shift = x.length - object.range[0];
    keep(object.range[1] + 1);
    if (satin && range) breaks[object.range[0] + shift] = Break.none;
    const move = ([a, b]: readonly [number, number]): [number, number] => [a + shift, b + shift];
    out.push({
      ...object,
      range: move(object.range),
      from: object.from.map((i) => i + shift),
      to: object.to.map((i) => i + shift),
      underlay: satin
        ? { kinds: ['fill'], range, stitches: range ? range[1] - range[0] + 1 : 0, spacingMm: ROWS_MM }
        : { ...object.underlay, range: object.underlay.range ? move(object.underlay.range) : null },
    });
  }
  keep(stitches.count);
  const count = x.length;
  return {
    stitches: {
      count,
      x: Float64Array.from(x),
      y: Float64Array.from(y),
      breakBefore: Uint8Array.from(breaks),
      block: new Uint16Array(count),
      record: Int32Array.from({ length: count }, (_, i) => i),
    },
    objects: out,
  };
}

function rowsAcross({ x, y }: Stitches, { from, to }: StitchObject): Point[] {
  const points: Point[] = [];
  let since = ROWS_MM - 0.8;
  let row = 0;
  for (let k = 1; k < from.length; k++) {
    const middle = (n: number): Point => [(x[from[n]] + x[to[n]]) / 2, (y[from[n]] + y[to[n]]) / 2];
    const [ax, ay] = middle(k - 1);
    const [bx, by] = middle(k);
    since += Math.hypot(bx - ax, by - ay);
    if (since < ROWS_MM) continue;
    since -= ROWS_MM;
    const dx = x[to[k]] - x[from[k]];
    const dy = y[to[k]] - y[from[k]];
    const half = Math.hypot(dx, dy) / 2 - INSET_MM;
    if (half <= 0) continue;
    const steps = Math.max(1, Math.ceil((2 * half) / STITCH_MM));
    // Swings alternate in direction, rows must too.
    const way = row++ % 2 === k % 2 ? 1 : -1;
    for (let s = 0; s <= steps; s++) {
      const v = (way * (half * (2 * s - steps))) / steps / (2 * (half + INSET_MM));
      points.push([bx + dx * v, by + dy * v]);
    }
  }
  return points;
}
