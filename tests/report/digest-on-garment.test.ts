import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodeDesign } from '../../lib/format/decode.js';
import { digestOf } from '../../lib/report/batch/report.js';
import { SHOP } from '../built-in-shop.js';
import { everyNth } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';

onACoarseMesh(2);

const FILE = { path: 'a.dst', format: 'dst', bytes: 1, sha256: '00'.repeat(32) } as const;

describe('a line of a list of files on a garment', () => {
  // Heavy columns that stay and that are relaid, needle points piled, a design that no cap frame holds, one with nothing wrong, none at all.
  const all = [
    ['name-drop.dst', 'canvas-tote'],
    ['name-drop.dst', 'performance-knit-thin'],
    ['crest.dst', 'cap-structured'],
    ['crest.dst', 'canvas-tote'],
    [null, 'twill'],
    ['cap-front.dst', 'twill'],
  ] as const;
  it.each(everyNth(2, all))(
    'says of %s on %s what the whole check says',
    { timeout: 300_000 },
    async (name, fabric) => {
      const bytes = name ? readFileSync(new URL(`../../samples/${name}`, import.meta.url)) : EMPTY;
      const design = await decodeDesign(bytes, name ? 'dst' : 'csv');
      const conditions = SHOP.conditions({ fabric });
      const { report } = SHOP.vetOn(design, { file: FILE }, conditions);
      expect(SHOP.digestOn(design, { file: FILE }, conditions, true)).toEqual(digestOf(report, true));
    },
  );
});

const EMPTY = new TextEncoder().encode('x_mm,y_mm,kind\n0,0,jump\n0,0,end\n');
