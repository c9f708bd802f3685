/** Relaying as a person asks for it: which columns, which underlay, and edges drawn out by as much as they draw in. */
import type { Budget } from '../core/budget.js';
import { type DesignFormat, decodeDesign, encodeDesign } from '../format/decode.js';
import type { Design } from '../format/design.js';
import type { Stitches } from '../format/stitches.js';
import type { PullIn } from '../mechanics/column-pull.js';
import type { Conditions } from '../mechanics/conditions.js';
import { UNSURE } from '../segment/objects.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import type { Finding } from '../vetting/finding.js';
import { heavyColumns } from '../vetting/heavy-columns.js';
import { columnsAsked } from './columns-asked.js';
import { type ProvenRelay, provenRelay } from './proven.js';
import { type ProvenCompensation, provenCompensation } from './proven-compensation.js';
import type { SewnBefore } from './resew.js';
import { unsureObjects } from './unsure-objects.js';

/** What is to be relaid, and into what file. */
export interface RelayWish {
  /** Ids of satin columns; without them those that call for a lighter underlay. */
  readonly objects?: readonly number[];
  /** A light fill by default; `keep` leaves all underlay as it is. */
  readonly to?: LaidUnderlay | 'keep';
  /** The format of the file that is made; that of the design by default. */
  readonly format?: DesignFormat;
  /** Conditions to work the change out under. */
  readonly conditions?: Conditions;
  /** Draw columns and areas out by as much as they draw in under these conditions: those of `objects`, or all. */
  readonly compensate?: boolean;
}

/** A design as a file of another format holds it: what that format cannot say would come out as a change. */
export const heldBy = async (format: DesignFormat, design: Design): Promise<Design> =>
  format === design.format ? design : decodeDesign(encodeDesign(design, format), format);

/** A design that is vetted, as far as relaying needs it. */
export type VettedForRelay = SewnBefore & { readonly findings: readonly Finding[] };

/** How a design that relaying has made is looked at again. */
export interface LooksAgain<V> {
  /** The design of a new file vetted, its objects numbered as before; `said` is what the shop has said of them. */
  vet(made: Design, said: ProvenRelay['said']): V;
  /** How far the edges of each of its objects move in sewing with needle points at these places. */
  pulls(design: V, stitches: Stitches, conditions: Conditions): readonly PullIn[];
}

/**
 * A vetted design with other underlay under the columns asked for, and drawn out if that is asked for: each object proven, the file read again.
 * @throws LieflatError `unknown-id`, `bad-argument` for an object that is no satin column
 */
export async function relaidAsAsked<V extends VettedForRelay>(
  before: V,
  wish: RelayWish,
  format: DesignFormat,
  budget: Budget,
  again: LooksAgain<V>,
) {
  const { conditions, compensate = false } = wish;
  const laid = await provenRelay(before, choicesOf(before, wish), format, budget);
  const relaid = again.vet(laid.design, laid.said);
  const pullsOn = (stitches: Stitches) => again.pulls(relaid, stitches, conditions!);
  const compensation =
    compensate && conditions ? await drawnOut(relaid, pullsOn, wish, format, budget) : null;
  return {
    ...laid,
    bytes: (compensation ?? laid).bytes,
    relaid: laid.relaid.keys(),
    compensation,
    after: compensation ? again.vet(compensation.design, laid.said) : relaid,
  };
}

/** The columns asked for, or those that call for a lighter underlay and are hardly anything else: the others only by their id. */
function choicesOf(
  { objects, findings }: VettedForRelay,
  { objects: asked, to = 'fill' }: RelayWish,
): Map<number, LaidUnderlay> {
  if (to === 'keep') return new Map();
  const heavy = heavyColumns(findings);
  const sure = objects.filter(({ id, confidence }) => heavy.has(id) && confidence >= UNSURE);
  const ids = columnsAsked(objects, asked) ?? sure.map(({ id }) => id);
  return new Map(ids.map((id) => [id, to]));
}

/** Its pull compensation, each object proven. */
function drawnOut(
  before: SewnBefore,
  pullsOn: (stitches: Stitches) => readonly PullIn[],
  { objects: asked }: RelayWish,
  format: DesignFormat,
  budget: Budget,
): Promise<ProvenCompensation> {
  const named = asked && new Set(asked);
  const only = before.objects.filter(({ id }) => named === undefined || named.has(id));
  return provenCompensation(before, pullsOn, format, budget, {
    only: new Set(only.map(({ id }) => id)),
    unsure: unsureObjects(before.objects, asked),
  });
}
