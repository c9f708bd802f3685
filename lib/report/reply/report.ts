/** What the digitizer must fix: what `lieflat reply --format json` prints. Lengths mm. */
import type { LaidUnderlay } from '../../stitch/laid-underlay.js';
import type { Finding, FindingCode, Severity } from '../../vetting/finding.js';
import { compareReports } from '../compare/report.js';
import { wordsFor } from '../phrases/words.js';
import type { NamedColor } from '../proof/thread-colors.js';
import { type FindingGroup, groupFindings } from '../vet/found.js';
import type { VetReport } from '../vet/report.js';
import { REPLY_TOPICS, type ReplyTopic, topicOf } from './topics.js';

/** One thing to fix, wherever in the design it is. */
export interface ReplyItem {
  /** In the order of the list, from 1; picture and list show it as a letter, A for 1. */
  number: number;
  code: FindingCode;
  severity: Severity;
  /** How many places. */
  places: number;
  /** The place to look at first: color block and stitch from 1, as digitizing software counts them; null where it is of the whole file. */
  first: { block: number | null; stitch: number | null; at: { x: number; y: number } | null };
  /** The worst figure of it, and the one to keep. */
  measured: number | string | null;
  limit: number | string | null;
  unit: string | null;
  /** Underlay that is to lie there; null where it is about something else. */
  underlay: LaidUnderlay | null;
  /** It is so only on soft or stretchy fabric, and no fabric was named. */
  onSoft: boolean;
  /** Stitches that are too short make it. */
  ofShort: boolean;
  /** With the relaid file: gone, gone at some places, or as before; null without one. */
  relaid: 'fixed' | 'partly' | 'stays' | null;
}

/** Pull compensation on each side that objects are to have, counting what they have. */
export interface ReplyCompensation {
  mm: number;
  places: number;
  /** The first stitch of each object, from 1. */
  stitches: number[];
}

export interface ReplyReport {
  schema: 'lieflat/reply@1';
  file: VetReport['file'];
  design: Pick<VetReport['design'], 'stitches' | 'widthMm' | 'heightMm'>;
  /** Name of the fabric it was judged on; null without one. */
  fabricName: string | null;
  /** The severest first. */
  items: ReplyItem[];
  /** Findings of the lowest severity, which need no fix. */
  minor: number;
  /** What of them is in the file, each kind once. */
  minorCodes: FindingCode[];
  compensation: ReplyCompensation[];
  fine: ReplyTopic[];
  /** What was changed already, or could be; null where that is nothing. */
  changed: {
    /** A relaid file was given; else it is what `lieflat relay` would do. */
    done: boolean;
    /** Satin columns with other underlay. */
    columns: number;
    /** Kinds of finding that are gone by it. */
    fixed: FindingCode[];
    /** Kinds that are still there. */
    stays: FindingCode[];
  } | null;
  /** Names of the thread colors in sewing order; empty where nobody gave them. */
  threads: string[];
}

/** What a reply is made of. */
export interface ReplyInput {
  report: VetReport;
  /** The file with other underlay, vetted, and in how many columns it differs; null where there is none. */
  relaid: { report: VetReport; columns: number | null; done: boolean } | null;
  threads?: readonly NamedColor[];
}

const WORDS = wordsFor({ units: 'mm', detail: 'full' });

/** The kinds of finding that are to be fixed, the severest first, what has no place behind what the picture numbers. */
export function groupsToFix({ findings }: VetReport): FindingGroup[] {
  const groups = groupFindings(
    // What is mended along with another thing is no thing of its own to fix.
    findings.filter((finding) => isToFix(finding) && finding.curedBy === undefined),
    WORDS,
  );
  const isPlaced = ({ all }: FindingGroup): boolean => all.some(({ at }) => at !== null);
  return [...groups.filter(isPlaced), ...groups.filter((group) => !isPlaced(group))];
}

const isToFix = ({ severity }: Finding): boolean => severity !== 'note';

/** What the cure of a kind of finding hangs on. */
function cureOf({ params }: Finding): Pick<ReplyItem, 'underlay' | 'onSoft' | 'ofShort'> {
  return {
    underlay: 'to' in params ? params.to : 'over' in params ? params.over : null,
    onSoft: 'decided' in params && !params.decided,
    ofShort: 'ofShort' in params && params.ofShort,
  };
}

/** Nothing of the input is kept or changed. */
export function replyReport({ report, relaid, threads = [] }: ReplyInput): ReplyReport {
  const { file, design, findings, objects, risk } = report;
  const groups = groupsToFix(report);
  const left = relaid && counted(relaid.report.findings);
  const items = groups.map((group, i): ReplyItem => {
    const { worst, severity, all } = group;
    return {
      number: i + 1,
      code: worst.code,
      severity,
      places: all.length,
      first: firstPlace(worst, report),
      measured: worst.measured,
      limit: worst.limit,
      unit: worst.unit,
      ...cureOf(worst),
      relaid: left && standing(all.length, left.get(`${worst.code} ${severity}`) ?? 0),
    };
  });
  const minor = findings.filter((finding) => !isToFix(finding));
  const found = new Set(findings.filter(isToFix).map(({ code }) => topicOf(code)));
  return {
    schema: 'lieflat/reply@1',
    file: { ...file },
    design: { stitches: design.stitches, widthMm: design.widthMm, heightMm: design.heightMm },
    fabricName: risk?.conditions.fabricName ?? null,
    items,
    minor: minor.length,
    // Which hoop is taken is not the digitizer's to choose.
    minorCodes: [...new Set(minor.flatMap(({ code, fix }) => (fix?.do === 'choose-hoop' ? [] : [code])))],
    compensation: compensationOf(objects),
    fine:
      design.stitches === 0
        ? []
        : REPLY_TOPICS.filter((topic) => !found.has(topic) && isLookedAt(topic, report)),
    changed: relaid && changedBy(relaid, report, items),
    threads: threads.map(({ name }) => name),
  };
}

/** Whether a file has what a topic is about; size is judged only where hoop or place are known, which a report does not say. */
function isLookedAt(topic: ReplyTopic, { objects }: VetReport): boolean {
  const satin = objects.some(({ kind }) => kind === 'satin');
  if (topic === 'columns' || topic === 'underlay') return satin;
  return topic !== 'size' && topic !== 'lettering';
}

const counted = (findings: readonly Finding[]): Map<string, number> => {
  const counts = new Map<string, number>();
  for (const { code, severity } of findings)
    counts.set(`${code} ${severity}`, (counts.get(`${code} ${severity}`) ?? 0) + 1);
  return counts;
};

const standing = (before: number, after: number): ReplyItem['relaid'] =>
  after === 0 ? 'fixed' : after < before ? 'partly' : 'stays';

function firstPlace({ object, stitch, at }: Finding, { objects }: VetReport): ReplyItem['first'] {
  const of = object === null ? undefined : objects.find(({ id }) => id === object);
  const index = stitch ?? of?.stitchRange[0] ?? null;
  const holds = ({ stitchRange: [first, last] }: VetReport['objects'][number]): boolean =>
    index !== null && index >= first && index <= last;
  return {
    block: (of ?? objects.find(holds))?.block ?? null,
    stitch: index === null ? null : index + 1,
    at: at && { ...at },
  };
}

/** Amounts on both sides together differ by no less than a step of a stitch file, mm. */
const STEP_MM = 0.05;

function compensationOf(objects: VetReport['objects']): ReplyCompensation[] {
  const firsts = new Map<number, number[]>();
  for (const { advice, stitchRange } of objects) {
    const steps = Math.round((advice?.pullCompensationMm ?? 0) / STEP_MM);
    if (steps > 0) firsts.set(steps, [...(firsts.get(steps) ?? []), stitchRange[0] + 1]);
  }
  return [...firsts]
    .sort(([a], [b]) => a - b)
    .map(([steps, stitches]) => ({
      mm: Number((steps * STEP_MM).toFixed(2)),
      places: stitches.length,
      stitches,
    }));
}

function changedBy(
  { report: after, columns, done }: NonNullable<ReplyInput['relaid']>,
  before: VetReport,
  items: readonly ReplyItem[],
): ReplyReport['changed'] {
  const changed = columns ?? underlayChanges(before, after);
  if (changed === 0) return null;
  const codes = (stands: (relaid: ReplyItem['relaid']) => boolean): FindingCode[] =>
    items.filter(({ relaid }) => stands(relaid)).map(({ code }) => code);
  return {
    done,
    columns: changed,
    fixed: codes((relaid) => relaid === 'fixed'),
    stays: codes((relaid) => relaid !== 'fixed'),
  };
}

/** Satin columns whose underlay is another than before. */
const underlayChanges = (before: VetReport, after: VetReport): number =>
  compareReports(before, after).objects.changed.filter(({ changes }) =>
    changes.some(({ what }) => what.startsWith('underlay')),
  ).length;
