/** The mechanics on a shop's own materials and parameters. */
import { type Answers, NOTHING_KEPT } from '../core/answers.js';
import { type Budget, UNBOUNDED } from '../core/budget.js';
import type { Stitches } from '../format/stitches.js';
import { find } from '../materials/catalogue.js';
import type { HoopField } from '../materials/places.js';
import type { StitchObject } from '../segment/objects.js';
import type { MechanicsFigures } from './case.js';
import type { PullIn } from './column-pull.js';
import { pullsInHoop } from './compensation.js';
import { type Conditions, type ConditionsRequest, conditionsOf } from './conditions.js';
import { riskBytes } from './memory.js';
import type { PreparedDesign } from './prepared-design.js';
import {
  assess,
  assessFully,
  assessWithMaps,
  type DesignRisk,
  prepare,
  type QuickRisk,
  type RiskMaps,
  wrinkleField,
} from './risk.js';

/** What the mechanics need of a vetted design. */
export interface MechanicsInput {
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
  /** The smallest usual hoop that holds it without one; on a cap, the smallest cap frame. */
  readonly hoop?: HoopField;
  readonly budget?: Budget;
}

/** What the mechanics tell of a design under some conditions; everything throws LieflatError `unknown-id`, `bad-argument`, `over-budget`. */
export interface Mechanics {
  /** Looks up what a person asks for, with every default filled in. */
  conditions(request: ConditionsRequest): Conditions;
  /** The risk under each of several conditions, in their order; what does not depend on them is worked out once. */
  risks(design: MechanicsInput, conditions: readonly Conditions[]): DesignRisk[];
  /** Score, grade, pull-in and height alone, without ranges and causes: about a dozenth of the work. */
  quickRisk(design: MechanicsInput, conditions: Conditions): QuickRisk;
  /** The same with how it wrinkles, cell by cell. */
  mappedRisk(design: MechanicsInput, conditions: Conditions): { risk: QuickRisk; maps: RiskMaps };
  /** How it wrinkles, cell by cell: the maps alone. */
  wrinkles(design: MechanicsInput, conditions: Conditions): RiskMaps;
  /** How far the edges of each object move in sewing, as the hoop holds them. */
  pulls(design: MechanicsInput, conditions: Conditions): PullIn[];
}

/**
 * The mechanics on some materials and parameters, made once: no answer can fall back to the built-in ones.
 * @param answers where what is worked out is kept
 *
 * @example
 * ```ts
 * import { CATALOGUE } from 'lieflat/materials';
 * import { mechanicsWith, PARAMETERS, stackText } from 'lieflat/mechanics';
 * const { conditions } = mechanicsWith({ catalogue: CATALOGUE, parameters: PARAMETERS });
 * stackText(conditions({ fabric: 'denim', stack: 'woven-polyester@45' }).stack); // => 'woven-polyester@45'
 * conditions({ fabric: 'dennim' }); // throws 'unknown-id'
 * ```
 */
export function mechanicsWith(figures: MechanicsFigures, answers: Answers = NOTHING_KEPT): Mechanics {
  const { catalogue, parameters } = figures;
  const onCap = ({ fabric }: Conditions): boolean => find(catalogue, 'fabrics', fabric).cap;
  const prepared = ({ stitches, objects, hoop }: MechanicsInput, on: Conditions): PreparedDesign =>
    prepare({ stitches, objects, thread: on.thread, hoop, onCap: onCap(on) }, catalogue);
  /** What a preparation hangs on. */
  const wayOf = (on: Conditions): string => `${on.thread} ${onCap(on)}`;
  const within = <T>(
    { stitches, objects, hoop, budget = UNBOUNDED }: MechanicsInput,
    asked: readonly [kind: string, on: Conditions | readonly Conditions[]],
    bytes: number,
    work: () => T,
  ): T =>
    budget.run(() => {
      budget.reserve(bytes);
      return answers.of([...asked, stitches, objects, hoop, catalogue, parameters], work);
    });
  /** Of a design on one fabric over one backing. */
  const alone =
    <T>(kind: string, work: (design: PreparedDesign, on: Conditions, figures: MechanicsFigures) => T) =>
    (design: MechanicsInput, on: Conditions): T =>
      within(design, [kind, on], riskBytes(design.stitches, design.objects, 1, 1), () =>
        work(prepared(design, on), on, figures),
      );
  return {
    conditions: (request) => conditionsOf(request, catalogue),
    risks: (design, conditions) => {
      const ways = new Map(conditions.map((on) => [wayOf(on), on]));
      const bytes = riskBytes(design.stitches, design.objects, ways.size, conditions.length);
      return within(design, ['risks', conditions], bytes, () => {
        const ready = new Map([...ways].map(([way, on]) => [way, prepared(design, on)]));
        return conditions.map((on) => assessFully(ready.get(wayOf(on))!, on, figures));
      });
    },
    quickRisk: alone('quick risk', assess),
    mappedRisk: alone('mapped risk', assessWithMaps),
    wrinkles: alone('wrinkles', wrinkleField),
    pulls: alone('pulls', pullsInHoop),
  };
}
