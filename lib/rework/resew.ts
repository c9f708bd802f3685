/** A design sewn again, a little larger, over stitches that were picked out: the new design, and hole by hole what it hides. */
import type { Design } from '../format/design.js';
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import type { SetObject } from '../segment/set-right/saying.js';
import { type Cover, coverOf, coverOfGrowing } from './cover.js';
import type { Enlarge, Enlargement } from './enlargement.js';
import { machineScaled } from './machine-scaled.js';
import { regenerated } from './regenerate.js';
import { type ExposedHole, type Holes, HoleTests, holesOf, roomMm } from './resew-holes.js';
import { RESEW_MODES, type ResewMode } from './resew-mode.js';
import {
  betterOffset,
  type Offset,
  STEPS_PER_ONE,
  smallestScale,
  stepOfFewest,
  stepOfMostRoom,
} from './resew-search.js';
import { asWritten, type WrittenDesign } from './resew-written.js';
import { widened } from './widen.js';

/** The ways to make a design larger. */
export const ENLARGE: Readonly<Record<ResewMode, Enlarge>> = {
  machine: machineScaled,
  regenerate: regenerated,
  widen: widened,
};

/** Full tests of all holes that a search may take: for the smallest scale, for the most room, for a better offset, and for the smallest scale there. */
const SCALE_TESTS = 6;
const ROOM_TESTS = 6;
const OFFSET_TESTS = 3;
const AGAIN_TESTS = 3;
/** Places that may be asked about in any search, however small the design. */
const ALWAYS_ASKED = 5000;

const NONE: ReadonlySet<number> = new Set();

export interface SewnBefore {
  readonly design: Design;
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
  /** What the shop has said of them. */
  readonly said?: readonly SetObject[];
}

export interface ResewWish {
  /** Null for the one that hides most, or, where the smallest growth is looked for, hides all with least. */
  readonly mode: ResewMode | null;
  /** Growth and move; without growth the smallest that hides all is looked for and taken. */
  readonly by: Enlargement | (Offset & { readonly find: true });
  /** Whether the move was asked for, so that no better one is taken instead. */
  readonly offsetGiven: boolean;
  /** Width of fabric that one thread covers, mm. */
  readonly threadMm: number;
  /** How far off the second hooping may be in the search for a scale, mm. */
  readonly slackMm: number;
  /** Ids of objects that the way asked for does not lay anew: their stitches stay as they are and are only moved. */
  readonly leave?: ReadonlySet<number>;
  /** Ids of objects that no way lays anew, as it is not sure what they are. */
  readonly unsure?: ReadonlySet<number>;
}

/** What one way of making the design larger hides. */
export interface ModeOutcome {
  readonly mode: ResewMode;
  readonly by: Enlargement;
  readonly written: WrittenDesign;
  readonly exposed: readonly ExposedHole[];
  /** How far off it may be hooped with all still hidden, mm; null where not all are. */
  readonly roomMm: number | null;
  /** Smallest growth along x and y alike that hides all, as a fraction, at the move asked for; null where there is none up to 12 %. */
  readonly smallest: number | null;
  /** The same for each owner of holes by itself. */
  readonly smallestByOwner: readonly (number | null)[];
  /** False where the search for it ended before it was through. */
  readonly complete: boolean;
  /** A further move that hides more, and, where none hides all without it, the smallest growth that does with it: of the way asked for. */
  readonly better: (Offset & { readonly exposed: number; readonly smallest: number | null }) | null;
  /** The search for the scale moved the design as well, which hides more; nobody asked for the move. */
  readonly movedToHide: boolean;
  /** Work of the searches, in tests of all holes. */
  readonly tests: number;
}

export interface Resewing {
  readonly holes: Holes;
  readonly threadMm: number;
  readonly slackMm: number;
  /** The way that was asked for, or the best where none was. */
  readonly chosen: ModeOutcome;
  /** The best way, whichever was asked for. */
  readonly best: ResewMode;
  /** Whether the way was asked for. */
  readonly modeGiven: boolean;
  /** Whether the smallest growth was looked for. */
  readonly find: boolean;
  /** Every way, in the order of {@link RESEW_MODES}. */
  readonly modes: readonly ModeOutcome[];
}

/**
 * Makes a design larger in the way that is asked for, or in the best one, and looks what it hides, beside what the other ways would. All figures are of
 * the designs as a file holds them: rounded to 0.1 mm.
 */
export function resew(before: SewnBefore, wish: ResewWish): Resewing {
  const holes = holesOf(before.stitches, before.objects);
  const tried = RESEW_MODES.map((mode) => tryWay(before, holes, wish, mode));
  const find = 'find' in wish.by;
  const outcomes = tried.map(({ outcome }) => outcome);
  const best = bestWay(outcomes, find).mode;
  const taken = wish.mode ?? best;
  const modes = tried.map(({ outcome, searched }) => (outcome.mode === taken ? searched() : outcome));
  return {
    holes,
    threadMm: wish.threadMm,
    slackMm: wish.slackMm,
    chosen: modes.find(({ mode }) => mode === taken)!,
    best,
    modeGiven: wish.mode !== null,
    find,
    modes,
  };
}

/**
 * The way that leaves fewest holes in sight. Where the smallest growth is looked for, of those that leave as many the one with least, and where no
 * growth leaves the room that was asked for, the one with most room first; then the one with most room, and of those the first, for it changes least.
 */
export function bestWay(ways: readonly ModeOutcome[], find: boolean): ModeOutcome {
  const grown = ({ by }: ModeOutcome) => (find ? by.x : 0);
  const found = ({ smallest }: ModeOutcome) => (find && smallest === null ? 1 : 0);
  const isBetter = (a: ModeOutcome, b: ModeOutcome): boolean => {
    const room = (b.roomMm ?? 0) - (a.roomMm ?? 0);
    const [first, then] = found(a) === 1 ? [room, grown(a) - grown(b)] : [grown(a) - grown(b), room];
    return (found(a) - found(b) || a.exposed.length - b.exposed.length || first || then) < 0;
  };
  return ways.reduce((best, way) => (isBetter(way, best) ? way : best));
}

/** What one way comes to, and the same with the smallest growth at the better offset, which takes a search of its own. */
interface Tried {
  readonly outcome: ModeOutcome;
  readonly searched: () => ModeOutcome;
}

function tryWay(
  { design, stitches, objects }: SewnBefore,
  holes: Holes,
  { mode: wanted, by, offsetGiven, threadMm, slackMm, leave = NONE, unsure = NONE }: ResewWish,
  mode: ResewMode,
): Tried {
  const left = new Set([...unsure, ...(mode === wanted ? leave : NONE)]);
  const grow = ENLARGE[mode](design, stitches, objects, left);
  const make = (to: Enlargement) => asWritten(grow(to).whole());
  const coverIn = (made: WrittenDesign): Cover => coverOf(made.stitches, made.objects, threadMm);
  const tests = new HoleTests();
  // with slack a hole is asked about where it is and eight times beside it
  const asks = slackMm > 0 ? 9 : 1;
  const budget = (full: number) => Math.max(ALWAYS_ASKED, full * holes.count);
  const grown = (step: number, { dx, dy }: Offset): Enlargement => ({
    x: step / STEPS_PER_ONE,
    y: step / STEPS_PER_ONE,
    dx,
    dy,
  });
  const coverAt = (offset: Offset) => (step: number) =>
    coverOfGrowing(grow(grown(step, offset)), objects.length, threadMm);
  const search = smallestScale(holes, coverAt(by), tests, slackMm, budget(asks * SCALE_TESTS));
  const tryOut = (to: Enlargement) => {
    const written = make(to);
    const cover = coverIn(written);
    return { by: to, written, cover, exposed: tests.exposed(holes, cover) };
  };
  const further = (move: Offset): Offset => ({ dx: by.dx + move.dx, dy: by.dy + move.dy });
  const find = 'find' in by;
  const nearest = () =>
    stepOfMostRoom(holes, coverAt(by), tests, slackMm, budget(asks * ROOM_TESTS)) ??
    stepOfFewest(holes, coverAt(by), tests);
  let tried = tryOut(find ? grown(search.step ?? nearest(), by) : by);
  const move = betterOffset(holes, tried.cover, tests, tried.exposed, budget(OFFSET_TESTS));
  const movedToHide = move !== null && find && !offsetGiven;
  if (movedToHide) tried = tryOut({ ...tried.by, ...further(move) });
  const better = move && !movedToHide ? { ...move, smallest: null } : null;
  const asked = tests.asked;
  const testsOf = (places: number) => (holes.count > 0 ? places / holes.count : 0);
  const outcome: ModeOutcome = {
    mode,
    by: tried.by,
    written: tried.written,
    exposed: tried.exposed,
    roomMm: roomMm(holes, tried.cover, tests, tried.exposed.length),
    smallest: fraction(search.step),
    smallestByOwner: search.byOwner.map(fraction),
    complete: search.complete,
    better,
    movedToHide,
    tests: testsOf(asked),
  };
  return {
    outcome,
    searched: () => {
      // where some scale hides all as it is, nobody needs to know at which it does elsewhere
      if (better === null || search.step !== null) return outcome;
      const start = tests.asked;
      const again = smallestScale(
        holes,
        coverAt(further(better)),
        tests,
        slackMm,
        budget(asks * AGAIN_TESTS),
      );
      const smallest = fraction(again.step);
      return { ...outcome, better: { ...better, smallest }, tests: testsOf(asked + tests.asked - start) };
    },
  };
}

const fraction = (step: number | null): number | null => (step === null ? null : step / STEPS_PER_ONE);
