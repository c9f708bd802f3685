import { type Column, columnAlong, columnBetween, type WidthRule } from './column.js';
import { arc, type Point, point } from './plane.js';
import type { Exit } from './sew-column.js';

/** The weight of a lettering, mm: height, width of upright strokes, width of flat ones. */
export interface Weight {
  readonly height: number;
  readonly stem: number;
  readonly bar: number;
}

/** One stroke of a letter: where it is left, and the way to its start under strokes that are still to come. */
export interface Stroke {
  readonly name: string;
  readonly column: Column;
  readonly exit: Exit;
  readonly way: readonly Point[];
}

export interface Letter {
  /** Width of the letter, mm; strokes stand between x = 0 and this, on the base line. */
  readonly width: number;
  /** In sewing order: what is covered comes first. */
  readonly strokes: readonly Stroke[];
}

const stroke = (name: string, column: Column, exit: Exit = 'end', way: readonly Point[] = []): Stroke => ({
  name,
  column,
  exit,
  way,
});

const line = (x0: number, y0: number, x1: number, y1: number): Point[] => [point(x0, y0), point(x1, y1)];

/** Upright strokes get the stem's width, flat ones the bar's, bends what lies between. */
const modelled =
  ({ stem, bar }: Weight): WidthRule =>
  (upright) =>
    bar + (stem - bar) * upright;

const stemAt = (w: Weight, x: number, y0 = 0, y1 = w.height): Column =>
  columnAlong(line(x, y0, x, y1), w.stem);
const barAt = (w: Weight, x0: number, x1: number, y: number): Column =>
  columnAlong(line(x0, y, x1, y), w.bar);

/** A slanted stroke whose ends are cut level; `across` is its width along the line, mm. */
function slant(x0: number, y0: number, x1: number, y1: number, across: number): Column {
  const h = across / 2;
  const up = y1 > y0;
  const a = line(x0 - h, y0, x1 - h, y1);
  const b = line(x0 + h, y0, x1 + h, y1);
  return up ? columnBetween(a, b) : columnBetween(b, a);
}

/** Level width of a slanted stroke that is to look as heavy as a stem. */
const levelWidth = (w: Weight, run: number, rise: number): number =>
  (w.stem * 0.92 * Math.hypot(run, rise)) / Math.abs(rise);

/** From a stem at one height, round to the right and back to the stem at another: the bowl of B, D, P, R. */
function bowl(w: Weight, from: number, to: number, right: number): Column {
  const r = Math.abs(from - to) / 2;
  const quarter = from > to ? 90 : -90;
  const joint = w.stem * 0.6;
  const bend = Math.max(joint + 0.2, right - w.stem / 2 - Math.min(r, right * 0.5));
  const round = arc(point(bend, (from + to) / 2), right - w.stem / 2 - bend, r, quarter, -quarter);
  return columnAlong([point(joint, from), ...round, point(joint, to)], modelled(w));
}

/** Round of O, C and U: half circles joined by upright sides. */
function roundParts(w: Weight, width: number): { rx: number; low: Point; high: Point } {
  const rx = (width - w.stem) / 2;
  const ry = Math.min((w.height - w.bar) / 2, rx * 1.12);
  return { rx, low: point(width / 2, w.bar / 2 + ry), high: point(width / 2, w.height - w.bar / 2 - ry) };
}

const DRAW: Record<string, (w: Weight) => Letter> = {
  A: (w) => {
    const width = w.height * 0.8;
    const k = w.stem * 0.16;
    const lean = levelWidth(w, width / 2 - k - w.stem / 2, w.height);
    const x = (y: number): number => lean / 2 + ((width / 2 - k - lean / 2) * y) / w.height;
    const y = w.height * 0.27;
    return {
      width,
      strokes: [
        stroke('bar', columnAlong(line(width - x(y), y, x(y), y), w.bar * 0.92)),
        stroke('left leg', slant(lean / 2, 0, width / 2 - k, w.height, lean), 'end', [
          point(lean / 2, w.bar * 0.3),
        ]),
        stroke('right leg', slant(width / 2 + k, w.height, width - lean / 2, 0, lean)),
      ],
    };
  },
  B: (w) => {
    const [h, b, width] = [w.height, w.bar, w.height * 0.64];
    return {
      width,
      strokes: [
        stroke('upper bowl', bowl(w, h - b / 2, h * 0.52 + b * 0.3, width * 0.94)),
        stroke('lower bowl', bowl(w, h * 0.52 - b * 0.3, b / 2, width), 'end'),
        stroke('stem', stemAt(w, w.stem / 2)),
      ],
    };
  },
  C: (w) => {
    const width = w.height * 0.7;
    const { rx, low, high } = roundParts(w, width);
    const ry = high.x === low.x ? w.height - w.bar / 2 - high.y : 0;
    return {
      width,
      strokes: [
        stroke(
          'round',
          columnAlong([...arc(high, rx, ry, 18, 180), ...arc(low, rx, ry, 180, 342)], modelled(w)),
        ),
      ],
    };
  },
  E: (w) => {
    const [h, b, s, width] = [w.height, w.bar, w.stem, w.height * 0.56];
    return {
      width,
      strokes: [
        stroke('top arm', barAt(w, width, s * 0.6, h - b / 2)),
        stroke('middle arm', barAt(w, s * 0.6, width * 0.9, h / 2), 'start', [
          point(s / 2, h - b / 2),
          point(s / 2, h / 2),
        ]),
        stroke('bottom arm', barAt(w, s * 0.6, width, b / 2), 'start', [
          point(s / 2, h / 2),
          point(s / 2, b / 2),
        ]),
        stroke('stem', stemAt(w, s / 2)),
      ],
    };
  },
  F: (w) => {
    const [h, b, s, width] = [w.height, w.bar, w.stem, w.height * 0.54];
    return {
      width,
      strokes: [
        stroke('top arm', barAt(w, width, s * 0.6, h - b / 2)),
        stroke('middle arm', barAt(w, s * 0.6, width * 0.88, h * 0.48), 'start', [
          point(s / 2, h - b / 2),
          point(s / 2, h * 0.48),
        ]),
        stroke('stem', stemAt(w, s / 2), 'end', [point(s / 2, h * 0.48), point(s / 2, 0.6)]),
      ],
    };
  },
  I: (w) => ({ width: w.stem, strokes: [stroke('stem', stemAt(w, w.stem / 2))] }),
  K: (w) => {
    const [h, s, width] = [w.height, w.stem, w.height * 0.66];
    const join = point(s * 0.75, h * 0.46);
    const lean = levelWidth(w, width - s * 1.3, h * 0.54);
    return {
      width,
      strokes: [
        stroke('arm', slant(width - lean / 2, h, join.x, join.y - s * 0.2, lean)),
        stroke('leg', slant(join.x, join.y + s * 0.5, width - lean / 2 + s * 0.08, 0, lean), 'start'),
        stroke('stem', stemAt(w, s / 2), 'end', [point(s / 2, join.y), point(s / 2, 0.6)]),
      ],
    };
  },
  L: (w) => {
    const width = w.height * 0.48;
    return {
      width,
      strokes: [
        stroke('foot', barAt(w, width, w.stem * 0.5, w.bar / 2)),
        stroke('stem', stemAt(w, w.stem / 2)),
      ],
    };
  },
  N: (w) => {
    const [h, s, width] = [w.height, w.stem, w.height * 0.7];
    return {
      width,
      strokes: [
        stroke('left stem', stemAt(w, s / 2)),
        stroke('slant', slant(s * 0.62, h, width - s * 0.62, 0, s * 1.24)),
        stroke('right stem', stemAt(w, width - s / 2)),
      ],
    };
  },
  O: (w) => {
    const width = w.height * 0.66;
    const { rx, low, high } = roundParts(w, width);
    const ry = w.height - w.bar / 2 - high.y;
    const top = point(width / 2, w.height - w.bar / 2);
    return {
      width,
      strokes: [
        stroke(
          'ring',
          columnAlong(
            [...arc(high, rx, ry, 90, 180), ...arc(low, rx, ry, 180, 360), ...arc(high, rx, ry, 0, 90), top],
            modelled(w),
            true,
          ),
        ),
      ],
    };
  },
  R: (w) => {
    const [h, b, s, width] = [w.height, w.bar, w.stem, w.height * 0.66];
    const mid = h * 0.48;
    const lean = levelWidth(w, width - s * 1.4, mid);
    return {
      width,
      strokes: [
        stroke('leg', slant(width - lean / 2, 0, s * 1.15, mid, lean), 'end'),
        stroke('bowl', bowl(w, mid, h - b / 2, width * 0.95), 'end'),
        stroke('stem', stemAt(w, s / 2, h, 0)),
      ],
    };
  },
  S: (w) => {
    const width = w.height * 0.62;
    const rx = (width - w.stem) / 2;
    const ry = (w.height - w.bar) / 4;
    const high = point(width / 2, w.height - w.bar / 2 - ry);
    const low = point(width / 2, w.bar / 2 + ry);
    return {
      width,
      strokes: [
        stroke(
          'bend',
          columnAlong([...arc(high, rx, ry, 15, 270), ...arc(low, rx, ry, 90, -165)], modelled(w)),
        ),
      ],
    };
  },
  T: (w) => {
    const [h, b, width] = [w.height, w.bar, w.height * 0.58];
    return {
      width,
      strokes: [
        stroke('stem', stemAt(w, width / 2, 0, h - b * 0.4)),
        stroke('bar', barAt(w, 0, width, h - b / 2), 'start'),
      ],
    };
  },
  U: (w) => {
    const [h, width] = [w.height, w.height * 0.68];
    const { rx, low } = roundParts(w, width);
    const left = point(w.stem / 2, h);
    const right = point(width - w.stem / 2, h);
    return {
      width,
      strokes: [
        stroke('bend', columnAlong([left, ...arc(low, rx, low.y - w.bar / 2, 180, 360), right], modelled(w))),
      ],
    };
  },
  W: (w) => {
    const [h, width] = [w.height, w.height * 1.04];
    const lean = levelWidth(w, width * 0.2, h) * 0.94;
    const x = [lean / 2, width * 0.29, width / 2, width * 0.71, width - lean / 2];
    const k = lean * 0.1;
    return {
      width,
      strokes: [
        stroke('first slant', slant(x[0], h, x[1] - k, 0, lean)),
        stroke('second slant', slant(x[1] + k, 0, x[2] - k, h, lean)),
        stroke('third slant', slant(x[2] + k, h, x[3] - k, 0, lean)),
        stroke('last slant', slant(x[3] + k, 0, x[4], h, lean)),
      ],
    };
  },
  Y: (w) => {
    const [h, width] = [w.height, w.height * 0.72];
    const lean = levelWidth(w, width / 2 - w.stem / 2, h * 0.56);
    const c = width / 2;
    return {
      width,
      strokes: [
        stroke('left arm', slant(lean / 2, h, c - w.stem * 0.06, h * 0.4, lean)),
        stroke('right arm', slant(c + w.stem * 0.06, h * 0.4, width - lean / 2, h, lean), 'start'),
        stroke('stem', stemAt(w, c, h * 0.46, 0)),
      ],
    };
  },
};

/** The strokes of a capital letter. */
export function letter(character: string, weight: Weight): Letter {
  const draw = DRAW[character];
  if (!draw) throw new Error(`There is no letter "${character}" in this lettering.`);
  return draw(weight);
}
