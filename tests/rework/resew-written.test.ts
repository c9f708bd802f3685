import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Design, Kind } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { Break, penetrations } from '../../lib/format/stitches.js';
import type { Enlarge, Enlargement } from '../../lib/rework/enlargement.js';
import { machineScaled } from '../../lib/rework/machine-scaled.js';
import { regenerated } from '../../lib/rework/regenerate.js';
import { asWritten } from '../../lib/rework/resew-written.js';
import { widened } from '../../lib/rework/widen.js';
import { FAMILIES } from '../generators/families/index.js';
import { someOf } from '../in-full.js';
import { Needle } from '../report/little-design.js';
import { sewnOf } from './brute-cover.js';

const written = (design: Design, by: Enlargement, enlarge: Enlarge = machineScaled) => {
  const { stitches, objects } = sewnOf(design);
  return asWritten(enlarge(design, stitches, objects)(by).whole());
};

describe('a larger design as its file holds it', () => {
  it('reads back to the very stitches that the proof was made of, without an oddity', () => {
    const growth = fc.integer({ min: 0, max: 250 }).map((n) => n / 1000);
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.keys(FAMILIES)),
        fc.nat(1e6),
        growth,
        growth,
        fc.constantFrom(machineScaled, regenerated, widened),
        (family, seed, x, y, enlarge) => {
          const by = { x, y, dx: 0.37, dy: -1.21 };
          const made = written(FAMILIES[family](seed).design, by, enlarge);
          const file = decodeDst(encodeDst(made.design));
          expect(file.diagnostics).toEqual([]);
          const { count, x: px, y: py } = penetrations(file);
          expect([count, px, py]).toEqual([made.stitches.count, made.stitches.x, made.stitches.y]);
        },
      ),
      { numRuns: someOf(40) },
    );
  });

  it('splits swings that have become too long for one record, and keeps their needle points', () => {
    const wide = new Needle().column(0, 0, { width: 12, height: 20 }).end();
    const made = written(wide, { x: 0.1, y: 0.1, dx: 0, dy: 0 });
    const { count } = penetrations(wide);
    const file = decodeDst(encodeDst(made.design));
    expect(penetrations(file).count).toBe(count);
    expect(file.kind.filter((kind) => kind === Kind.jump).length).toBeGreaterThan(80);
    expect(file.kind.filter((kind) => kind === Kind.trim)).toHaveLength(
      wide.kind.filter((kind) => kind === Kind.trim).length,
    );
  });

  it('cuts the thread where a move has become too long to be made without, and says so', () => {
    // two jumps of 12 mm and a stitch of 12 mm: at 5 % larger 37.8 mm, which takes three jumps, and those mean a trim
    const kinds = [0, 0, 1, 1, 0, 0].map((jump) => (jump ? Kind.jump : Kind.stitch));
    const design: Design = {
      x: Float64Array.of(0, 3, 15, 27, 39, 42),
      y: new Float64Array(6),
      kind: Uint8Array.from(kinds),
      thread: null,
      header: [],
      diagnostics: [],
      format: 'dst',
    };
    const stitches = penetrations(design);
    const grow = (share: number) =>
      asWritten(machineScaled(design, stitches, [])({ x: share, y: share, dx: 0, dy: 0 }).whole());
    expect(grow(0).trimsAdded).toBe(0);
    const made = grow(0.05);
    expect(made.trimsAdded).toBe(1);
    expect(made.stitches.breakBefore[2]).toBe(Break.trim);
    const file = decodeDst(encodeDst(made.design));
    expect(file.diagnostics).toEqual([]);
    expect(penetrations(file).breakBefore).toEqual(made.stitches.breakBefore);
  });
});
