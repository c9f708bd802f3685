/** In which order a cap is sewn: from the bill up and from the center seam out (common practice, no source). */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { againstCapOrder } from '../../lib/advice/cap-order.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { SHOP } from '../built-in-shop.js';
import { jobOn } from './jobs.js';

/** Left, bottom, width, height, and the color block. */
type Box = readonly [x: number, y: number, w: number, h: number, block?: number];

/** Boxes as they are sewn, on a design whose middle is at 0. */
function sewn(boxes: readonly Box[], fabric = 'cap-structured'): number[] {
  const [like] = jobOn(fabric).objects;
  const objects = boxes.map(([minX, minY, w, h, block = 1], k) => ({
    ...like,
    object: { ...like.object, id: k + 1, group: k + 1, block },
    bounds: { minX, minY, maxX: minX + w, maxY: minY + h },
  }));
  const bounds = { minX: -50, minY: 0, maxX: 50, maxY: 50 };
  const job = jobOn(fabric, [0], { bounds });
  return againstCapOrder({ ...job, objects });
}

const [FAR_LEFT, LEFT, RIGHT, FAR_RIGHT]: Box[] = [-30, -12, 2, 20].map((x) => [x, 0, 10, 20]);

describe('the order in which a cap is sewn', () => {
  it.each<[string, Box[], number[]]>([
    ['from the center out', [RIGHT, LEFT, FAR_RIGHT, FAR_LEFT], []],
    ['one side and then the other', [RIGHT, FAR_RIGHT, LEFT, FAR_LEFT], []],
    ['as it is read', [FAR_LEFT, LEFT, RIGHT, FAR_RIGHT], [2]],
    ['toward the center on both sides', [FAR_LEFT, FAR_RIGHT, LEFT, RIGHT], [3, 4]],
    ['from the bill up', [RIGHT, [2, 22, 10, 20]], []],
    ['down to the bill', [[2, 22, 10, 20], RIGHT], [2]],
    ['another color begins anew', [FAR_LEFT, [-12, 0, 10, 20, 2]], []],
    // The top bar of a letter before the one below it, and its stem last: one piece.
    [
      'strokes of one letter',
      [
        [4, 16, 10, 4],
        [4, 0, 10, 4],
        [2, 0, 4, 20],
      ],
      [],
    ],
    [
      'a dot pushes little',
      [
        [2, 22, 10, 20],
        [4, 10, 4, 4],
      ],
      [],
    ],
    ['across the seam', [FAR_LEFT, [-5, 0, 10, 20]], [2]],
  ])('%s', (_, boxes, late) => {
    expect(sewn(boxes)).toEqual(late);
  });

  it('is no matter on a garment', () => {
    expect(sewn([FAR_LEFT, LEFT], 'twill')).toEqual([]);
  });

  it('is told of in advice on a cap where the file does not keep it, and only there', () => {
    const advised = (name: string, fabric: string) => {
      const design = decodeDst(readFileSync(new URL(`../../samples/${name}`, import.meta.url)));
      const file = { path: name, format: 'dst', bytes: 1, sha256: '0' } as const;
      const { measures, designMeasures } = SHOP.vet(design, { file });
      const job = { ...jobOn(fabric), fabric: CATALOGUE.fabrics[fabric], objects: measures };
      return againstCapOrder({ ...job, design: designMeasures });
    };
    // Digitized for caps; a name digitized to be read.
    expect(advised('cap-front.dst', 'cap-structured')).toEqual([]);
    expect(advised('name-drop.dst', 'cap-unstructured')).toEqual([3, 4]);
    expect(advised('name-drop.dst', 'pique-knit')).toEqual([]);
  });
});
