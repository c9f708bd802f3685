/** The cover report: which old needle holes show when a design is sewn again, and how to sew it. */
import type { ResewMode } from '../../../rework/resew-mode.js';
import type { Voice } from '../voice.js';

/** Objects that are named; the rest are counted. */
const MOST_RUNS = 10;

const percent = (scale: number, say: Voice): string => `${say.plain((scale - 1) * 100, 1)} %`;

const at = (scale: number, say: Voice): string =>
  scale === 1 ? 'at the same size' : `at ${percent(scale, say)}`;

/** No garment that was out of the hoop comes back nearer than this, mm; common practice, no source. */
const LEAST_ROOM_MM = 0.1;

const room = (mm: number, say: Voice): string =>
  mm === 0
    ? `leaves no room for hooping error: ${say.figure(0.1)} off shows some holes`
    : `leaves ${say.figure(mm)} for hooping error${mm <= LEAST_ROOM_MM ? ', which is hardly ever enough' : ''}`;

/** What each way of making a design larger does. */
const ways: Readonly<Record<ResewMode, string>> = {
  machine: 'scaled as the machine does it',
  regenerate: 'stitches laid again at the spacing they had',
  widen: 'each column made wider by that where it stands, so the whole design grows less: see size',
};

/** What a way of making a design larger hides. */
export interface WayHides {
  mode: ResewMode;
  scale: number;
  holes: number;
  exposed: number;
  /** How far off hooping may be with all still hidden; null where some show. */
  roomMm: number | null;
}

export interface Moved {
  readonly dx: number;
  readonly dy: number;
}

const move = ({ dx, dy }: Moved, say: Voice): string => `${say.bare(dx)}, ${say.bare(dy)} ${say.units}`;

const stands = (mode: ResewMode, one: boolean): string =>
  mode === 'widen'
    ? `${one ? 'stays' : 'stay'} as in the file`
    : `${one ? 'was' : 'were'} only scaled, so the spacing there opened`;

export const resew = {
  title: 'Old needle holes',
  /** The answer, in capitals; `exact`: none shows only where it is hooped better than was asked. */
  answer: (
    { holes, exposed, exact }: { holes: number; exposed: number; exact: boolean },
    say: Voice,
  ): string => {
    if (holes === 0) return 'NO OLD HOLES';
    return exposed === 0
      ? exact
        ? 'OLD HOLES MAY SHOW'
        : 'ALL OLD HOLES HIDDEN'
      : `${say.counted(exposed, 'OLD HOLE', 'OLD HOLES')} WILL SHOW`;
  },
  /** Behind it: `roomMm` is null where holes show, `askedMm` where no more room than that was asked for. */
  taken: (
    {
      file,
      mode,
      grown,
      holes,
      roomMm,
      askedMm,
    }: Record<'file' | 'grown', string> & {
      mode: ResewMode;
      holes: number;
      roomMm: number | null;
      askedMm: number | null;
    },
    say: Voice,
  ): string =>
    `${file}, ${mode} ${grown}: ${roomMm === null ? `out of ${say.counted(holes, 'old hole')}` : room(roomMm, say)}${askedMm === null ? '' : `, less than the ${say.figure(askedMm)} that you asked for`}`,
  /** Where the new design is the old one; `roomMm` is null where holes show all the same. */
  unchanged: (
    { roomMm, slackMm, find }: { roomMm: number | null; slackMm: number; find: boolean },
    say: Voice,
  ): string => {
    const same =
      'There is nothing to write: at the same size and place the design comes out as it is, so sew the file that you have.';
    if (roomMm === null)
      return find
        ? `${same} Of the sizes tried, none hides more of its old holes.`
        : `${same} To hide more of its old holes, make it larger${say.typed(', as --scale 5%')}.`;
    // At the same place every stitch goes into its old hole; a garment that has been out of the hoop never comes back so exactly.
    const exact = `Its stitches go back into the old holes, but only where the garment has not been out of the hoop: hooped again it is hardly ever within ${say.figure(Math.max(roomMm, LEAST_ROOM_MM))}, and old holes show.`;
    return slackMm > roomMm
      ? `${same} ${exact}`
      : `${same} ${exact} Say how far off hooping may be to find a size that allows for it${say.typed(', as --find --slack 0.3')}.`;
  },
  /** `at 5 %`, or what it is across and upright where the two differ. */
  grown: ({ scaleX, scaleY }: { scaleX: number; scaleY: number }, say: Voice): string =>
    scaleX === scaleY
      ? at(scaleX, say)
      : `at ${percent(scaleX, say)} across, ${percent(scaleY, say)} upright`,
  percent: ({ scale }: { scale: number }, say: Voice): string => percent(scale, say),
  wayLabel: 'way',
  way: ({ mode, given, find }: { mode: ResewMode; given: boolean; find: boolean }, say: Voice): string => {
    const taken = find ? 'the smallest growth that hides all, or hides most' : 'the way that hides most';
    return given ? ways[mode] : `${ways[mode]} (${taken}${say.typed('; --mode takes another')})`;
  },
  movedLabel: 'moved',
  moved: ({ toHide, ...by }: Moved & { toHide: boolean }, say: Voice): string =>
    `by ${move(by, say)} (right and up; minus is left and down)${toHide ? `, because fewer old holes show there${say.typed('; --offset 0,0 keeps it in place')}` : ', as asked'}`,
  sizeLabel: 'size',
  size: ({ before, after }: Record<'before' | 'after', readonly [number, number]>, say: Voice): string =>
    `${say.size(...before)} before, ${say.size(...after)} after`,
  stitchesLabel: 'stitches',
  stitches: (
    { before, after, trims }: { before: number; after: number; trims: number },
    say: Voice,
  ): string =>
    `${say.count(before)} before, ${say.count(after)} after${trims > 0 ? `; ${say.counted(trims, 'move')} became a trim` : ''}`,
  spacingLabel: 'spacing',
  spacing: (
    { beforeMm, afterMm, threadMm }: Record<'beforeMm' | 'afterMm' | 'threadMm', number>,
    say: Voice,
  ): string =>
    `${say.bare(beforeMm)} before, ${say.figure(afterMm)} after (middle value of columns and fills); one thread covers ${say.figure(threadMm)}`,
  keptLabel: 'not redone',
  onlyScaled: ({ objects }: { objects: string }, _: Voice): string =>
    `${objects} could only be scaled, so the spacing there opened: too few straight rows side by side`,
  runs: ({ objects, one }: { objects: string; one: boolean }, _: Voice): string =>
    `${objects} ${one ? 'is a run and keeps its' : 'are runs and keep their'} path, with the needle between the old holes`,
  failed: ({ objects, mode, one }: { objects: string; mode: ResewMode; one: boolean }, _: Voice): string =>
    `${objects} could not be sewn this way and stay covered, so ${one ? 'it' : 'they'} ${stands(mode, one)}`,
  unsure: ({ objects, mode, one }: { objects: string; mode: ResewMode; one: boolean }, say: Voice): string =>
    `${objects} may be something else than ${one ? 'it looks like, so it' : 'they look like, so they'} ${stands(mode, one)}${say.typed(`; to redo ${one ? 'it' : 'them'}, use --objects`)}`,
  /** `3`, or `3 (its underlay)`. */
  part: ({ object, underlay }: { object: number; underlay: boolean }, _: Voice): string =>
    `${object}${underlay ? ' (its underlay)' : ''}`,
  parts: ({ names, more }: { names: readonly string[]; more: number }, say: Voice): string =>
    `${names.length + more === 1 ? 'object' : 'objects'} ${names.join(', ')}${more > 0 ? ` and ${say.count(more)} more` : ''}`,
  proofLabel: 'proof',
  proof: ({ mode }: { mode: ResewMode }, _: Voice): string =>
    mode === 'machine'
      ? 'The new file was read again: every stitch lies where the scaling puts it.'
      : 'The new file was read again: it covers all that the old top stitching covers, and no thread lies outside.',
  showLabel: 'showing',
  noTop: 'the new design has no top stitching',
  gaps: ({ halfMm, mostMm }: { halfMm: number; mostMm: number }, say: Voice): string =>
    `half of them lie within ${say.figure(halfMm)} of a thread, the furthest ${say.figure(mostMm)} off`,
  scaleLabel: 'scale needed',
  scale: (
    {
      smallest,
      complete,
      slackMm,
      better,
    }: {
      smallest: number | null;
      complete: boolean;
      slackMm: number;
      better: (Moved & { exposed: number }) | null;
    },
    say: Voice,
  ): string => {
    const hooped = slackMm === 0 ? 'if hooped exactly as before' : `if hooped within ${say.figure(slackMm)}`;
    const needed = !complete
      ? 'none found in the time allowed'
      : smallest === null
        ? `no scale from 0 to 12 % hides every hole ${hooped}`
        : smallest === 1
          ? `0 % ${hooped}; larger only makes room for hooping error${say.typed(' (--slack)')}`
          : `${percent(smallest, say)} ${hooped}; more is not always safer`;
    if (better === null) return needed;
    const left = better.exposed === 0 ? 'none shows' : `only ${say.count(better.exposed)} would show`;
    return `${needed}. Moved by ${move(better, say)}, ${left}${say.typed(' (--offset)')}.`;
  },
  riskLabel: 'risk',
  risk: (
    {
      before,
      after,
      tooClose,
    }: Record<'before' | 'after', { grade: number; word: string; wrinkleMm: number }> & { tooClose: boolean },
    say: Voice,
  ): string =>
    `${before.word} (grade ${before.grade}) before, ${after.word} (grade ${after.grade}) after; wrinkles ${say.bare(before.wrinkleMm)} -> ${say.figure(after.wrinkleMm)}${tooClose ? ', too close to call' : ''}`,
  waysTitle: 'Ways to make it larger',
  column: {
    way: 'way',
    larger: 'larger',
    show: 'showing',
    room: (_: Record<never, never>, say: Voice): string => `room ${say.units}`,
    needed: 'scale needed',
    stitches: 'stitches',
    spacing: (_: Record<never, never>, say: Voice): string => `spacing ${say.units}`,
    object: 'object',
    kind: 'kind',
    place: (_: Record<never, never>, say: Voice): string => `x, y ${say.units}`,
    holes: 'holes',
    showing: 'showing',
    gap: (_: Record<never, never>, say: Voice): string => `gap ${say.units}`,
  },
  takenWay: ({ mode }: { mode: ResewMode }, _: Voice): string => `${mode} *`,
  /** No scale hides all, of those that are tried. */
  none: 'none to 12 %',
  unknown: '?',
  waysNote:
    '* taken. Room: how far off the hooping may be with every hole still hidden, in whole steps of 0.1 mm: a little growth may add none.',
  /** What to take: an order. */
  take: ({ mode, scale, holes, exposed, roomMm }: WayHides, say: Voice): string => {
    const result =
      exposed === 0
        ? `all ${say.counted(holes, 'old hole')} hidden, and it ${room(roomMm ?? 0, say)}`
        : `${say.count(exposed)} of ${say.counted(holes, 'old hole')} will show, the fewest`;
    return `Use ${say.typed('--mode ')}${mode} ${at(scale, say)} (${ways[mode]}): ${result}.`;
  },
  /** Ways that hide all at another scale. */
  hideAll: ({ others }: { others: readonly { mode: ResewMode; scale: number }[] }, say: Voice): string =>
    `To hide all, hooped exactly: ${say.list(others.map(({ mode, scale }) => `${mode} ${at(scale, say)}`))}${say.typed(' (--find takes that)')}.`,
  /** Over the table of objects. */
  objectsTitle: ({ scale, objects, ties }: { scale: number; objects: number; ties: boolean }, say: Voice) => {
    const named = [...(objects > 0 ? [say.counted(objects, 'object')] : []), ...(ties ? ['ties'] : [])];
    return `Where holes show ${at(scale, say)}: ${say.list(named)}`;
  },
  ties: 'ties',
  listAll: ({ left }: { left: number }, say: Voice): string =>
    `and ${say.counted(left, 'other')}${say.typed('; --format json lists them all')}`,
  objectsNote:
    'Gap is how far the furthest of its holes lies from a thread. Ties are tie-ins, tie-offs and travel that belong to no object.',
  enough: (
    { scale, objects, ties }: { scale: number; objects: readonly number[]; ties: boolean },
    say: Voice,
  ) => {
    const named = [
      ...(objects.length > 0 ? [say.objects(objects, MOST_RUNS)] : []),
      ...(ties ? ['ties'] : []),
    ];
    return `Nothing shows ${at(scale, say)} at ${say.list(named)}.`;
  },
  newFindings: ({ findings }: { findings: number }, say: Voice): string =>
    `New findings: ${say.count(findings)}`,
  stepsTitle: 'How to sew it again',
  /** What the person at the machine does: common practice, no source. */
  steps: [
    'Sew the file on a scrap of the same fabric and backing. Hold it over the old stitching: it must cover it all around.',
    'Take the old stitches out from the back: cut the bobbin thread, a few stitches at a time, then pull the top thread off the front.',
    'Hold the fabric up to the light. If threads of the fabric are cut or a knit has run, have it mended first.',
    'Use fresh backing. Hoop as the first time, without stretching the fabric.',
    'Center by the marks of the first time and start from the same origin. Trace the outline with the needle up and compare with the old holes.',
    'Sew, and stop after the first object. If old holes show all along one side, move the design that way before you go on.',
  ],
  cautionsTitle: 'Take care',
  cautions: [
    'A seam ripper or blade slips: cut away from your hand and from the fabric, in good light, with the garment flat and off the machine.',
    "Count the pieces: loose thread, blade tips and broken needles must not stay in the garment, least of all in children's wear.",
    'Keep hands clear while the machine traces and sews: a needle that hits the hoop shatters.',
    'Local rules and the manuals of machine and tool come first.',
  ],
  limit:
    'This says where old holes lie under new thread, hooped exactly. It does not mend fabric that was cut or torn, and holes may open in wear and washing.',
  map: {
    heading: ({ mode, scale, holes, exposed, roomMm }: WayHides, say: Voice): string => {
      const hooped = roomMm ? `within ${say.figure(roomMm)}` : 'exactly';
      const result =
        exposed === 0
          ? `all ${say.counted(holes, 'old hole')} hidden if hooped ${hooped}`
          : `${say.count(exposed)} of ${say.counted(holes, 'old hole')} will show`;
      return `${mode}, ${percent(scale, say)} larger: ${result}`;
    },
    thread: ({ threadMm }: { threadMm: number }, say: Voice): string =>
      `new top stitching, each thread as wide as it covers (${say.figure(threadMm)})`,
    hidden: ({ holes }: { holes: number }, say: Voice): string =>
      `small dots: ${say.counted(holes, 'old hole')} hidden`,
    shown: ({ holes }: { holes: number }, say: Voice): string =>
      `crosses: ${say.counted(holes, 'old hole')} will show`,
  },
};
