import { type Accepted, USUALLY_ACCEPTED } from '../advice/accepted.js';
import { type Pricing, type ShopWork, USUAL_PRICING, USUAL_WORK } from '../advice/price.js';
import type { Catalogue } from '../materials/catalogue.js';
import type { LikeFabric } from '../materials/like-fabric.js';
import { COMMERCIAL_HEAD } from '../materials/machine.js';
import { PLACES, type Place } from '../materials/places.js';
import { CATALOGUE_PRICES, type Prices } from '../materials/prices.js';
import { USUAL_STOCK } from '../materials/stock.js';
import { USUAL_THREAD_USE } from '../materials/thread-use.js';
import type { MachineProfile } from '../measure/sew-time.js';
import type { ThreadUse } from '../measure/thread-length.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import type { PaperName } from '../report/card/paper.js';
import { LIMITS, type Limits } from '../vetting/limits.js';
import type { SetDesigns } from './set-objects.js';

/** Every figure that a shop may set, complete; plain data, so that it can be handed to another thread. */
export interface ShopFigures {
  limits: Limits;
  machine: MachineProfile;
  threadUse: ThreadUse;
  places: readonly Place[];
  prices: Prices;
  /** Ids of the sheets that it keeps: plans are made of these. */
  stock: readonly string[];
  work: ShopWork;
  pricing: Pricing;
  /** The lowest grades that may leave the shop. */
  accept: Accepted;
  /** Materials; the built-in ones without it. */
  catalogue?: Catalogue;
  /** Garments that the shop has names of its own for, as it says them; the fabrics made of them are in its catalogue. */
  garments?: Readonly<Record<string, LikeFabric>>;
  /** Colors of thread that the shop has names of its own for: each a color of CSS. */
  threadColors?: Readonly<Record<string, string>>;
  /** Thread colors of designs in sewing order, by the SHA-256 of a file's content. */
  designThreads?: Readonly<Record<string, string>>;
  /** What cards and replies are printed on. */
  paper?: PaperName;
  /** What the pucker model leaves open; fitted to facts of the trade without it. */
  parameters?: MechanicsParameters;
  /** What a person has to be told of the profile, each with its file and line. */
  notes?: readonly string[];
  /** What the shop has said of objects of its designs, by the SHA-256 of a file's content; nothing without it. */
  setObjects?: SetDesigns;
}

/** Those of a shop without a profile. */
export const BUILT_IN_FIGURES: ShopFigures = {
  limits: LIMITS,
  machine: COMMERCIAL_HEAD,
  threadUse: USUAL_THREAD_USE,
  places: PLACES,
  prices: CATALOGUE_PRICES,
  stock: USUAL_STOCK.ids,
  work: USUAL_WORK,
  pricing: USUAL_PRICING,
  accept: USUALLY_ACCEPTED,
};
