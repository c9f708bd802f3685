/** The file check: what `lieflat vet` says beside its findings. */
import type { NotSet, Saying } from '../../../segment/set-right/saying.js';
import type { FindingCode, Severity } from '../../../vetting/finding.js';
import type { Voice } from '../voice.js';
import { namesFound } from './setup.js';

/** Why an object cannot be what was said; follows a colon. */
const notSet: Readonly<Record<NotSet, string>> = {
  'no-object': 'no object has those stitches any more',
  'not-covered': 'nothing that is sewn later lies over it',
  'no-swings': 'its stitches do not swing from side to side',
  'several-sections': 'it has several sections, and a column has one',
  'no-rows': 'its stitches lie neither in rows nor side by side',
};

export const vet = {
  /** Name of the report, on its page. */
  title: 'File check',
  size: 'size',
  stitchesLabel: 'stitches',
  stitches: (
    {
      stitches,
      objects,
      kinds,
    }: { stitches: number; objects: number; kinds: readonly (readonly [n: number, kind: string])[] },
    say: Voice,
  ): string => {
    const each = kinds.filter(([n]) => n > 0).map(([n, kind]) => `${say.count(n)} ${kind}`);
    return `${say.count(stitches)} in ${say.counted(objects, 'object')}${each.length > 0 ? ` (${each.join(', ')})` : ''}`;
  },
  machineLabel: 'machine',
  machine: (
    {
      trims,
      colorChanges,
      stops,
      jumps,
      seconds,
      speedSpm,
    }: Record<'trims' | 'colorChanges' | 'stops' | 'jumps' | 'seconds' | 'speedSpm', number>,
    say: Voice,
  ): string =>
    `${[
      say.counted(trims, 'trim'),
      say.counted(colorChanges, 'color change'),
      ...(stops > 0 ? [say.counted(stops, 'stop')] : []),
      ...(jumps > 0 ? [say.counted(jumps, 'jump')] : []),
    ].join(', ')}; about ${say.time(seconds)} at ${say.count(speedSpm)} stitches/min`,
  threadLabel: 'thread',
  thread: ({ topMm, bobbinMm }: { topMm: number; bobbinMm: number }, say: Voice): string =>
    `top ${say.thread(topMm)}, bobbin ${say.thread(bobbinMm)}`,
  objectsLabel: 'objects',
  notSet,
  /** What the shop has set right and stands; `back` is an object to take back. */
  setRight: (
    { objects, back }: { objects: readonly { name: string; is: readonly Saying[] }[]; back: number | null },
    say: Voice,
  ): string =>
    `${objects.map(({ name, is }) => `${name} is ${is.join(' and ')}`).join(', ')}: set by you${back === null ? '' : say.typed(` (--is ${back}=found takes it back)`)}`,
  notSetRight: ({ name, is, why }: { name: string; is: readonly Saying[]; why: string }, _: Voice): string =>
    `${name} was set by you to ${is.join(' and ')} and is not: ${why}`,
  objectName: (
    { object, stitches: [first, last] }: { object: number | null; stitches: readonly [number, number] },
    _: Voice,
  ): string => (object === null ? `what was at stitches ${first} to ${last}` : `object ${object}`),
  advice: 'What to do',
  haveItFixed: (_: Record<never, never>, say: Voice): string =>
    `Have it fixed first${say.typed(': lieflat reply writes that to the digitizer')}.`,
  askFirst: ({ codes }: { codes: readonly FindingCode[] }, say: Voice): string =>
    `Before you hoop: ask the digitizer about ${namesFound({ codes }, say)}${say.typed('; lieflat reply writes that')}.`,
  moreAdvice: ({ others }: { others: number }, _: Voice): string =>
    `lieflat advise has ${others > 0 ? 'the other plans and ' : ''}the hooping.`,
  objectsThatMatter: 'Objects to look at first',
  allObjects: 'Objects in sewing order',
  /** Below the table of objects. */
  listAll: ({ left }: { left: number }, say: Voice): string =>
    `and ${say.counted(left, 'other')}; --objects lists them all`,
  noObjects: 'No objects were found.',
  objectsCaption:
    'Width is what 95 of 100 stitches across a column stay within; spacing and stitch are the middle value',
  kindSet: ({ kind }: { kind: string }, _: Voice): string => `${kind} (set by you)`,
  locks: ({ start, end }: { start: boolean; end: boolean }, _: Voice): string =>
    start && end ? 'both' : start ? 'start' : end ? 'end' : 'none',
  /** On a page. */
  pageTitle: ({ file }: { file: string }, _: Voice): string => `File check: ${file}`,
  pageOfSeveral: ({ designs }: { designs: number }, say: Voice): string =>
    `File check: ${say.counted(designs, 'design')}`,
  unread: ({ files }: { files: number }, say: Voice): string =>
    `${say.counted(files, 'file')} could not be read.`,
  notWhole: ({ stopped }: { stopped: string }, _: Voice): string => `The list is not whole: ${stopped}.`,
  pictureOf: ({ file }: { file: string }, _: Voice): string => `Picture of ${file}`,
  stitchesOf: ({ file, places }: { file: string; places: number }, say: Voice): string =>
    `The stitches of ${file}, with ${say.counted(places, 'lettered place')}`,
  pictureCaption: ({ places }: { places: number }, _: Voice): string =>
    `To scale${places > 0 ? '; the letters are those of the list' : ''}. Darker stitches are of objects with something found.`,
  pictureNotWhole: ({ says }: { says: string }, _: Voice): string => ` Not whole: ${says}.`,
  /** Behind what was found, for whoever doubts it. */
  rests: ({ limit, basis }: { limit: string | null; basis: string }, _: Voice): string =>
    limit === null ? `(${basis})` : `(limit ${limit}: ${basis})`,
  onFabric: ({ fabric }: { fabric: string }, _: Voice): string => `On ${fabric}`,
  movesIn: ({ mm }: { mm: number }, say: Voice): string =>
    `The edges of the design move in by about ${say.length(mm)} in sewing.`,
  causes: 'What the wrinkles come from:',
  cause: ({ short, why, share }: { short: string; why: string; share: number }, say: Voice): string =>
    `${short}, ${say.share(share)}: ${why}`,
  graded: ({ grade, word }: { grade: number; word: string }, _: Voice): string => `${word} (grade ${grade})`,
  riskCaption: 'Predicted at each object, the worst first; the true height most likely lies in the range',
  designs: 'The designs',
  foot: (_: Record<never, never>, say: Voice): string =>
    `Places are ${say.units === 'mm' ? 'mm' : 'inches'} from the origin of the design, x to the right and y upward. Objects are numbered as they are sewn. Sew a test on the same fabric.`,
  caution:
    "Before the first sew-out trace the outline with the needle up, hands clear: a needle that hits a hoop shatters. The machine's manual and the safety rules of the shop go before this sheet.",
  column: {
    object: 'object',
    kind: 'kind',
    place: (_: Record<never, never>, say: Voice): string => `x, y ${say.units}`,
    width: (_: Record<never, never>, say: Voice): string => `width ${say.units}`,
    spacing: (_: Record<never, never>, say: Voice): string => `spacing ${say.units}`,
    underlay: 'underlay',
    found: 'found',
    color: 'color',
    middle: (_: Record<never, never>, say: Voice): string => `middle x, y ${say.units}`,
    stitch: (_: Record<never, never>, say: Voice): string => `stitch ${say.units}`,
    points: 'points a mm²',
    locks: 'locks',
    wrinkle: (_: Record<never, never>, say: Voice): string => `wrinkle ${say.units}`,
    range: (_: Record<never, never>, say: Voice): string => `range ${say.units}`,
    pullIn: (_: Record<never, never>, say: Voice): string => `pull-in ${say.units}`,
    mostly: 'mostly',
    design: 'design',
    verdict: 'verdict',
    size: (_: Record<never, never>, say: Voice): string => `size ${say.units}`,
    stitches: 'stitches',
    time: 'time to sew',
  },
  /** `1 FAIL 2 WARN`. */
  found: (counts: Readonly<Record<Severity, number>>, _: Voice): string =>
    (['fail', 'warn', 'note'] as const)
      .filter((severity) => counts[severity] > 0)
      .map((severity) => `${counts[severity]} ${severity.toUpperCase()}`)
      .join(' ') || '-',
};
