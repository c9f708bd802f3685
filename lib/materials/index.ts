/** `lieflat/materials`: fabrics, backings, threads, needles, places and hoops, each value with its range and what it rests on. */
export { CATALOGUE, type Catalogue, type Shelf } from './catalogue.js';
export type { Fabric, FabricStructure } from './fabrics.js';
export type { Needle } from './needles.js';
export { HOOP_FIELDS, type HoopField, PLACES, type Place } from './places.js';
export type { PlyValues } from './ply-values.js';
export type { Prices } from './prices.js';
export type { Sheet, SheetKind } from './sheets.js';
export type { Thread } from './threads.js';
export type { Topping } from './toppings.js';
