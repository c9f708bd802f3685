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

/**
 * A vetted design with other underlay under the columns asked for, proven object by object.
 * @throws LieflatError `unknown-id`, `bad-argument` for an object that is no satin column
 */
export function relaidAsAsked(
  before: SewnBefore & { readonly findings: readonly Finding[] },
  { objects: asked, to = 'fill' }: RelayWish,
  format: DesignFormat,
  budget: Budget,
): Promise<ProvenRelay> {
  const ids = to === 'keep' ? [] : (columnsAsked(before.objects, asked) ?? sureHeavyColumns(before));
  return provenRelay(before, new Map(ids.map((id) => [id, to as LaidUnderlay])), format, budget);
}

/** Of the columns that call for a lighter underlay those that are hardly anything else: the others only by their id. */
function sureHeavyColumns({ objects, findings }: Parameters<typeof relaidAsAsked>[0]): number[] {
  const heavy = heavyColumns(findings);
  return objects.flatMap(({ id, confidence }) => (heavy.has(id) && confidence >= UNSURE ? [id] : []));
}

/**
 * The pull compensation of a vetted design, proven object by object.
 *
 * @param pullsOn how far the edges of each object move with needle points at these places
 */
export function drawnOut(
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
