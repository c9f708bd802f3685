import type { Catalogue } from '../materials/catalogue.js';
import type { Fabric } from '../materials/fabric.js';
import type { DesignMeasures, ObjectMeasures } from '../measure/measures.js';
import type { CalledColumns } from '../vetting/columns-called.js';

/** A design that is to be sewn on a fabric: all that the rules of the trade look at. */
export interface AdviceJob {
  readonly fabric: Fabric;
  readonly catalogue: Catalogue;
  readonly design: DesignMeasures;
  readonly objects: readonly ObjectMeasures[];
  /** Of the top thread, as on its label: 40 is the usual, 60 is finer. */
  readonly threadWeight: number;
  /** The satin columns that call for another underlay. */
  readonly called: CalledColumns;
}
