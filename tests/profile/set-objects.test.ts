/** The file in which a shop keeps what it has said of its objects. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ObjectSaid,
  readSetObjects,
  sayOfObjects,
  setObjectsText,
} from '../../lib/profile/set-objects.js';
import { SAYINGS } from '../../lib/segment/set-right/saying.js';
import { vec } from '../generators/plane.js';
import { Board, zigzag } from '../segment/board.js';

const SHA = 'a'.repeat(64);
const stitches = new Board()
  .sew(zigzag(vec(0, 0), vec(30, 0), 3.2, 2.4))
  .move('colour')
  .sew(zigzag(vec(0, 0), vec(30, 0), 4.2, 0.4)).stitches;

it('comes back as it was written, whatever the files are called', async () => {
  const designs = fc.dictionary(
    fc.string({ unit: fc.constantFrom(...'0123456789abcdef'), minLength: 64, maxLength: 64 }),
    fc.record({
      file: fc.string({ unit: 'binary' }),
      objects: fc.array(
        fc.record({
          stitches: fc.tuple(fc.nat(999_999), fc.nat(999_999)),
          is: fc.subarray([...SAYINGS], { minLength: 1 }),
        }),
        { minLength: 1, maxLength: 4 },
      ),
    }),
    { noNullPrototype: true, maxKeys: 4 },
  );
  await fc.assert(
    fc.asyncProperty(designs, async (all) => {
      const map = new Map(Object.entries(all));
      expect(await readSetObjects(setObjectsText(map), 'objects.json')).toEqual(map);
    }),
    { numRuns: 25, seed: 5 },
  );
});

it('forgets a design of which nothing is said any more', () => {
  expect(setObjectsText(new Map([[SHA, { file: 'a.dst', objects: [] }]]))).toContain('"designs": {}');
});

it('writes marks that turn the writing direction as reports do', () => {
  const turned = { file: '\u200fשם.dst', objects: [{ stitches: [0, 3], is: ['run'] }] } as const;
  expect(setObjectsText(new Map([[SHA, turned]]))).toContain('"\\u200fשם.dst"');
});

describe('a file that is none', () => {
  it.each([
    ['no JSON', '{', 'objects.json: line 1', 'not JSON'],
    ['no designs', '{}', 'objects.json: line 1', 'designs is wrong: it is missing'],
    ['an unknown key', '{\n"designs": {},\n"colours": 1}', 'objects.json', 'unknown key colours'],
    ['no hash', '{"designs": {"abc": {"file": "", "objects": []}}}', 'line 1', '64 digits'],
    [
      'an unknown word',
      `{"designs": {"${SHA}": {"file": "a", "objects": [\n{"stitches": [0, 1], "is": ["satn"]}]}}}`,
      'line 2',
      'must be one of satin, fill, run, underlay',
    ],
  ])('says where: %s', async (_, text, place, what) => {
    await expect(readSetObjects(text, 'objects.json')).rejects.toMatchObject({
      code: 'bad-profile',
      place: expect.stringContaining(place),
      what: expect.stringContaining(what),
    });
  });
});

describe('what is said by number', () => {
  const range = (id: number) => (id === 1 ? [0, 25] : [26, 176]);
  const said = (...more: ObjectSaid[]) => sayOfObjects(stitches, [], more);

  it('is kept by stitches, in sewing order', async () => {
    expect(await said({ object: 2, is: 'satin' }, { object: 1, is: 'underlay' })).toEqual([
      { stitches: range(1), is: ['underlay'] },
      { stitches: range(2), is: ['satin'] },
    ]);
  });

  it('is taken back by found, that alone', async () => {
    const both = await said({ object: 2, is: 'satin' }, { object: 1, is: 'underlay' });
    expect(await sayOfObjects(stitches, both, [{ object: 1, is: 'found' }])).toEqual([both[1]]);
    expect(await sayOfObjects(stitches, both, [{ object: 2, is: 'decorative' }])).toEqual([
      both[0],
      { stitches: range(2), is: ['satin', 'decorative'] },
    ]);
  });

  it.each([
    [{ object: 3, is: 'run' }, 'unknown-id', 'there is no object 3, the design has 2'],
    [{ object: 1, is: 'satn' }, 'unknown-id', 'cannot be set to satn'],
    [{ object: 1, is: '' }, 'unknown-id', 'cannot be set to nothing'],
    [{ object: 2, is: 'underlay' }, 'bad-argument', 'nothing that is sewn later lies over it'],
  ])('has to be there and to be possible: %o', async (one, code, what) => {
    await expect(said(one)).rejects.toMatchObject({ code, what: expect.stringContaining(what) });
  });

  it('lists all that can be said', async () => {
    await expect(said({ object: 1, is: 'border' })).rejects.toMatchObject({
      todo: expect.stringContaining(`say ${SAYINGS.join(', ')}, or found to take it back`),
    });
  });

  it('leaves what was said earlier and is no longer possible alone', async () => {
    const old = [{ stitches: [900, 950], is: ['run'] }] as const;
    expect(await sayOfObjects(stitches, old, [{ object: 2, is: 'satin' }])).toContainEqual(old[0]);
  });
});
