/** What a card is made of, and how it is wanted. */
import type { Design } from '../../format/design.js';
import type { Stitches } from '../../format/stitches.js';
import type { Catalogue } from '../../materials/catalogue.js';
import type { HoopField, Place } from '../../materials/places.js';
import type { DesignMeasures } from '../../measure/measures.js';
import type { MachineProfile } from '../../measure/sew-time.js';
import type { WrinkleField } from '../../mechanics/risk.js';
import type { AdviseReport } from '../advise/report.js';
import type { NamedColor } from '../proof/thread-colors.js';
import type { Units } from '../quantities.js';
import type { PaperName } from './paper.js';
import type { CardLanguage } from './words.js';

export interface CardInput {
  design: Design;
  stitches: Stitches;
  designMeasures: DesignMeasures;
  /** Every plan, and which one the shop can accept. */
  advice: AdviseReport;
  /** Degrees counter-clockwise from level. */
  grainDeg: number;
  /** That is used; null where none was given and none that is known holds the design. */
  hoop: HoopField | null;
  /** Where on the garment, if that is known. */
  place?: Place;
  /** Of the shown plan (`recommended`) after its washes, with its underlay. */
  maps: WrinkleField;
  machine: MachineProfile;
  catalogue: Catalogue;
  /** In the order in which the machine calls them; what nobody named is written in by hand. */
  threads?: readonly NamedColor[];
  /** What the shop says of the job. */
  job?: CardJob;
}

/** Any text; what is left out is not on the card. */
export interface CardJob {
  order?: string;
  customer?: string;
  quantity?: number;
  garmentColor?: string;
  due?: string;
  remarks?: string;
}

export interface CardOptions {
  /** What the file is called. Any text; escaped here. */
  title: string;
  units: Units;
  language: CardLanguage;
  paper: PaperName;
  /** Print what a piece costs: no matter of the operator's. */
  cost: boolean;
}
