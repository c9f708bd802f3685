/** What rewriting does to a design, in figures: beside the truth of who laid it, and beside brute force. */

import type { Design } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { coverOf } from '../../lib/rework/cover.js';
import type { Enlargement } from '../../lib/rework/enlargement.js';
import { holesOf } from '../../lib/rework/resew-holes.js';
import { RESEW_MODES, type ResewMode } from '../../lib/rework/resew-mode.js';
import { bruteDistance } from './brute-cover.js';
import { barePlaces, enlargeProven, readDesign, relayAll, type Sewn } from './rewrites.js';

const BY: Enlargement = { x: 0.05, y: 0.05, dx: 0, dy: 0 };
const THREAD_MM = 0.4;
/** Holes of a design that are held against every thread. */
const HOLES_TRIED = 150;

/**
 * Of the wide columns asked for so many are relaid (0.97 is the aim; ornaments, cloth sewn on and columns shorter than wide are left still); of areas and
 * columns made larger so many are told of, as shares.
 */
const LEAST_RELAID = 0.95;
const MOST_TOLD = 0.02;
/** Of all holes so many are proved as brute force does. */
const LEAST_AGREED = 0.9995;

export class Figures {
  files = 0;
  asked = 0;
  wide = 0;
  relaid = 0;
  lost = 0;
  filesLost = 0;
  sound = 0;
  readonly warned: Record<ResewMode, number> = { machine: 0, regenerate: 0, widen: 0 };
  readonly bare: Record<ResewMode, number> = { machine: 0, regenerate: 0, widen: 0 };
  holes = 0;
  agree = 0;
  falseHidden = 0;

  add(other: Figures): void {
    for (const key of [
      'files',
      'asked',
      'wide',
      'relaid',
      'lost',
      'filesLost',
      'sound',
      'holes',
      'agree',
      'falseHidden',
    ] as const)
      this[key] += other[key];
    for (const mode of RESEW_MODES) {
      this.warned[mode] += other.warned[mode];
      this.bare[mode] += other.bare[mode];
    }
  }

  /** What is not as it should be, in words. */
  beyond(): string[] {
    const wrong: string[] = [];
    const hold = (holds: boolean, what: string) => {
      if (!holds) wrong.push(what);
    };
    hold(this.lost === 0, `${this.lost} top stitches lost`);
    hold(this.relaid >= LEAST_RELAID * this.wide, `${this.relaid} of ${this.wide} wide columns relaid`);
    const told = RESEW_MODES.reduce((sum, mode) => sum + this.warned[mode], 0);
    hold(
      told <= MOST_TOLD * RESEW_MODES.length * this.sound,
      `${told} of ${this.sound} areas and columns told of`,
    );
    for (const mode of RESEW_MODES) hold(this.bare[mode] === 0, `${this.bare[mode]} places bare by ${mode}`);
    hold(this.agree >= LEAST_AGREED * this.holes, `${this.agree} of ${this.holes} holes proved`);
    hold(this.falseHidden === 0, `${this.falseHidden} holes called hidden in sight`);
    return wrong;
  }

  toString(): string {
    const share = (n: number, of: number) =>
      of === 0 ? '     -' : `${((100 * n) / of).toFixed(2)}%`.padStart(7);
    const modes = RESEW_MODES.map(
      (mode) => `${this.bare[mode]}`.padStart(5) + share(this.warned[mode], this.sound),
    );
    return `${`${this.files}`.padStart(5)}${`${this.asked}`.padStart(6)}${`${this.wide}`.padStart(6)}${share(this.relaid, this.wide)}${`${this.lost}`.padStart(6)}${`${this.filesLost}`.padStart(5)} |${modes.join(' |')} |${`${this.holes}`.padStart(7)}${share(this.agree, this.holes)}${`${this.falseHidden}`.padStart(5)}`;
  }
}

export async function measureRewrites(sewn: Sewn, say: (text: string) => void): Promise<Figures> {
  const figures = new Figures();
  figures.files = 1;
  const relaid = await relayAll(sewn);
  figures.asked = relaid.asked;
  figures.wide = relaid.askedWide;
  figures.relaid = relaid.relaidWide;
  figures.lost = relaid.lost;
  figures.filesLost = relaid.lost > 0 ? 1 : 0;
  if (relaid.lost > 0) say(`${sewn.name}: ${relaid.lost} top stitches lost in relaying`);
  if (relaid.why.length > 0) say(`${sewn.name}: not relaid: ${relaid.why.join(', ')}`);
  const before = readDesign(sewn.design);
  const sound = before.objects.filter(({ kind }) => kind !== 'run');
  figures.sound = sound.length;
  for (const mode of RESEW_MODES) {
    const { made, told } = await enlargeProven(before, mode, BY);
    figures.warned[mode] = sound.filter(({ id }) => told.has(id)).length;
    if (figures.warned[mode] > 0) say(`${sewn.name}: ${mode} leaves or tells of ${figures.warned[mode]}`);
    const bare = barePlaces(before, made, mode, BY).filter(({ object }) => !told.has(object));
    figures.bare[mode] = bare.length;
    if (bare.length > 0)
      say(`${sewn.name}: ${mode} leaves ${bare.length} bare, first at ${JSON.stringify(bare[0])}`);
    proveHoles(figures, made.stitches, made.objects, before, say, sewn.name);
  }
  return figures;
}

/** Holes of the design before, held against every thread of the one made. */
function proveHoles(
  figures: Figures,
  stitches: Parameters<typeof coverOf>[0],
  objects: Parameters<typeof coverOf>[1],
  before: ReturnType<typeof readDesign>,
  say: (text: string) => void,
  name: string,
): void {
  const cover = coverOf(stitches, objects, THREAD_MM);
  const holes = holesOf(before.stitches, before.objects);
  const stride = Math.max(1, Math.floor(holes.count / HOLES_TRIED));
  for (let h = 0; h < holes.count; h += stride) {
    const gap = bruteDistance(stitches, objects, holes.x[h], holes.y[h]) - THREAD_MM / 2;
    figures.holes++;
    const agrees = cover.underThread(holes.x[h], holes.y[h]) === gap <= 1e-9;
    if (agrees) figures.agree++;
    if (cover.hides(holes.x[h], holes.y[h]) && gap > 0.1 + 1e-9) {
      figures.falseHidden++;
      say(`${name}: hole ${h} called hidden, ${gap.toFixed(3)} mm from thread`);
    }
  }
}

/** As a file holds it; null where none can. */
export function asFile(design: Design): Design | null {
  try {
    return decodeDst(encodeDst(design));
  } catch {
    return null;
  }
}
