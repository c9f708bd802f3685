import { dirname } from 'node:path';
import {
  BUILT_IN_FIGURES,
  type Budget,
  type DesignFile,
  HOOP_FIELDS,
  type HoopField,
  LieflatError,
  nearestName,
  type Place,
  PROFILE_NAME,
  printable,
  readDesignFile,
  readProfile,
  readSetObjects,
  SET_OBJECTS_NAME,
  type SetDesign,
  type Shop,
  shopOf,
} from '../lib/index.js';
import { fileState, findUpward, keptAnswers, pathIn, readBytes } from '../lib/io/index.js';
import { budgetOf, USUAL_LIMITS } from './budget.js';
import { type Io, print } from './io.js';
import { sizeMm } from './lengths.js';
import type { Everywhere, PlacementOptions } from './options.js';

/** What the options and the shop's profile say about vetting. */
export interface VettingFor {
  shop: Shop;
  place?: Place;
  hoop?: HoopField;
}

/** Reads the profile, if there is one, and looks up `--place` and `--hoop`. */
export async function settingsOf(args: Everywhere & PlacementOptions, io: Io): Promise<VettingFor> {
  const shop = await shopInForce(args, io);
  return { shop, place: await placeOf(args.place, shop), hoop: await hoopOf(args.hoop) };
}

/** A design to work on, read, and the budget that the work has from here on. */
export async function openDesign(io: Io, word: string): Promise<{ file: DesignFile; budget: Budget }> {
  const path = pathFrom(io, word);
  const budget = budgetOf(path, io.limits ?? USUAL_LIMITS);
  return { file: await readDesignFile(path, { maxBytes: io.maxBytes, budget }), budget };
}

/** A path from the command line, seen from the working directory. */
export function pathFrom(io: Io, path: string): string {
  return io.cwd === process.cwd() ? path : pathIn(io.cwd, path);
}

/** Where a file that is named on the command line is written, and the folder that it must not leave. */
export function targetFrom(io: Io, name: string): { path: string; within: string | undefined } {
  const { outDir } = io;
  return { path: outDir === undefined ? pathFrom(io, name) : pathIn(outDir, name), within: outDir };
}

/** The shop of `--profile`, or of the nearest profile upward from the working directory, or the built-in one. */
export async function shopInForce(args: Everywhere, io: Io): Promise<Shop> {
  return (await profileInForce(args, io)).shop;
}

/** The profile in force with the shop that it describes; path and text are null where there is none. */
interface InForce {
  shop: Shop;
  path: string | null;
  text: string | null;
}

/** The same with the file that it is read from; what a person has to be told of it is printed. */
export async function profileInForce(args: Everywhere, io: Io): Promise<InForce> {
  const path = await profilePath(args, io);
  const { figures, text } = await profileQuietly(args, io, path);
  for (const note of figures.notes ?? []) await print(io.stderr, `lieflat: note: ${printable(note)}\n`);
  const { designs } = await setObjectsInForce(path, io);
  return {
    shop: shopOf({ ...figures, ...(designs.size > 0 && { setObjects: designs }) }, keptAnswers(io.answers)),
    path,
    text,
  };
}

/** The figures of the profile in force and its text, without a word. */
export async function profileQuietly(args: Partial<Everywhere>, io: Io, known?: string | null) {
  const path = known === undefined ? await profilePath(args, io) : known;
  if (path === null) return { figures: BUILT_IN_FIGURES, text: null };
  const text = new TextDecoder().decode(await readBytes(path, io));
  return { figures: await readProfile(text, path), text };
}

/** The profile in force; null where there is none. */
export const profilePath = async ({ profile }: Partial<Everywhere>, io: Io): Promise<string | null> =>
  profile === undefined ? findUpward(PROFILE_NAME, io.cwd) : pathFrom(io, profile);

/**
 * What the shop has said of objects, and the file it is kept in: beside the profile in force, else the nearest one upward from the
 * working directory, else a new one there.
 */
export async function setObjectsInForce(
  profile: string | null,
  io: Io,
): Promise<{ path: string; designs: Map<string, SetDesign> }> {
  const beside = profile === null ? null : pathIn(dirname(profile), SET_OBJECTS_NAME);
  const found = beside ?? (await findUpward(SET_OBJECTS_NAME, io.cwd));
  const path = found ?? pathIn(io.cwd, SET_OBJECTS_NAME);
  if (found === null || !(await fileState(path))) return { path, designs: new Map() };
  return { path, designs: await readSetObjects(new TextDecoder().decode(await readBytes(path)), path) };
}

async function placeOf(id: string | undefined, shop: Shop): Promise<Place | undefined> {
  if (id === undefined) return undefined;
  const { places } = shop.figures;
  const place = places.find((p) => p.id === id);
  if (!place) throw await unknownId('place', id, places);
  return place;
}

async function hoopOf(text: string | undefined): Promise<HoopField | undefined> {
  if (text === undefined) return undefined;
  const known = HOOP_FIELDS.find((hoop) => hoop.id === text);
  if (known) return known;
  const size = sizeMm('hoop', text);
  if (!size) throw await unknownId('hoop', text, HOOP_FIELDS);
  const given = (value: number) => ({
    value,
    low: value,
    high: value,
    unit: 'mm',
    basis: 'given on the command line',
  });
  return {
    id: 'given',
    name: 'hoop that was given',
    shape: 'rectangle',
    widthMm: given(size.widthMm),
    heightMm: given(size.heightMm),
  };
}

async function unknownId(what: string, id: string, known: readonly { id: string }[]): Promise<LieflatError> {
  const near = await nearestName(
    id,
    known.map((k) => k.id),
  );
  return new LieflatError({
    code: 'unknown-id',
    place: `--${what}`,
    what: `there is no ${what} ${id}`,
    todo: near ? `did you mean ${near}?` : `lieflat catalog ${what}s lists them`,
  });
}
