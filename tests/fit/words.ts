/** Words and columns on which the model of two layers is fitted and judged, laid by the generators of designs with known objects. */
import { penetrations } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { UnderlayKind } from '../../lib/segment/objects.js';
import { type LetterStyle, sewWord } from '../generators/lettering.js';
import { Pen, STILL } from '../generators/pen.js';
import { vec } from '../generators/plane.js';
import { Random } from '../generators/random.js';
import { COLUMN, Sewing, type TestDesign } from '../mechanics/designs.js';

/** A word of satin letters. */
export interface WordPlan {
  readonly text: string;
  readonly heightMm: number;
  readonly strokeMm: number;
}

/** The name on which the span is fitted. */
export const FITTED: WordPlan = { text: 'NORTH', heightMm: 19, strokeMm: 4.5 };

/** Words that no fit sees: heights of 14 to 38 mm, strokes of 3 to 7 mm. */
export const HELD_OUT: readonly WordPlan[] = [
  { text: 'MARLOW', heightMm: 18, strokeMm: 4.2 },
  { text: 'PINES', heightMm: 24, strokeMm: 5.2 },
  { text: 'TOBY', heightMm: 32, strokeMm: 6.4 },
  { text: 'VEGA', heightMm: 15, strokeMm: 3.2 },
  { text: 'LACEY', heightMm: 20, strokeMm: 4.6 },
  { text: 'HOLT', heightMm: 27, strokeMm: 5.8 },
  { text: 'DANUBE', heightMm: 16, strokeMm: 3.8 },
  { text: 'RIVER', heightMm: 19, strokeMm: 4.4 },
  { text: 'JUNO', heightMm: 36, strokeMm: 6.8 },
  { text: 'FOXWELL', heightMm: 17, strokeMm: 4 },
  { text: 'SKIPPER', heightMm: 14, strokeMm: 3.1 },
  { text: 'BUTTE', heightMm: 22, strokeMm: 5 },
];

/** Letters over one kind of underlay, top stitching at 0.4 mm. */
export function wordOf({ text, heightMm, strokeMm }: WordPlan, underlay: UnderlayKind): TestDesign {
  const random = new Random(1, `${text} ${heightMm}`);
  const style: LetterStyle = {
    height: heightMm,
    weight: strokeMm / heightMm,
    gap: 0.16 * heightMm,
    satin: {
      top: { spacing: 0.4, zag: 'symmetric', comp: 0, split: null, short: 0, overlap: 0.5 },
      underlay: [underlay],
      inset: 0.6,
      zigzagSpacing: 2.6,
      rowsLie: 'across',
      rowsApart: 3,
      rowsStitch: 2,
      thereAndBack: true,
      restart: false,
    },
    locks: { style: 'back-and-forth', size: 0.5, count: 3, turn: 0, start: true, end: true },
    lockEvery: 'cut',
    order: 'written',
    armsFirst: false,
    travel: 0,
    reach: 4,
    letterReach: 0,
    lap: 0.4,
  };
  const pen = new Pen();
  sewWord(pen, text, vec(0, 0), style, 'straight', random);
  const stitches = penetrations(pen.finish('word', 1, text, STILL, random).design);
  return { stitches, objects: findObjects(stitches) };
}

/** An upright column of satin over an edge run. */
export const uprightColumn = (widthMm: number, lengthMm = 40): TestDesign =>
  new Sewing()
    .column(
      [
        [0, -lengthMm / 2],
        [0, lengthMm / 2],
      ],
      { ...COLUMN, width: widthMm, underlay: ['edge-run'] },
    )
    .done();
