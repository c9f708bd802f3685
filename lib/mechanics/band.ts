/**
 * How sure a height is: what it comes to over many draws of all that it rests on. Draws are quasi-random (an additive recurrence with the roots
 * of primes: Niederreiter, *Random Number Generation and Quasi-Monte Carlo Methods*, 1992, from memory). Each quantity has its own place in a
 * draw, the same wherever it appears, so that two setups are compared by the same fabric, sheets and thread, and what both rest on drops out.
 *
 * Tension, hooping and laundering scale parts of the strain; bending and the longest span only need the wrinkles anew. Stiffness of the layers and
 * of the needle points' hold each take one more solve, from which strains are taken to be linear in the logarithm.
 */
import { probit } from 'simple-statistics';
import type { Sourced } from '../core/sourced.js';
import type { Case } from './case.js';
import { stiffened } from './layup.js';
import type { MechanicsParameters } from './parameters.js';
import { WrinkleLaw } from './plate-wrinkle.js';
import { pullsOf } from './puckering.js';
import type { ReleaseCause } from './release.js';
import { type Changed, levelOf, type SolvedSetup } from './setup.js';
import { StrainSpace } from './strain-space.js';

export const DRAWS = 96;

/** Low to high holds nine values in ten. */
const NINE_IN_TEN = 1.645;
/** Of the logarithms of how stiff a fabric is to draw out and to bend: heavier fabric is both. Our own assumption. */
const CORRELATION = 0.5;

/** Logarithmic standard deviation below and above a value. */
interface LogSpread {
  readonly down: number;
  readonly up: number;
}

const spreadOf = (...values: readonly Sourced[]): LogSpread => {
  const mean = (of: (v: Sourced) => number) =>
    values.reduce((sum, v) => sum + of(v), 0) / values.length / NINE_IN_TEN;
  // What may be nothing at all is taken to be at least a twentieth of what it usually is.
  return {
    down: mean(({ value, low }) => Math.log(value / Math.max(low, value / 20))),
    up: mean(({ value, high }) => Math.log(high / value)),
  };
};
const factorAt = ({ down, up }: LogSpread, z: number): number => Math.exp(z * (z < 0 ? down : up));

/** Places in a draw. Sheets come after these, then setups' own errors. */
const PLACES = [
  'tension',
  'longestSpan',
  'points',
  'hoopForce',
  'membrane',
  'bending',
  'fabricShrinkage',
  'threadShrinkage',
  'error',
] as const;
const MOST_SHEETS = 24;
const OWN_ERRORS = 16;
const PRIMES = primes(PLACES.length + MOST_SHEETS + OWN_ERRORS);

function primes(count: number): number[] {
  const found: number[] = [];
  for (let n = 2; found.length < count; n++) if (found.every((p) => n % p !== 0)) found.push(n);
  return found;
}

/** Standard normal value at a place of a draw. */
function normalAt(place: number, draw: number): number {
  const u = ((draw + 0.5) * Math.sqrt(PRIMES[place])) % 1;
  return probit(Math.min(0.999, Math.max(0.001, u)));
}

/** What a height is uncertain by, and how far it moves with it. */
export interface Sensitivity {
  /** What was changed. Two results share it where the names are the same. */
  readonly source: string;
  /** Change of the height, mm, with the value at its low and at its high. */
  readonly atLow: number;
  readonly atHigh: number;
}

interface Uncertain {
  readonly source: string;
  readonly place: number;
  readonly spread: LogSpread;
  readonly strains: Float64Array;
}

/** Strains that change with something: by so much for one more of its logarithm; and by how much narrower every object gets. */
interface UncertainDirection extends Uncertain {
  readonly narrower: readonly number[];
}

/** A part of the strains that scales with something of its own. */
interface Part extends Uncertain {
  readonly cause: ReleaseCause;
}

/** One draw of everything. */
interface Factors {
  tension: number;
  error: number;
  span: number;
  membrane: number;
  bending: number;
  directions: readonly number[];
  parts: readonly number[];
}

/** The band of one setup. */
export class Draws {
  private readonly space: StrainSpace;
  private readonly directions: readonly UncertainDirection[];
  private readonly parts: readonly Part[];
  private readonly spreads: Record<'tension' | 'longestSpan' | 'membrane' | 'bending' | 'error', LogSpread>;
  private readonly ownPlace: number;

  constructor(
    private readonly at: Case,
    private readonly setup: SolvedSetup,
    private readonly parameters: MechanicsParameters,
  ) {
    const { fabric } = at;
    const error = parameters.modelError.value;
    this.spreads = {
      tension: spreadOf(parameters.tension),
      longestSpan: spreadOf(parameters.longestSpan),
      membrane: spreadOf(fabric.membraneAlong, fabric.membraneAcross),
      bending: spreadOf(fabric.bendingAlong, fabric.bendingAcross),
      error: { down: error, up: error },
    };
    this.ownPlace = PLACES.length + MOST_SHEETS + (hash(at.key) % OWN_ERRORS);
    this.directions = this.stiffnesses();
    this.parts = this.shrinking();
    this.space = this.spaceOfDraws();
  }

  private stiffnesses(): UncertainDirection[] {
    const { at, setup, parameters, spreads } = this;
    const { layup, choice, catalogue } = at;
    const { settings } = setup;
    const all: { source: string; place: number; spread: LogSpread; changed: (times: number) => Changed }[] = [
      {
        source: 'stiffness of the fabric',
        place: PLACES.indexOf('membrane'),
        spread: spreads.membrane,
        changed: (times) =>
          setup.changed(
            stiffened(layup, (layer) => (layer === 0 ? times : 1)),
            settings,
          ),
      },
    ];
    if (layup.backing)
      all.push({
        source: 'points',
        place: PLACES.indexOf('points'),
        spread: spreadOf(parameters.pointSpring, parameters.fabricGrip),
        changed: (times) =>
          setup.changed(layup, {
            ...settings,
            pointSpring: times * settings.pointSpring,
            fabricGrip: times * settings.fabricGrip,
          }),
      });
    const ids = Object.keys(catalogue.sheets);
    for (const sheet of new Set(choice.stack.map((one) => one.sheet))) {
      const { membraneAlong, membraneAcross } = catalogue.sheets[sheet];
      all.push({
        source: `stiffness of ${sheet}`,
        place: PLACES.length + (ids.indexOf(sheet) % MOST_SHEETS),
        spread: spreadOf(membraneAlong, membraneAcross),
        changed: (times) =>
          setup.changed(
            stiffened(layup, (layer) => (layer > 0 && choice.stack[layer - 1].sheet === sheet ? times : 1)),
            settings,
          ),
      });
    }
    const pulls = pullsOf(setup.design.rough.design, setup.sewn);
    return all.map(({ source, place, spread, changed }) => {
      const step = Math.max(0.05, spread.up);
      const there = changed(Math.exp(step));
      return {
        source,
        place,
        spread,
        strains: there.strains.map((v, k) => (v - setup.strains[k]) / step),
        narrower: there.pulls.map((pull, k) => (2 * (pull.alongStitchMm - pulls[k].alongStitchMm)) / step),
      };
    });
  }

  private shrinking(): Part[] {
    const { setup, parameters, at } = this;
    const { hoopStretch, laundered } = setup.treatment;
    const { thread, rough } = setup.design;
    const part = (
      cause: ReleaseCause,
      source: string,
      place: (typeof PLACES)[number],
      spread: LogSpread,
    ): Part => ({
      cause,
      source,
      place: PLACES.indexOf(place),
      spread,
      strains: rough.strains(setup.released.partOf(cause)),
    });
    const certain: LogSpread = { down: 0, up: 0 };
    return [
      part('careful hooping', 'hoopForce', 'hoopForce', spreadOf(parameters.hoopForce)),
      ...(hoopStretch > 0 ? [part('hoop stretch', 'hoop stretch', 'hoopForce', certain)] : []),
      ...(laundered > 0
        ? [
            part(
              'fabric shrinkage',
              'shrinkage of the fabric',
              'fabricShrinkage',
              spreadOf(at.fabric.shrinkage),
            ),
            part(
              'thread shrinkage',
              'shrinkage of the thread',
              'threadShrinkage',
              spreadOf(thread.shrinkage),
            ),
          ]
        : []),
    ];
  }

  private spaceOfDraws(): StrainSpace {
    const { setup, at, spreads, directions, parts } = this;
    // The most pull over the longest span on the softest fabric: cells that lie flat there can wrinkle in no draw.
    const [low, high] = [-1.5, 1.5];
    const times = factorAt(spreads.tension, high) * factorAt(spreads.error, high);
    return new StrainSpace(
      setup.design.rough,
      [setup.strains, ...directions.map(({ strains }) => strains), ...parts.map(({ strains }) => strains)],
      [
        {
          times: [times, ...directions.map(() => 0), ...parts.map(() => 0)],
          law: new WrinkleLaw(at.layup.fabric, { membrane: 1, bending: factorAt(spreads.bending, low) }),
          longestSpanMm: setup.settings.longestSpan * factorAt(spreads.longestSpan, high),
        },
      ],
    );
  }

  private heightsWith(factors: Factors): Float64Array {
    const { tension, error, span, directions, parts } = factors;
    return this.space.heights({
      times: [tension, ...directions, ...parts.map((part) => part - tension)].map((by) => error * by),
      law: new WrinkleLaw(this.at.layup.fabric, factors),
      longestSpanMm: this.setup.settings.longestSpan * span,
    });
  }

  private usual(): Factors {
    return {
      tension: 1,
      error: 1,
      span: 1,
      membrane: 1,
      bending: 1,
      directions: this.directions.map(() => 0),
      parts: this.parts.map(() => 1),
    };
  }

  /** Heights of the whole design draw by draw, mm, on the level of the fine mesh. */
  wholeHeights(): Float64Array {
    const { setup } = this;
    const { rough } = setup.design;
    const level = levelOf(setup.fine.heightMm, setup.roughMm);
    return this.seenIn((heights) => [level * rough.seenWhole(heights)])[0];
  }

  /** The same of the whole, then of every object. */
  heights(): Float64Array[] {
    const { setup } = this;
    const { rough, fine } = setup.design;
    const roughSeen = rough.seen(setup.heights);
    const fineSeen = fine.seen(setup.fine.heights);
    const levels = fineSeen.map((mm, k) => levelOf(mm, roughSeen[k]));
    return this.seenIn((heights) => rough.seen(heights).map((mm, k) => levels[k] * mm));
  }

  /** By how much each object gets narrower along its stitches in the hoop, both edges together, draw by draw, mm. */
  narrowings(): Float64Array[] {
    const factors = Array.from({ length: DRAWS }, (_, draw) => this.factorsOf(draw));
    return this.setup.fine.narrowingMm.map((usual, k) =>
      Float64Array.from(factors, ({ tension, directions }) => {
        const changed = this.directions.reduce(
          (mm, { narrower }, d) => mm + directions[d] * narrower[k],
          usual,
        );
        return tension * changed;
      }),
    );
  }

  private factorsOf(draw: number): Factors {
    const { spreads, parameters } = this;
    const at = (place: (typeof PLACES)[number]) => normalAt(PLACES.indexOf(place), draw);
    const stiff = at('membrane');
    const logOf = ({ down, up }: LogSpread, z: number) => z * (z < 0 ? down : up);
    return {
      tension: factorAt(spreads.tension, at('tension')),
      error:
        factorAt(spreads.error, at('error')) *
        Math.exp(parameters.setupError.value * normalAt(this.ownPlace, draw)),
      span: factorAt(spreads.longestSpan, at('longestSpan')),
      membrane: factorAt(spreads.membrane, stiff),
      bending: factorAt(
        spreads.bending,
        CORRELATION * stiff + Math.sqrt(1 - CORRELATION ** 2) * at('bending'),
      ),
      directions: this.directions.map(({ place, spread }) => logOf(spread, normalAt(place, draw))),
      parts: this.parts.map(({ place, spread }) => factorAt(spread, normalAt(place, draw))),
    };
  }

  private seenIn(view: (heights: Float64Array) => number[]): Float64Array[] {
    const out: Float64Array[] = [];
    for (let draw = 0; draw < DRAWS; draw++)
      view(this.heightsWith(this.factorsOf(draw))).forEach((mm, k) => {
        out[k] ??= new Float64Array(DRAWS);
        out[k][draw] = mm;
      });
    return out;
  }

  /** By how much the height of the whole design changes with one thing at its low and at its high. */
  sensitivities(): Sensitivity[] {
    const { spreads, setup } = this;
    const { rough } = setup.design;
    const level = levelOf(setup.fine.heightMm, setup.roughMm);
    const seen = (factors: Factors) => level * rough.seenWhole(this.heightsWith(factors));
    const usual = this.usual();
    const base = seen(usual);
    const of = (source: string, at: (z: number) => Factors): Sensitivity => ({
      source,
      atLow: seen(at(-NINE_IN_TEN)) - base,
      atHigh: seen(at(NINE_IN_TEN)) - base,
    });
    const put = (values: readonly number[], k: number, value: number) =>
      values.map((v, i) => (i === k ? value : v));
    return [
      of('tension', (z) => ({ ...usual, tension: factorAt(spreads.tension, z) })),
      of('longestSpan', (z) => ({ ...usual, span: factorAt(spreads.longestSpan, z) })),
      of('bending of the fabric', (z) => ({ ...usual, bending: factorAt(spreads.bending, z) })),
      ...this.directions.map(({ source, spread }, k) =>
        of(source, (z) => ({
          ...usual,
          ...(k === 0 && { membrane: factorAt(spread, z) }),
          directions: put(usual.directions, k, z * (z < 0 ? spread.down : spread.up)),
        })),
      ),
      ...this.parts
        .map(({ source, spread }, k) =>
          of(source, (z) => ({ ...usual, parts: put(usual.parts, k, factorAt(spread, z)) })),
        )
        .filter(({ atLow, atHigh }) => atLow !== 0 || atHigh !== 0),
    ];
  }
}

function hash(text: string): number {
  let sum = 7;
  for (let k = 0; k < text.length; k++) sum = (31 * sum + text.charCodeAt(k)) % 65_521;
  return sum;
}
