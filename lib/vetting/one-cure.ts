/** One cure for one column and one spot: where two findings call for something at the same place, the worse says what mends both. */
import { callsForUnderlay } from './columns-called.js';
import type { Finding, FindingOf } from './finding.js';
import { RANK } from './severest-first.js';

type TooWide = FindingOf<'satin-too-wide'>;
type PileFinding = FindingOf<'needle-points-piled'>;
type TooShort = FindingOf<'stitch-too-short'>;

/** A short stitch that ends no farther from the middle of a pile is one of those that make it, mm: as long as stitches are that are too short. */
const OF_PILE_MM = 0.5;

/**
 * The findings with one cure each, worked out anew whatever was said before: a column that is too wide and calls for other underlay gets it when
 * its digitizer splits or fills it, and by relaying until then; a pile of stitches too short is gone with them. Nothing given is changed.
 */
export function withOneCure(findings: readonly Finding[]): Finding[] {
  const byObject = new Map<number, Finding[]>();
  for (const finding of findings) {
    const { object } = finding;
    if (object === null) continue;
    const same = byObject.get(object);
    if (same) same.push(finding);
    else byObject.set(object, [finding]);
  }
  return findings.map((finding) => curedIn(finding, byObject.get(finding.object ?? -1) ?? []));
}

function curedIn(finding: Finding, ofObject: readonly Finding[]): Finding {
  if (finding.code === 'satin-too-wide') {
    const called = ofObject.find(callsFor);
    return { ...finding, params: { ...finding.params, over: called?.params.to ?? null } };
  }
  if (finding.code === 'needle-points-piled') return curedPile(finding, ofObject);
  if (finding.code === 'stitch-too-short') {
    const pile = ofObject.find((one) => one.code === 'needle-points-piled');
    return pile && makes(finding, pile) && RANK[finding.severity] >= RANK[pile.severity]
      ? { ...finding, curedBy: pile.code }
      : without(finding);
  }
  const wide = callsFor(finding) && ofObject.find((one): one is TooWide => one.code === 'satin-too-wide');
  return wide ? { ...finding, curedBy: wide.code } : without(finding);
}

function curedPile(pile: PileFinding, ofObject: readonly Finding[]): Finding {
  const short = ofObject.find((one): one is TooShort => one.code === 'stitch-too-short' && makes(one, pile));
  const objects = pile.object === null ? [] : [pile.object];
  const cured: Finding = {
    ...pile,
    params: { ...pile.params, ofShort: short !== undefined },
    fix: { do: 'ask-digitizer', objects, to: short ? 'remove-short-stitches' : 'spread-points' },
  };
  return short && RANK[short.severity] < RANK[pile.severity]
    ? { ...cured, curedBy: short.code }
    : without(cured);
}

/** Whether a column calls for other underlay, and does not keep its own on the fabric. */
function callsFor(
  finding: Finding,
): finding is FindingOf<'wide-satin-heavy-underlay' | 'wide-satin-no-underlay'> {
  return callsForUnderlay(finding) && !('kept' in finding.params && finding.params.kept);
}

/** Whether the short stitches of an object are those that pile its needle points: enough of them, and at that spot. */
function makes({ at, params: { count } }: TooShort, pile: PileFinding): boolean {
  if (at === null || pile.at === null || count < pile.params.points - 1) return false;
  return Math.hypot(at.x - pile.at.x, at.y - pile.at.y) <= OF_PILE_MM;
}

function without({ curedBy: _, ...finding }: Finding): Finding {
  return finding as Finding;
}
