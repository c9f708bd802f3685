/**
 * What goes with a stack: topping, needle, speed, and what to mind in hooping. Choices are common practice, no source; speeds and the width that
 * is left in trimming are from memory.
 */
import { FROM_MEMORY, type Sourced } from '../core/sourced.js';
import type { Fabric } from '../materials/fabric.js';
import type { MachineProfile } from '../measure/sew-time.js';
import type { StackedSheet } from '../mechanics/layup.js';
import { fabricClass } from './fabric-class.js';
import type { AdviceJob } from './job.js';
import type { HoopingNote, Why, WhyParams } from './reason.js';
import { RULE_LIMITS } from './rule-limits.js';

/** What goes over the fabric and through it, whatever lies behind. */
export interface Tools {
  /** Topping id, or null for none. */
  readonly topping: string | null;
  /** Needle id. */
  readonly needle: string;
  readonly speedSpm: number;
  readonly why: readonly Why[];
}

export interface Finishing extends Tools {
  readonly hooping: readonly HoopingNote[];
}

/** Stitches a minute that fabric or stitches take at most, whatever the machine does. */
const SPEEDS = {
  cap: speed(650, 550, 750),
  thinKnit: speed(650, 550, 750),
  pile: speed(700, 600, 800),
  wideSatin: speed(650, 550, 750),
} as const;

function speed(value: number, low: number, high: number): Sourced {
  return { value, low, high, unit: 'stitches/min', basis: FROM_MEMORY };
}

export function finishingFor(
  job: AdviceJob,
  machine: MachineProfile,
  stack: readonly StackedSheet[],
): Finishing {
  const tools = toolsFor(job, machine);
  return { ...tools, hooping: hoopingFor(job, stack, tools.topping) };
}

export function toolsFor(job: AdviceJob, machine: MachineProfile): Tools {
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
  fabric.structure === 'knit' && (!fabric.washable || fabricClass(fabric) === 'thinnest-knit');

function toppingFor({ fabric, catalogue }: AdviceJob): { id: string | null; why: Why[] } {
  const by = (removedBy: 'water' | 'heat') =>
    Object.values(catalogue.toppings).find((topping) => topping.removedBy === removedBy)?.id ?? null;
  const because = (id: string | null, reason: WhyParams['topping']['because']) => ({
    id,
    why: [{ code: 'topping', params: { because: reason } } as const],
  });
  if (!fabric.washable)
    return fabric.open || fabric.pile ? because(by('heat'), 'not-washable') : { id: null, why: [] };
  if (fabric.pile) return because(by('water'), 'pile');
  if (fabric.open) return because(by('water'), 'open-knit');
  if (fabric.elastic) return because(null, 'elastic');
  return { id: null, why: [] };
}

/** Thread of this weight and finer goes through the eye of a 65/9 needle without fraying (common practice, no source). */
const FINE_WEIGHT = 60;

/** A fine needle for small letters goes with fine thread; with the usual thread the usual needle stays, and the letters are told of. */
function needleFor({ fabric, objects, threadWeight }: AdviceJob): { id: string; why: Why[] } {
  const satin = objects.flatMap(({ widthMm }) => (widthMm ? [widthMm.median] : []));
  const small =
    satin.length > 0 &&
    satin.toSorted((a, b) => a - b)[satin.length >> 1] < RULE_LIMITS.smallLetterStroke.value;
  const because = (id: string, reason: WhyParams['needle']['because']) => ({
    id,
    why: [{ code: 'needle', params: { because: reason } } as const],
  });
  if (fabric.cap) return because('80-12-sharp', 'cap');
  const fine = threadWeight >= FINE_WEIGHT;
  if (fabric.structure === 'knit') {
    if (isFineKnit(fabric)) return because('65-9-ball', 'fine-knit');
    if (!small) return because('75-11-ball', 'knit');
    return fine ? because('65-9-ball', 'narrow-on-knit') : because('75-11-ball', 'narrow-for-thread');
  }
  if (fabric.rigid) return because('90-14-sharp', 'heavy');
  if (fabric.mass.value >= RULE_LIMITS.heavyMass.value && !fabric.pile)
    return because('80-12-sharp', 'heavy-woven');
  if (!small) return because('75-11-sharp', 'woven');
  return fine ? because('65-9-sharp', 'narrow') : because('75-11-sharp', 'narrow-for-thread');
}

function paceFor({ fabric, objects }: AdviceJob, machine: MachineProfile): { speedSpm: number; why: Why[] } {
  const wide = objects.some(
    ({ object, widthMm }) => !object.split && widthMm !== null && widthMm.p95 >= RULE_LIMITS.wideSatin.value,
  );
  const limits = [
    ...(fabric.cap ? [{ speedSpm: SPEEDS.cap.value, because: 'cap' } as const] : []),
    ...(fabric.elastic || isFineKnit(fabric)
      ? [{ speedSpm: SPEEDS.thinKnit.value, because: 'thin-knit' } as const]
      : []),
    ...(fabric.pile ? [{ speedSpm: SPEEDS.pile.value, because: 'pile' } as const] : []),
    ...(wide ? [{ speedSpm: SPEEDS.wideSatin.value, because: 'wide-satin' } as const] : []),
  ].toSorted((a, b) => a.speedSpm - b.speedSpm);
  const [slowest] = limits;
  const full = machine.speedSpm.value;
  if (!slowest || slowest.speedSpm >= full) return { speedSpm: full, why: [] };
  return { speedSpm: slowest.speedSpm, why: [{ code: 'speed', params: slowest }] };
}

/** What is left of the backing beyond the stitching, mm (from memory). */
const BACKING_LEFT_MM = 10;

function hoopingFor(
  { fabric, catalogue }: AdviceJob,
  stack: readonly StackedSheet[],
  topping: string | null,
): HoopingNote[] {
  const kinds = stack.map(({ sheet }) => catalogue.sheets[sheet].kind);
  const notes: HoopingNote[] = [{ code: heldHow(fabric), params: {} }];
  if (fabric.pile) notes.push({ code: 'smooth-pile', params: {} });
  notes.push(...turning(stack));
  if (stack.length > 1) notes.push({ code: 'hoop-together', params: {} });
  if (kinds.includes('tear-away')) notes.push({ code: 'tear-backing', params: {} });
  if (kinds.includes('soluble')) notes.push({ code: 'tear-film-behind', params: {} });
  if (kinds.filter((kind) => kind === 'cut-away').length > 1)
    notes.push({ code: 'pick-from-back', params: {} });
  if (kinds.includes('cut-away') || kinds.includes('woven'))
    notes.push({ code: 'trim-backing', params: { leftMm: BACKING_LEFT_MM } });
  if (topping !== null) {
    const { removedBy } = catalogue.toppings[topping];
    notes.push({ code: 'topping-last', params: { removedBy } });
  }
  if (fabric.holesStay) notes.push({ code: 'hoop-marks-for-good', params: {} });
  else if (marksInHoop(fabric)) notes.push({ code: 'hoop-marks', params: { washable: fabric.washable } });
  return notes;
}

/** Whether a hoop leaves marks that last: it crushes what is soft, stretched or delicate, while firm cloth springs back (common practice, no source). */
const marksInHoop = ({ cap, stretchy, pile, sheer, washable }: Fabric): boolean =>
  // A cap is held by its edge: no ring lies on what is seen.
  !cap && (stretchy || pile || sheer || !washable);

/** Firm is not said of pile, which a firm hoop crushes. */
function heldHow({ cap, stretchy, pile }: Fabric) {
  if (cap) return 'on-cap-frame';
  if (stretchy) return 'as-it-lies';
  return pile ? 'straight' : 'flat-and-firm';
}

/** How to lay sheets that are turned, or nothing where none is. */
function turning(stack: readonly StackedSheet[]): HoopingNote[] {
  if (stack.every(({ angleDeg }) => angleDeg === 0)) return [];
  if (stack[0].angleDeg !== 0) return [{ code: 'turn-backing', params: {} }];
  return [{ code: 'turn-others', params: { sheets: stack.length } }];
}
