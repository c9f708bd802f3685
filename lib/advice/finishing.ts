/**
 * What goes with a stack: topping, needle, speed, and what to mind in hooping. Choices are common practice, no source; speeds and the width that
 * is left in trimming are from memory.
 */
import { FROM_MEMORY, type Sourced } from '../core/sourced.js';
import type { Fabric } from '../materials/fabrics.js';
import type { MachineProfile } from '../measure/sew-time.js';
import type { StackedSheet } from '../mechanics/goods.js';
import { goodsClass } from './goods-class.js';
import type { Job } from './job.js';
import { RULE_LIMITS } from './rule-limits.js';

/** What goes over the goods and through them, whatever lies behind. */
export interface Tools {
  /** Topping id, or null for none. */
  readonly topping: string | null;
  /** Needle id. */
  readonly needle: string;
  readonly speedSpm: number;
  readonly why: readonly string[];
}

export interface Finishing extends Tools {
  readonly hooping: readonly string[];
}

/** Stitches a minute that goods or stitches take at most, whatever the machine does. */
const SPEEDS = {
  cap: speed(650, 550, 750),
  thinKnit: speed(650, 550, 750),
  pile: speed(700, 600, 800),
  wideSatin: speed(650, 550, 750),
} as const;

function speed(value: number, low: number, high: number): Sourced {
  return { value, low, high, unit: 'stitches/min', basis: FROM_MEMORY };
}

export function finishingFor(job: Job, machine: MachineProfile, stack: readonly StackedSheet[]): Finishing {
  const tools = toolsFor(job, machine);
  return { ...tools, hooping: hoopingFor(job, stack, tools.topping) };
}

export function toolsFor(job: Job, machine: MachineProfile): Tools {
  const topping = toppingFor(job);
  const needle = needleFor(job);
  const pace = paceFor(job, machine);
  return {
    topping: topping.id,
    needle: needle.id,
    speedSpm: pace.speedSpm,
    why: [...topping.why, ...needle.why, ...pace.why],
  };
}

/** The thinnest knits, and those of fine wool, which must not get wet. */
const isFineKnit = (fabric: Fabric): boolean =>
  fabric.structure === 'knit' && (!fabric.washable || goodsClass(fabric) === 'thinnest-knit');

function toppingFor({ fabric, catalogue }: Job): { id: string | null; why: string[] } {
  const by = (removedBy: 'water' | 'heat') =>
    Object.values(catalogue.toppings).find((topping) => topping.removedBy === removedBy)?.id ?? null;
  if (!fabric.washable)
    return fabric.open || fabric.pile
      ? { id: by('heat'), why: ['A topping that heat takes off: this fabric must not get wet.'] }
      : { id: null, why: [] };
  if (fabric.pile)
    return { id: by('water'), why: ['A water-soluble topping: stitches would sink into the pile.'] };
  if (fabric.open)
    return {
      id: by('water'),
      why: [
        'A water-soluble topping: stitches look better on an open knit. Try one with it and one without.',
      ],
    };
  if (fabric.elastic)
    return {
      id: null,
      why: [
        'No topping. Many polyester knits look better with a water-soluble one: try one with and one without.',
      ],
    };
  return { id: null, why: [] };
}

function needleFor({ fabric, objects }: Job): { id: string; why: string[] } {
  const satin = objects.flatMap(({ widthMm }) => (widthMm ? [widthMm.median] : []));
  const small =
    satin.length > 0 &&
    satin.toSorted((a, b) => a - b)[satin.length >> 1] < RULE_LIMITS.smallLetterStroke.value;
  if (fabric.cap) return { id: '80-12-sharp', why: ['A sharp 80/12 for a cap.'] };
  if (fabric.structure === 'knit') {
    return small || isFineKnit(fabric)
      ? {
          id: '65-9-ball',
          why: ['A fine ball point: it parts the loops of a fine knit, or sews narrow strokes.'],
        }
      : { id: '75-11-ball', why: ['A ball point: it parts the loops of a knit and cuts none.'] };
  }
  if (fabric.rigid) return { id: '90-14-sharp', why: ['A stout sharp needle for heavy goods.'] };
  if (fabric.mass.value >= RULE_LIMITS.heavyMass.value && !fabric.pile)
    return { id: '80-12-sharp', why: ['A sharp 80/12 for heavy woven goods.'] };
  return small
    ? { id: '65-9-sharp', why: ['A fine sharp needle: the strokes are narrow.'] }
    : { id: '75-11-sharp', why: ['A sharp needle for woven goods.'] };
}

function paceFor({ fabric, objects }: Job, machine: MachineProfile): { speedSpm: number; why: string[] } {
  const wide = objects.some(
    ({ object, widthMm }) => !object.split && widthMm !== null && widthMm.p95 >= RULE_LIMITS.wideSatin.value,
  );
  const limits = [
    ...(fabric.cap ? [{ at: SPEEDS.cap.value, why: 'a cap jumps on its frame' }] : []),
    ...(fabric.elastic || isFineKnit(fabric)
      ? [{ at: SPEEDS.thinKnit.value, why: 'thin knits follow the needle' }]
      : []),
    ...(fabric.pile ? [{ at: SPEEDS.pile.value, why: 'pile catches' }] : []),
    ...(wide ? [{ at: SPEEDS.wideSatin.value, why: 'long stitches pull at speed' }] : []),
  ].toSorted((a, b) => a.at - b.at);
  const [slowest] = limits;
  const full = machine.speedSpm.value;
  if (!slowest || slowest.at >= full) return { speedSpm: full, why: [] };
  return { speedSpm: slowest.at, why: [`${slowest.at} stitches a minute: ${slowest.why}.`] };
}

function hoopingFor(
  { fabric, catalogue }: Job,
  stack: readonly StackedSheet[],
  topping: string | null,
): string[] {
  const kinds = stack.map(({ sheet }) => catalogue.sheets[sheet].kind);
  return [
    fabric.cap
      ? 'The cap must sit tight on its frame, the backing under it from edge to edge.'
      : fabric.stretchy
        ? 'Hoop the goods as they lie on the table: flat, with no stretch in any direction.'
        : 'Hoop the goods flat and firm, straight with their grain.',
    ...(fabric.pile
      ? ['Smooth the pile one way and hoop just firm enough to hold: pile that a hoop crushes stays crushed.']
      : []),
    ...turning(stack),
    ...(stack.length > 1 ? ['Hoop all sheets together with the goods, none loose underneath.'] : []),
    ...(kinds.includes('tear-away')
      ? ['Tear the backing off along the stitching, the stitches held with a thumb.']
      : []),
    ...(kinds.includes('soluble')
      ? ['Tear off the film that stands out behind; what is left under the stitches rinses out.']
      : []),
    ...(kinds.filter((kind) => kind === 'cut-away').length > 1
      ? ['Stitches that have to be picked out are picked from the back: the second sheet saves the goods.']
      : []),
    ...(kinds.includes('cut-away') || kinds.includes('woven')
      ? [
          'Trim the backing to about 10 mm (0.4 in) from the stitching, blades away from the goods and from you.',
        ]
      : []),
    ...(topping === null
      ? []
      : [
          catalogue.toppings[topping].removedBy === 'water'
            ? 'Lay the topping on last. Tear it off, and take the rest off with a damp cloth or the first wash.'
            : 'Lay the topping on last. Take it off with heat as its maker says, after a trial on a hidden place.',
        ]),
    hoopMarks(fabric),
  ];
}

function hoopMarks({ holesStay, washable }: Fabric): string {
  if (holesStay)
    return 'A hoop can mark this material for good: pad the hoop, or hoop the backing and hold the garment on it. Try it on a scrap first.';
  return washable
    ? 'Hoop marks come out with spray starch, not with water.'
    : 'Hoop marks come out with spray starch, not with water; try it on a hidden place first.';
}

/** How to lay sheets that are turned, or nothing where none is. */
function turning(stack: readonly StackedSheet[]): string[] {
  if (stack.every(({ angleDeg }) => angleDeg === 0)) return [];
  if (stack[0].angleDeg !== 0)
    return ['Turn the backing against the garment as the plan says before it is hooped.'];
  const others = stack.length === 2 ? 'the next one as the plan says' : 'those that the plan says';
  return [
    `Lay the first sheet straight with the garment and turn ${others}: the turn is what makes them hold in every direction.`,
  ];
}
