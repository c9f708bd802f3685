/** What a shop does with the mechanics, and what comes of it. */

import type { Advice, OpenAdvice } from './advice/advise.js';
import type { AdviceWish, AdvisedDesign } from './advice/advise-on.js';
import type { RankedStacks } from './advice/candidates.js';
import type { Calibration } from './calibrate/calibrate.js';
import type { LoggedSewOut, SewOutLog } from './calibrate/sew-out-log.js';
import type { Budget } from './core/budget.js';
import type { Design } from './format/design.js';
import type { MechanicsFigures } from './mechanics/case.js';
import type { Conditions } from './mechanics/conditions.js';
import type { DesignRisk } from './mechanics/risk.js';
import type { Mechanics, MechanicsInput } from './mechanics/with-figures.js';
import type { AdviseReport } from './report/advise/report.js';
import type { FileDigest } from './report/batch/report.js';
import type { ColumnsForeseen } from './report/columns/report.js';
import type { ChangeForeseen } from './report/compare/report.js';
import type { RelayReport } from './report/relay/report.js';
import type { ResewReport } from './report/resew/report.js';
import type { FileFacts } from './report/vet/build.js';
import type { RelayWish } from './rework/relay-design.js';
import type { Resewing } from './rework/resew.js';
import type { ResewRequest } from './rework/resew-design.js';
import type { Shop, VetSettings, Vetting } from './shop.js';
import type { SewnDesign } from './stitch/relaid.js';

/** A design vetted, and its risk under some conditions. */
export interface RiskedVetting extends Vetting {
  conditions: Conditions;
  risk: DesignRisk;
}

/** A design relaid: the file, what is found in it when it is read again, and the report of the change. */
export interface Relaying {
  readonly bytes: Uint8Array;
  readonly before: Vetting;
  readonly after: Vetting;
  readonly report: RelayReport;
}

/** A design made larger to be sewn again, and everything that is said of it. */
export interface Resewn {
  readonly resewing: Resewing;
  /** The file to sew. */
  readonly bytes: Uint8Array;
  /** What reading that file again gives. */
  readonly after: Vetting;
  readonly report: ResewReport;
}

/**
 * A shop with everything that takes the mechanics; `fullShop` makes one.
 *
 * @example
 * ```ts
 * import { factsOf, readDesignFile, shopOf } from 'lieflat';
 * import { fullShop } from 'lieflat/pipeline';
 * const shop = fullShop(shopOf());
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shop.vet(file.design, { file: factsOf(file) });
 * const onKnit = shop.quickRisk(vetting, shop.conditions({ fabric: 'performance-knit', stack: 'none' }));
 * const onTote = shop.quickRisk(vetting, shop.conditions({ fabric: 'canvas-tote' }));
 * onKnit.wrinkleMm > onTote.wrinkleMm; // => true
 * ```
 */
export interface FullShop extends Shop, Mechanics, MechanicsFigures {
  /**
   * `vet`, with the risk of every object and of the whole in the report, and the advice: the risk is that over the backing asked for, or the usual one; the
   * advice is over the backing asked for, or free to choose. Findings about underlay are as the advice settles them.
   */
  vetOn(design: Design, settings: VetSettings, conditions: Conditions): RiskedVetting;
  /**
   * What a list of many files takes of `vetOn`, to the last figure, for less work: of the risk the grade alone, and no plan where the findings settle
   * the verdict.
   * @param hashed as for `digestOf`
   */
  digestOn(design: Design, settings: VetSettings, conditions: Conditions, hashed?: boolean): FileDigest;
  /**
   * What to do about a design on a fabric: every plan that the rules of the trade leave, worked out. With a stack in the wish that stack alone
   * is looked at; `washes` goes before the shop's own.
   * @throws LieflatError `unknown-id`, `bad-argument`, `bad-profile` where the profile prices nothing that may be used
   */
  advise(vetting: AdvisedDesign, wish: AdviceWish): Advice;
  /**
   * The same in steps, for designs that have to share a stack: stacks ranked first, the advice once one is chosen.
   * @param known how stacks ranked for the design before, under the same wish
   * @throws LieflatError as {@link FullShop.advise}
   */
  openAdvice(vetting: AdvisedDesign, wish: AdviceWish, known?: RankedStacks): OpenAdvice;
  /** What `lieflat advise --format json` prints; `set` is that of the vetting. */
  adviseReport(file: FileFacts, advice: Advice, set: Vetting['set']): AdviseReport;
  /** The risk of two versions of a design under the same conditions, for `compareReports`. */
  change(before: MechanicsInput, after: MechanicsInput, conditions: Conditions): ChangeForeseen;
  /** What satin columns do under some conditions, as they are and with the underlay that is advised, for `columnsReport`. */
  columnsRisk(vetting: Vetting, conditions: Conditions): ColumnsForeseen;
  /**
   * The design with other underlay under some of its satin columns, as a file. What that file holds is decoded and vetted again; a column that
   * would not come out as asked is left as it was, and the report says why; so is one without the proof that all that is seen of the design stays as it is.
   * @throws LieflatError `unknown-id`, `bad-argument` for an object that is no satin column or a design that the format cannot hold
   */
  relay(design: Design, settings: VetSettings, wish?: RelayWish): Promise<Relaying>;
  /**
   * Makes a vetted design larger, to be sewn again over its own needle holes, and proves hole by hole what is hidden. An object without the proof
   * that all stays covered is not laid anew, nor one of which it is not sure what it is; the report names both.
   * @throws LieflatError `unknown-id`, `bad-argument` for a growth that no file can hold or the mode cannot do without bare places
   */
  resew(
    before: Vetting,
    request: ResewRequest,
    settings: VetSettings,
    conditions: Conditions | null,
  ): Promise<Resewn>;
  /**
   * A shop's log of graded sew-outs, its ids looked up; rows that cannot be used are listed.
   * @throws LieflatError `undecodable`, its place `line N`, where there is no table
   */
  readSewOuts(bytes: Uint8Array): Promise<SewOutLog>;
  /**
   * The parameters of the model that suit graded and measured sew-outs. Rows are taken as they are: leave those of `unsewnRows` out before.
   *
   * @param designs stitches and objects by the names that the rows have for them
   * @param place what the log is called in errors
   * @throws LieflatError `no-fit` where the sew-outs cannot carry a fit, saying what is missing; `bad-argument` for a design that is not given
   */
  calibrate(
    rows: readonly LoggedSewOut[],
    designs: ReadonlyMap<string, SewnDesign>,
    place: string,
    budget?: Budget,
  ): Promise<Calibration>;
}
