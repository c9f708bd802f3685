import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UNBOUNDED } from '../../lib/core/budget.js';
import { type Design, Kind } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { penetrations } from '../../lib/format/stitches.js';
import { relayToText } from '../../lib/report/relay/document.js';
import { editDesign, type NewRecord, needleAt } from '../../lib/rework/edit-design.js';
import type { SewnFile } from '../../lib/rework/proof.js';
import { type ProvenRelay, provenRelay } from '../../lib/rework/proven.js';
import { proveRelay } from '../../lib/rework/relay-proof.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import { SHOP } from '../built-in-shop.js';
import { FAMILIES } from '../generators/families/index.js';
import { PRODUCTION } from '../generators/production/index.js';
import { someOf } from '../in-full.js';
import { Needle } from '../report/little-design.js';
import { differenceMm2, painted } from './painted.js';
import { type Read, readDesign, topsLost } from './rewrites.js';

/** Wide enough that threads of sound top stitching meet, mm. */
const PAINTED_MM = 0.8;
/** Corners of an underlay and locks that reached out from under a column and go with it, and slivers between its threads, mm² each column. */
const HEM_MM2 = 1.5;

const asFile = (design: Design): Design => decodeDst(encodeDst(design));
const fileOf = (design: Design): SewnFile => ({ design, stitches: penetrations(design) });
const satinsOf = ({ objects }: Read) => objects.filter(({ kind }) => kind === 'satin').map(({ id }) => id);

async function relayAll(before: Read): Promise<ProvenRelay> {
  const choices = new Map(satinsOf(before).map((id) => [id, 'fill'] as const));
  return provenRelay(before, choices, 'dst', UNBOUNDED);
}

const ALL = { ...FAMILIES, ...PRODUCTION };
const CASES = [
  ['letters-word', 1],
  ['letters-light-fill', 1],
  ['sequence-turns', 0],
  ['sequence-turns', 1],
  ['satin-wide', 1],
  ['word-underlay-ahead', 1],
  ['logo-underlay-ahead', 2],
  ['satin-pointed', 0],
  ['satin-pointed', 1],
  ['satin-two-half-passes', 1],
  ['applique-precut', 0],
  ['decorative-zigzag', 1],
] as const;

describe('a relaid design', () => {
  it.each(CASES)('shows what it showed: %s %i', async (family, seed) => {
    const { design, role } = ALL[family](seed);
    const before = readDesign(asFile(design));
    const made = await relayAll(before);
    const after = penetrations(made.design);
    expect(topsLost(before.stitches, after, (i) => role[i] === 'top')).toBe(0);
    const different = differenceMm2(painted(before.design, PAINTED_MM), painted(made.design, PAINTED_MM));
    expect(different).toBeLessThanOrEqual(HEM_MM2 * made.relaid.size);
    for (const { object, proof } of made.proofs) {
      expect(proof).toBe('identical');
      expect(made.relaid.has(object)).toBe(true);
    }
    for (const id of made.failed.keys()) expect(made.relaid.has(id)).toBe(false);
  });

  it('keeps a light fill under a whole word, which is seen between the letters, and lays each letter its own', async () => {
    const { design, role } = PRODUCTION['light-under-word'](0);
    const before = readDesign(asFile(design));
    const { relaid, design: made } = await relayAll(before);
    expect(relaid.size).toBeGreaterThan(8);
    expect(topsLost(before.stitches, penetrations(made), (i) => role[i] === 'underlay')).toBe(0);
  });

  it('keeps a zigzag that holds cloth, and says so', async () => {
    const { design } = PRODUCTION['applique-precut'](0);
    const file = { path: 'patch.dst', format: 'dst', bytes: 0, sha256: '' } as const;
    const start = asFile(design);
    const satin = SHOP.vet(start, { file }).objects.find(({ kind }) => kind === 'satin')!;
    const { report, bytes } = await SHOP.relay(start, { file }, { objects: [satin.id] });
    expect(report.proof).toMatchObject([{ object: satin.id, proof: 'failed', because: 'cloth' }]);
    expect(report.left).toMatchObject([{ object: satin.id, because: 'failed-proof' }]);
    expect(relayToText(report, { width: 80, units: 'mm' }, true).replace(/\s+/g, ' ')).toContain(
      'may hold an appliqué',
    );
    const same = penetrations(decodeDst(bytes));
    expect([...same.x]).toEqual([...penetrations(start).x]);
  });
});

/** A word relaid, and where its stitches stand in the file that was made. */
async function relaidWord(): Promise<{ before: Read; made: Design; asked: number[] }> {
  const before = readDesign(asFile(FAMILIES['letters-light-fill'](1).design));
  const { design, relaid } = await relayAll(before);
  return { before, made: design, asked: [...relaid.keys()] };
}

const failsOf = ({ before, made, asked }: { before: Read; made: Design; asked: number[] }) =>
  proveRelay(before, fileOf(made), before.objects, asked).filter(({ proof }) => proof === 'failed');

/** The record of the relaid design that sews a top stitch of the one before. */
function recordOf(made: Design, { stitches }: Read, i: number): number {
  const record = made.kind.findIndex(
    (kind, r) => kind === Kind.stitch && made.x[r] === stitches.x[i] && made.y[r] === stitches.y[i],
  );
  expect(record).toBeGreaterThanOrEqual(0);
  return record;
}

const put = (design: Design, at: number, drop: number, ...records: NewRecord[]): Design =>
  editDesign(design, [{ at, drop, put: records }]);

/** What somebody might do to a top stitch. */
const DAMAGES: Record<string, (made: Design, r: number) => Design> = {
  'is dropped': (made, r) => put(made, r, 1),
  'is moved by a step': (made, r) => put(made, r, 1, needleAt(made.x[r] + 0.1, made.y[r])),
  'is sewn after the next': (made, r) =>
    put(made, r, 2, needleAt(made.x[r + 1], made.y[r + 1]), needleAt(made.x[r], made.y[r])),
  'is sewn twice': (made, r) => put(made, r, 0, needleAt(made.x[r], made.y[r])),
  'comes after a stop': (made, r) => put(made, r, 0, { kind: Kind.stop, x: made.x[r - 1], y: made.y[r - 1] }),
  'comes after a cut': (made, r) => put(made, r, 0, { kind: Kind.trim, x: made.x[r - 1], y: made.y[r - 1] }),
  'is of another color': (made, r) =>
    put(made, r, 0, { kind: Kind.colour, x: made.x[r - 1], y: made.y[r - 1] }),
};

describe('the proof of relay', () => {
  it('finds nothing wrong with a design relaid soundly, nor with one that is not changed', async () => {
    const word = await relaidWord();
    expect(word.asked.length).toBeGreaterThan(3);
    expect(failsOf(word)).toEqual([]);
    expect(failsOf({ ...word, made: word.before.design })).toEqual([]);
  });

  it.each(Object.keys(DAMAGES))('fails where any top stitch %s', async (what) => {
    const word = await relaidWord();
    const tops = word.before.objects.flatMap(({ range: [a, b] }) =>
      Array.from({ length: b - a - 1 }, (_, k) => a + 1 + k),
    );
    fc.assert(
      fc.property(fc.constantFrom(...tops), (i) => {
        const r = recordOf(word.made, word.before, i);
        const made = DAMAGES[what](word.made, r);
        expect(failsOf({ ...word, made })).not.toEqual([]);
      }),
      { numRuns: someOf(25) },
    );
  });

  it('fails where the underlay of a column goes that was not asked for', async () => {
    const before = readDesign(asFile(FAMILIES['letters-light-fill'](1).design));
    const { design: made } = await relayAll(before);
    const under = before.objects.filter(({ underlay }) => underlay.range !== null);
    const others = under.slice(1).map(({ id }) => id);
    const [first] = proveRelay(before, fileOf(made), before.objects, others).filter(
      ({ proof }) => proof === 'failed',
    );
    expect(first.because).toBe('changed');
  });

  it('fails where rows are laid over the top stitching', async () => {
    const word = await relaidWord();
    const { minX, maxX, minY, maxY } = SHOP.vet(word.made, {
      file: { path: 'word.dst', format: 'dst', bytes: 0, sha256: '' },
    }).designMeasures.bounds;
    const end = word.made.kind.lastIndexOf(Kind.stitch) + 1;
    const rows = Array.from({ length: 20 }, (_, k) =>
      needleAt(k % 2 ? maxX : minX, minY + ((maxY - minY) * k) / 20),
    );
    expect(failsOf({ ...word, made: put(word.made, end, 0, ...rows) })).toContainEqual(
      expect.objectContaining({ because: 'shows' }),
    );
  });

  it('fails where new thread leaves the column', async () => {
    const word = await relaidWord();
    const { stitches, objects } = word.before;
    for (const { id, range } of objects.filter(({ id }) => word.asked.includes(id))) {
      const r = recordOf(word.made, word.before, range[0]);
      const [x, y] = [stitches.x[range[0]], stitches.y[range[0]]];
      // far over the edge and back, before the first top stitch
      const made = put(word.made, r, 0, needleAt(x + 8, y + 8));
      expect(failsOf({ ...word, made }).map(({ object }) => object)).toContain(id);
    }
  });
});

/** An upright column, 5 mm wide and 30 mm high, with a point at its lower end, begun by hand. */
function pointed(swings: number): Needle {
  const needle = new Needle().trimTo(0, 0);
  for (let k = 0; k < swings; k++) {
    const half = Math.min(2.5, 0.3 + k * 0.12);
    needle.to(k % 2 ? half : -half, k * 0.2);
  }
  return needle;
}

/** Objects as somebody says they are: a top, and what is called its underlay. */
const said = (top: readonly [number, number], under: readonly [number, number] | null): StitchObject =>
  ({
    id: 1,
    range: top,
    underlay: { range: under, also: [] },
  }) as unknown as StitchObject;

describe('what is called an underlay and is none', () => {
  const whole = asFile(pointed(150).end());
  const before = fileOf(whole);
  /** Needle points of the column: the first ones tie it on. */
  const FIRST = 4;
  const without = (first: number, last: number): SewnFile => {
    const { record } = before.stitches;
    return fileOf(asFile(put(whole, record[first], record[last] - record[first] + 1)));
  };

  it('is found where the first swings at a point are taken out', () => {
    for (const swings of [2, 4, 8, 16]) {
      const last = FIRST + swings - 1;
      const object = said([last + 1, before.stitches.count - 1], [FIRST, last]);
      const [proof] = proveRelay(before, without(FIRST, last), [object], [1]);
      expect(proof, `${swings} swings`).toMatchObject({ proof: 'failed', object: 1 });
      expect(['bare', 'changed', 'second-layer']).toContain(proof.because);
    }
  });

  it('is found where one of two passes over a column is taken out', () => {
    const twice = new Needle().trimTo(0, 0);
    // up and down, 0.8 mm from swing to swing each, in between each other
    for (let k = 0; k < 50; k++) twice.to(k % 2 ? 2.5 : -2.5, k * 0.4);
    for (let k = 0; k < 50; k++) twice.to(k % 2 ? -2.5 : 2.5, 19.6 - k * 0.4);
    const both = fileOf(asFile(twice.end()));
    const { record, count } = both.stitches;
    const one = fileOf(asFile(put(both.design, record[4], record[53] - record[4] + 1)));
    const object = said([54, count - 1], [4, 53]);
    const [proof] = proveRelay(both, one, [object], [1]);
    expect(proof).toMatchObject({ proof: 'failed', because: 'second-layer' });
  });

  it('is not found where an open zigzag is taken out from under a closed column', () => {
    const needle = new Needle().trimTo(0, 0);
    for (let k = 0; k < 16; k++) needle.to(k % 2 ? 1.8 : -1.8, 1 + k * 1.2);
    for (let k = 0; k < 100; k++) needle.to(k % 2 ? 2.5 : -2.5, 20 - k * 0.2);
    const file = fileOf(asFile(needle.end()));
    const { record, count } = file.stitches;
    const bare = fileOf(asFile(put(file.design, record[4], 16)));
    expect(proveRelay(file, bare, [said([20, count - 1], [4, 19])], [1])).toMatchObject([
      { proof: 'identical' },
    ]);
  });
});
