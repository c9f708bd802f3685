import { type Catalogue, find } from '../materials/catalogue.js';
import { fabricNamed } from '../materials/fabric-named.js';
import { nameTakenFrom } from '../materials/garments.js';
import { USUAL_SHEET } from '../materials/usual-sheet.js';
import { DEFAULT_GRAIN_DEG, type GivenConditions } from './case.js';
import { DEFAULT_THREAD } from './risk.js';
import { parseStack } from './stack-notation.js';

/** Conditions as a person asks for them. */
export interface ConditionsRequest {
  /** Fabric id, or the everyday name of a garment. */
  readonly fabric: string;
  /** As {@link parseStack} reads it; one usual sheet without it. */
  readonly stack?: string;
  readonly grainDeg?: number;
  readonly hoopStretchPercent?: number;
  readonly washes?: number;
  /** Thread id. */
  readonly thread?: string;
}

/** The fabric and what is done with it, every default filled in. */
export interface Conditions extends Required<GivenConditions> {
  readonly thread: string;
  /** False where it was not said what lies behind the fabric and the usual sheet was taken. */
  readonly stackGiven: boolean;
  /** The garment by whose everyday name the fabric was asked for; null where the fabric itself was. */
  readonly garment: NamedGarment | null;
}

/** A garment as it was named, and what it is most likely made of. */
export interface NamedGarment {
  readonly name: string;
  readonly madeOf: string;
  /** The part of the name that it goes by; null where that is the whole. */
  readonly takenAs: string | null;
}

/**
 * Looks every id up and fills the defaults in.
 * @throws LieflatError `unknown-id`, `bad-argument`.
 */
export function conditionsOf(request: ConditionsRequest, catalogue: Catalogue): Conditions {
  const { fabric, garment } = fabricNamed(catalogue, request.fabric);
  const { grainDeg = DEFAULT_GRAIN_DEG, hoopStretchPercent = 0, washes = 0, stack } = request;
  return {
    fabric: fabric.id,
    stack: parseStack(stack ?? USUAL_SHEET.id, catalogue),
    grainDeg,
    hoopStretchPercent,
    washes,
    thread: find(catalogue, 'threads', request.thread ?? DEFAULT_THREAD).id,
    stackGiven: stack !== undefined,
    garment: garment && {
      name: request.fabric,
      madeOf: garment.madeOf,
      takenAs: nameTakenFrom(request.fabric, garment),
    },
  };
}
