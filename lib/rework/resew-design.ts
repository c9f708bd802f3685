/** Sewing a design again as a person asks for it: by a thread, into a file, with objects that are named. */
import type { Budget } from '../core/budget.js';
import type { DesignFormat } from '../format/decode.js';
import { type Catalogue, find } from '../materials/catalogue.js';
import { DEFAULT_THREAD } from '../mechanics/risk.js';
import type { SetObject } from '../segment/set-right/saying.js';
import { saidAnew } from '../segment/set-right/set-right.js';
import { type ProvenResew, provenResew } from './proven.js';
import type { ResewWish, SewnBefore } from './resew.js';
import { unsureObjects } from './unsure-objects.js';

/** How a design is sewn again over stitches that were picked out. */
export interface ResewRequest extends Omit<ResewWish, 'threadMm' | 'leave' | 'unsure'> {
  /** Thread id; `polyester-40` by default. */
  readonly thread?: string;
  /** Ids of objects to be sewn anew though it is not sure what they are. */
  readonly objects?: readonly number[];
  /** Of the file to sew; `dst` by default. */
  readonly format?: DesignFormat;
}

/**
 * The design made larger, each object proven, with what the shop has said of its objects and the ids of those that were not laid anew as it is
 * not sure what they are.
 * @throws LieflatError `unknown-id` for the thread or an object, `bad-argument`
 */
export async function resewnAsAsked(
  before: SewnBefore & { readonly said: readonly SetObject[] },
  { thread = DEFAULT_THREAD, objects, format = 'dst', ...wish }: ResewRequest,
  catalogue: Catalogue,
  budget: Budget,
): Promise<ProvenResew & { said: readonly SetObject[]; unsure: ReadonlySet<number> }> {
  const unsure = unsureObjects(before.objects, objects);
  const threadMm = find(catalogue, 'threads', thread).cover.value;
  const made = await provenResew(before, { ...wish, unsure, threadMm }, format, budget);
  return { ...made, unsure, said: saidAnew(before.said, before, made.resewing.chosen.written) };
}
