import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UNBOUNDED } from '../../lib/core/budget.js';
import { type Design, Kind } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { penetrations } from '../../lib/format/stitches.js';
import { editDesign, type NewRecord, needleAt } from '../../lib/rework/edit-design.js';
import type { Enlarge } from '../../lib/rework/enlargement.js';
import { machineScaled } from '../../lib/rework/machine-scaled.js';
import type { ObjectProof, SewnFile } from '../../lib/rework/proof.js';
import { provenResew } from '../../lib/rework/proven.js';
import { regenerated } from '../../lib/rework/regenerate.js';
import type { ResewMode } from '../../lib/rework/resew-mode.js';
import { proveResew } from '../../lib/rework/resew-proof.js';
import { asWritten } from '../../lib/rework/resew-written.js';
import { widened } from '../../lib/rework/widen.js';
import { FAMILIES } from '../generators/families/index.js';
import { PRODUCTION } from '../generators/production/index.js';
import { itInFull, someOf } from '../in-full.js';
import { Needle } from '../report/little-design.js';
import { growth } from './enlarged.js';
import { barePlaces, type Read, readDesign } from './rewrites.js';

const ALL = { ...FAMILIES, ...PRODUCTION };
const ENLARGE: Record<ResewMode, Enlarge> = {
  machine: machineScaled,
  regenerate: regenerated,
  widen: widened,
};
const BY = growth(0.05);

const asFile = (design: Design): Design => decodeDst(encodeDst(design));
const fileOf = (design: Design): SewnFile => ({ design, stitches: penetrations(design) });
const caseOf = (family: string, seed: number): Read => readDesign(asFile(ALL[family](seed).design));
const made = (before: Read, mode: ResewMode, leave?: ReadonlySet<number>) =>
  asWritten(ENLARGE[mode](before.design, before.stitches, before.objects, leave)(BY).whole());
const failsOf = (before: Read, after: Design, mode: ResewMode): ObjectProof[] =>
  proveResew(before, fileOf(asFile(after)), before.objects, mode, BY).filter(
    ({ proof }) => proof === 'failed',
  );

describe('a design made larger', () => {
  it.each([
    ['plain-areas', 0, 0],
    ['letters-word', 1, 0],
    ['sequence-fields', 0, 0],
    ['satin-two-half-passes', 1, 0],
    ['satin-foam', 1, 0],
    ['edge-zigzag', 1, 0],
    ['fill-radial', 0, 1],
    ['fill-radial', 2, 1],
    ['motif-run', 0, 1],
  ])('has no bare place in any object but those left: %s %i', (family, seed, most) => {
    const before = caseOf(family, seed);
    for (const mode of ['regenerate', 'widen'] as const) {
      const leave = new Set<number>();
      for (let round = 1; ; round++) {
        expect(round).toBeLessThanOrEqual(4);
        const after = made(before, mode, leave);
        const fails = failsOf(before, after.design, mode);
        for (const { object } of fails) leave.add(object);
        if (fails.length > 0) continue;
        const told = new Set([...leave, ...(after.left ?? []).map(({ object }) => object)]);
        expect(barePlaces(before, after, mode, BY).filter(({ object }) => !told.has(object))).toEqual([]);
        break;
      }
      const areas = before.objects.filter(({ id, kind }) => kind !== 'run' && leave.has(id));
      expect(areas.length).toBeLessThanOrEqual(most);
    }
  });

  it.each(['edge-zigzag', 'decorative-zigzag'])('grows each stitch of open swings: %s', (family) => {
    const before = caseOf(family, 1);
    const satins = before.objects.filter(({ kind }) => kind === 'satin');
    expect(satins.length).toBeGreaterThan(0);
    const [anew, grown] = [made(before, 'regenerate'), made(before, 'machine')];
    for (const { id } of satins) {
      const [a, b] = [anew, grown].map(({ stitches, objects }) => {
        const [first, last] = objects[id - 1].range;
        return [...stitches.x.subarray(first, last + 1), ...stitches.y.subarray(first, last + 1)];
      });
      expect(a.length).toBe(b.length);
      // locks at the ends move, and do not grow
      a.forEach((place, k) => {
        expect(Math.abs(place - b[k])).toBeLessThan(0.2);
      });
    }
    expect(anew.left ?? []).toEqual([]);
  });

  itInFull('keeps each stitch of a fill of rays, and says so', async () => {
    const before = caseOf('fill-radial', 0);
    const bare = barePlaces(before, made(before, 'widen'), 'widen', BY);
    expect(bare.length).toBeGreaterThan(20);
    const wish = { mode: 'widen', by: BY, offsetGiven: true, threadMm: 0.4, slackMm: 0 } as const;
    const { failed, design, proofs } = await provenResew(before, wish, 'dst', UNBOUNDED);
    expect([...failed.values()]).toMatchObject([{ object: bare[0].object, because: 'bare' }]);
    expect(proofs.every(({ proof }) => proof === 'covered')).toBe(true);
    const [fill] = before.objects;
    const after = penetrations(design);
    for (let i = fill.range[0]; i <= fill.range[1]; i++) {
      expect(after.x[i]).toBeCloseTo(before.stitches.x[i], 6);
      expect(after.y[i]).toBeCloseTo(before.stitches.y[i], 6);
    }
  });
});

const put = (design: Design, at: number, drop: number, ...records: NewRecord[]): Design =>
  editDesign(design, [{ at, drop, put: records }]);

/** A level fill of 24 by 16 mm beside an upright column, in two colors. */
const badge = (): Read =>
  readDesign(
    asFile(
      new Needle()
        .fill(0, 0, { width: 24, height: 16 })
        .colourTo(40, 0)
        .column(40, 0, { width: 5, height: 30 })
        .end(),
    ),
  );

describe('the proof of resew', () => {
  it('finds nothing wrong with what is made larger soundly', () => {
    for (const mode of ['machine', 'regenerate', 'widen'] as const) {
      expect(failsOf(badge(), made(badge(), mode).design, mode), mode).toEqual([]);
    }
  });

  it('fails a machine’s growth where any needle point is a step off, is gone or is one too many', () => {
    const before = badge();
    const { design } = made(before, 'machine');
    const needles = [...design.kind.keys()].filter((r) => design.kind[r] === Kind.stitch);
    fc.assert(
      fc.property(fc.constantFrom(...needles), fc.constantFrom(0.1, -0.1, 0.2), (r, by) => {
        const spoiled = [
          put(design, r, 1, needleAt(design.x[r] + by, design.y[r])),
          put(design, r, 1, needleAt(design.x[r], design.y[r] + by)),
          put(design, r, 1),
          put(design, r, 0, needleAt(design.x[r], design.y[r])),
        ];
        for (const one of spoiled) expect(failsOf(before, one, 'machine')).not.toEqual([]);
      }),
      { numRuns: someOf(20) },
    );
  });

  it.each(['regenerate', 'widen'] as const)('fails %s where rows or swings are missing', (mode) => {
    const before = badge();
    const after = made(before, mode);
    after.objects.forEach((object, k) => {
      const { id } = before.objects[k];
      const { record } = after.stitches;
      for (const share of [0.2, 0.5, 0.8]) {
        // 2 mm of it, all that is sewn there
        const rows = object.kind === 'fill' ? 5 : 10;
        const from = Math.round(object.from.length * share);
        const [first, last] = [record[object.from[from]], record[object.to[from + rows]]];
        const [fail] = failsOf(before, put(after.design, first, last - first), mode);
        expect(fail, `${object.kind} at ${share}`).toMatchObject({ object: id, because: 'bare' });
        const { x, y } = after.stitches;
        const away = Math.hypot(fail.at!.x - x[object.from[from]], fail.at!.y - y[object.from[from]]);
        expect(away).toBeLessThan(30);
      }
    });
  });

  it('fails where a color change is gone, or thread lies far outside', () => {
    const before = badge();
    const after = made(before, 'regenerate').design;
    const colour = after.kind.indexOf(Kind.colour);
    expect(failsOf(before, put(after, colour, 1), 'regenerate').map(({ because }) => because)).toEqual([
      'machine',
      'machine',
    ]);
    const r = after.kind.indexOf(Kind.stitch) + 40;
    const stray = put(
      after,
      r,
      0,
      needleAt(after.x[r] - 12, after.y[r] - 12),
      needleAt(after.x[r], after.y[r]),
    );
    expect(failsOf(before, stray, 'regenerate')).toContainEqual(
      expect.objectContaining({ because: 'shows' }),
    );
  });

  it('fails where one of two passes is left out', () => {
    const needle = new Needle().trimTo(0, 0);
    for (const pass of [0, 1])
      for (let k = 0; k < 60; k++)
        needle.to((k + pass) % 2 ? 2.5 : -2.5, 0.2 + (pass ? 24 - k * 0.4 : k * 0.4));
    const file = fileOf(asFile(needle.end()));
    const object = { id: 1, range: [4, 123], underlay: { range: null, also: [] } } as const;
    const still = { x: 0, y: 0, dx: 0, dy: 0 };
    const { record } = file.stitches;
    const once = fileOf(asFile(put(file.design, record[64], record[123] - record[64] + 1)));
    expect(proveResew(file, file, [object], 'regenerate', still)).toMatchObject([{ proof: 'covered' }]);
    const [proof] = proveResew(file, once, [object], 'regenerate', still);
    expect(proof.proof).toBe('failed');
  });
});
