/** The file in which a shop keeps what it has said of objects of its designs, beside its profile. */

import { LieflatError } from '../core/errors.js';
import { nearestName } from '../core/nearest-name.js';
import type { Stitches } from '../format/stitches.js';
import { EN } from '../report/phrases/en.js';
import { printableJson } from '../report/render/printable.js';
import { findObjects } from '../segment/find-objects.js';
import { noSuchObject } from '../segment/no-such-object.js';
import { SAYINGS, type Saying, type SetObject, saidToo } from '../segment/set-right/saying.js';
import { objectAt, setRight } from '../segment/set-right/set-right.js';

export const SET_OBJECTS_NAME = 'lieflat.objects.json';

/** What takes back all that was said of an object. */
const FOUND = 'found';

/** What was said of the objects of one design. */
export interface SetDesign {
  /** The name that its file had, for people. */
  readonly file: string;
  readonly objects: readonly SetObject[];
}

/** By the SHA-256 of the file's content: whatever the file is called, it is known. */
export type SetDesigns = ReadonlyMap<string, SetDesign>;

/** One thing to say of an object by its number: a word of {@link SAYINGS}, or `found` to take back what was said. */
export interface ObjectSaid {
  readonly object: number;
  readonly is: string;
}

/**
 * Reads such a file.
 *
 * @param path what the file is called in errors
 * @throws LieflatError `bad-profile`, with the line: no JSON, an unknown key, a wrong value
 *
 * @example
 * ```ts
 * import { readSetObjects } from 'lieflat';
 * const designs = await readSetObjects('{ "designs": {} }', 'lieflat.objects.json');
 * designs.size; // => 0
 * await readSetObjects('{ "desings": {} }', 'lieflat.objects.json'); // throws 'bad-profile'
 * ```
 */
export async function readSetObjects(text: string, path: string): Promise<Map<string, SetDesign>> {
  const [{ parseProfile }, { refusalOf }, z] = await Promise.all([
    import('./source.js'),
    import('./refusal.js'),
    import('zod'),
  ]);
  const source = await parseProfile(text, path);
  const stitch = z.int().nonnegative();
  const schema = z.strictObject({
    about: z.string().optional(),
    designs: z.record(
      z.string().regex(/^[0-9a-f]{64}$/, 'a design is named by the 64 digits of its SHA-256'),
      z.strictObject({
        file: z.string(),
        objects: z.array(
          z.strictObject({ stitches: z.tuple([stitch, stitch]), is: z.array(z.enum(SAYINGS)).min(1) }),
        ),
      }),
    ),
  });
  const parsed = schema.safeParse(source.value);
  if (parsed.success) return new Map(Object.entries(parsed.data.designs));
  throw await refusalOf(parsed.error.issues, source, {
    whole: 'the file',
    todo: 'correct it, or delete the file and set the objects again with --is',
  });
}

const ABOUT =
  'What you set right with --is, by the content of each file. lieflat writes this file; keep it beside your profile.';

/**
 * The text of such a file: a line an object.
 *
 * @example
 * ```ts
 * import { readSetObjects, setObjectsText } from 'lieflat';
 * const said = { file: 'name.dst', objects: [{ stitches: [25, 111], is: ['underlay'] }] } as const;
 * const text = setObjectsText(new Map([['0'.repeat(64), said]]));
 * (await readSetObjects(text, 'lieflat.objects.json')).get('0'.repeat(64)); // => said
 * ```
 */
export function setObjectsText(designs: SetDesigns): string {
  const list = (values: readonly (string | number)[]) =>
    `[${values.map((v) => JSON.stringify(v)).join(', ')}]`;
  const object = ({ stitches, is }: SetObject) =>
    `        { "stitches": ${list(stitches)}, "is": ${list(is)} }`;
  const kept = [...designs].filter(([, { objects }]) => objects.length > 0);
  const texts = kept.map(
    ([sha256, { file, objects }]) =>
      `    ${JSON.stringify(sha256)}: {\n      "file": ${JSON.stringify(file)},\n      "objects": [\n${objects.map(object).join(',\n')}\n      ]\n    }`,
  );
  const inside = texts.length === 0 ? '' : `\n${texts.join(',\n')}\n  `;
  return printableJson(`{\n  "about": ${JSON.stringify(ABOUT)},\n  "designs": {${inside}}\n}\n`);
}

/**
 * What stands of a design's objects once more was said of them by number. Neither argument is changed.
 *
 * @throws LieflatError `unknown-id` for a number or a word that there is not, `bad-argument` for what an object cannot be
 *
 * @example
 * ```ts
 * import { penetrations, readDesignFile, sayOfObjects } from 'lieflat';
 * const stitches = penetrations((await readDesignFile('samples/name-drop.dst')).design);
 * const said = await sayOfObjects(stitches, [], [{ object: 1, is: 'decorative' }]);
 * said[0].is; // => ['decorative']
 * await sayOfObjects(stitches, said, [{ object: 1, is: 'found' }]); // => []
 * ```
 */
export async function sayOfObjects(
  stitches: Stitches,
  before: readonly SetObject[],
  more: readonly ObjectSaid[],
): Promise<SetObject[]> {
  const found = findObjects(stitches);
  const said = new Map<number, SetObject>();
  for (const one of before) said.set(objectAt(found, one.stitches)?.id ?? -1 - said.size, one);
  for (const { object: id, is } of more) {
    const word = await sayingOf(id, is);
    const object = found.find((one) => one.id === id);
    if (!object)
      throw noSuchObject('--is', id, found.length, 'lieflat vet --objects lists them with their numbers');
    if (word === FOUND) said.delete(id);
    else said.set(id, { stitches: object.range, is: saidToo(said.get(id)?.is ?? [], word) });
  }
  const all = [...said.values()].sort((a, b) => a.stitches[0] - b.stitches[0]);
  const asked = new Set(more.map(({ object }) => object));
  const failed = setRight(stitches, found, all).set.find(
    ({ object, not }) => object !== null && not !== null && asked.has(object),
  );
  if (failed)
    throw new LieflatError({
      code: 'bad-argument',
      place: `--is ${failed.object}=${failed.is.at(-1)}`,
      what: `object ${failed.object} cannot be ${failed.is.join(' and ')}: ${EN.vet.notSet[failed.not!]}`,
      todo: 'look at it with lieflat draw, and say something else of it or nothing',
    });
  return all;
}

async function sayingOf(id: number, word: string): Promise<Saying | typeof FOUND> {
  const known = [...SAYINGS, FOUND] as const;
  const exact = known.find((one) => one === word);
  if (exact) return exact;
  const near = await nearestName(word, known);
  throw new LieflatError({
    code: 'unknown-id',
    place: `--is ${id}=${word}`,
    what: `an object cannot be set to ${word || 'nothing'}`,
    todo: `${near ? `did you mean ${near}? ` : ''}say ${SAYINGS.join(', ')}, or found to take it back`,
  });
}
