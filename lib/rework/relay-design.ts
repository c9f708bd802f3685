/** Relaying as a person asks for it: which columns, which underlay, and edges drawn out by as much as they draw in. */
import type { SearchResult } from '../advice/search.js';
import type { KeptColumns } from '../advice/underlay-kept.js';
import type { Budget } from '../core/budget.js';
import { type DesignFormat, decodeDesign, encodeDesign } from '../format/decode.js';
import type { Design } from '../format/design.js';
import type { Stitches } from '../format/stitches.js';
import type { PullIn } from '../mechanics/column-pull.js';
import type { Conditions } from '../mechanics/conditions.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import { LIGHT_UNDERLAY } from '../vetting/called-underlay.js';
import { calledColumns } from '../vetting/columns-called.js';
import type { Finding } from '../vetting/finding.js';
import { columnsAsked } from './columns-asked.js';
import { type ProvenRelay, provenRelay } from './proven.js';
import { type ProvenCompensation, provenCompensation } from './proven-compensation.js';
import type { SewnBefore } from './resew.js';
import { unsureObjects } from './unsure-objects.js';

/** What is to be relaid, and into what file. */
export interface RelayWish {
  /** Ids of satin columns; without them those that call for another underlay, and with conditions what the advice decides. */
  readonly objects?: readonly number[];
  /** By default what the advice lays under these conditions, else a light fill; `keep` leaves all underlay as it is. */
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

/** What the advice for a fabric decides about underlay. */
export type UnderlayDecision = {
  readonly recommended: Pick<SearchResult['recommended'], 'underlay'>;
} & Pick<SearchResult, 'kept'>;

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
  decision: UnderlayDecision | null,
  format: DesignFormat,
  budget: Budget,
  again: LooksAgain<V>,
) {
  const { conditions, compensate = false } = wish;
  const { to, ids, kept } = choicesOf(before, wish, decision);
  const choices = new Map(to === 'keep' ? [] : ids.map((id) => [id, to]));
  const laid = await provenRelay(before, choices, format, budget);
  const relaid = again.vet(laid.design, laid.said);
  const pullsOn = (stitches: Stitches) => again.pulls(relaid, stitches, conditions!);
  const compensation =
    compensate && conditions ? await drawnOut(relaid, pullsOn, wish, format, budget) : null;
  return {
    ...laid,
    to,
    kept,
    bytes: (compensation ?? laid).bytes,
    relaid: laid.relaid.keys(),
    compensation,
    after: compensation ? again.vet(compensation.design, laid.said) : relaid,
  };
}

/** What is laid under which columns, and those that keep what they have on the fabric. */
interface Choices {
  readonly to: LaidUnderlay | 'keep';
  readonly ids: readonly number[];
  readonly kept: KeptColumns | null;
}

/**
 * The columns asked for; else those that the advice relays; else, where no fabric is known, those that call for another underlay by the rule of the
 * trade.
 */
function choicesOf(
  { objects, findings }: VettedForRelay,
  { objects: asked, to: wished }: RelayWish,
  decision: UnderlayDecision | null,
): Choices {
  if (wished === 'keep') return { to: wished, ids: [], kept: null };
  const named = columnsAsked(objects, asked);
  if (named) return { to: wished ?? LIGHT_UNDERLAY, ids: named, kept: null };
  if (decision) {
    const { underlay } = decision.recommended;
    const to = wished ?? underlay[0]?.to ?? LIGHT_UNDERLAY;
    return { to, ids: underlay.map(({ object }) => object), kept: decision.kept };
  }
  const { heavy, bare } = calledColumns(findings);
  const ids = objects.flatMap(({ id }) => (heavy.has(id) || bare.has(id) ? [id] : []));
  return { to: wished ?? LIGHT_UNDERLAY, ids, kept: null };
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
