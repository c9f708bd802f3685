/** `lieflat/materials`: fabrics, backings, threads, needles, places and hoops, each value with its range and what it rests on. */
export { CATALOGUE, type Catalogue, type Shelf } from './catalogue.js';
export type { Fabric, FabricStructure } from './fabric.js';
export { fabricNamed, isFabricNamed, type NamedFabric } from './fabric-named.js';
export {
  answersIn,
  FABRIC_QUESTIONS,
  type FabricAnswers,
  type FabricQuestion,
  fabricFor,
} from './fabric-questions.js';
export { GARMENT_KINDS, type GarmentKind, garmentsAkin } from './garments.js';
export type { LikeFabric } from './like-fabric.js';
export type { Needle } from './needles.js';
export { HOOP_FIELDS, type HoopField, PLACES, type Place } from './places.js';
export type { PlyValues } from './ply-values.js';
export type { Prices } from './prices.js';
export type { Sheet, SheetKind } from './sheets.js';
export type { Thread } from './threads.js';
export type { Topping } from './toppings.js';
